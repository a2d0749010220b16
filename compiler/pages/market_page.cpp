#include "pages/builders.hpp"

namespace coeval {

void build_market(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
