#include "pages/builders.hpp"

namespace coeval {

void build_claim(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
