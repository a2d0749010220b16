#include "pages/builders.hpp"

namespace coeval {

void build_repro(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
