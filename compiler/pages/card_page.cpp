#include "pages/builders.hpp"

namespace coeval {

void build_card(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
