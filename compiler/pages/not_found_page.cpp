#include "pages/builders.hpp"

namespace coeval {

void build_not_found(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
