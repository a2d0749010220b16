#include "pages/builders.hpp"

namespace coeval {

void build_search(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
