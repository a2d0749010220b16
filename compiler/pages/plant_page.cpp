#include "pages/builders.hpp"

namespace coeval {

void build_plant(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
