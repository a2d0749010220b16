#include "pages/builders.hpp"

namespace coeval {

void build_mark(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
