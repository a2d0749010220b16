#include "pages/builders.hpp"

namespace coeval {

void build_agenda(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
