#include "pages/builders.hpp"

namespace coeval {

void build_accessory(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
