#include "pages/builders.hpp"

namespace coeval {

void build_period(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
