#include "pages/builders.hpp"

namespace coeval {

void build_checklist(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
