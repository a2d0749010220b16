#include "pages/builders.hpp"

namespace coeval {

void build_figure(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
