#include "pages/builders.hpp"

namespace coeval {

void build_issue(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
