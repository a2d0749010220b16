#include "pages/builders.hpp"

namespace coeval {

void build_matrix(const Site&, const PlannedPage&, Page&) {}

} // namespace coeval
