#include "pages/builders.hpp"

namespace coeval {

void build_key(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
