#include "pages/builders.hpp"

namespace coeval {

void build_disputes(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
