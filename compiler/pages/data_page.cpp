#include "pages/builders.hpp"

namespace coeval {

void build_data(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
