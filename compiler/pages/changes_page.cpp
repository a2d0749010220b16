#include "pages/builders.hpp"

namespace coeval {

void build_changes(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
