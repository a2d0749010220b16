#include "pages/builders.hpp"

namespace coeval {

void build_home(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
