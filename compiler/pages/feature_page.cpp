#include "pages/builders.hpp"

namespace coeval {

void build_feature(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
