#include "pages/builders.hpp"

namespace coeval {

void build_names(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
