#include "diagnose/reason.hpp"

namespace coeval {

std::string_view name(Basis basis) {
  switch (basis) {
  case Basis::documented:
    return "documented";
  case Basis::observed:
    return "observed";
  case Basis::reported:
    return "reported";
  case Basis::conjectured:
    return "conjectured";
  }
  return {};
}

} // namespace coeval
