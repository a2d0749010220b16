#include "pages/builders.hpp"

namespace coeval {

void build_line(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
