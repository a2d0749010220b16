#include "pages/builders.hpp"

namespace coeval {

void build_schema(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
