#include "diagnose/reason.hpp"

#include <algorithm>

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

void tell_once(std::vector<Reason>& list, Reason reason) {
  const bool told = std::ranges::any_of(
      list, [&](const Reason& other) { return other.statement == reason.statement && other.place == reason.place; });
  if (!told) list.push_back(std::move(reason));
}

} // namespace coeval
