#include "pages/builders.hpp"

namespace coeval {

void build_verdicts(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
