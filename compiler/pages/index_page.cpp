#include "pages/builders.hpp"

namespace coeval {

void build_index(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
