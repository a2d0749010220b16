#include "pages/builders.hpp"

namespace coeval {

std::string json_ld_of(const Site&, const PlannedPage&, const Page&) { return {}; }

} // namespace coeval
