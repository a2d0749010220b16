#include "pages/builders.hpp"

namespace coeval {

void build_checker(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
