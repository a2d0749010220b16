#include "pages/builders.hpp"

namespace coeval {

void build_run(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
