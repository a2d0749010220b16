#include "constraints/stop.hpp"

#include <cstdio>
#include <cstdlib>

namespace coeval {

void stop(const char* bug) {
  std::fprintf(stderr, "coeval: bug in the use of constraints: %s\n", bug);
  std::abort();
}

} // namespace coeval
