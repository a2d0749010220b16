#include "pages/builders.hpp"

namespace coeval {

void build_source(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
