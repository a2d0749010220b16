#include "pages/builders.hpp"

namespace coeval {

void build_route(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
