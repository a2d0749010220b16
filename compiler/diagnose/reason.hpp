// diagnose/reason.hpp: how strong is a statement, and where does it come from?
//
// A Reason is one statement of the knowledge base as shown to a reader. Contradictions, verdicts and pages all tell
// their story as a list of Reasons, so that the story is told, and tested, once.
#pragma once

#include <array>
#include <compare>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "source/text.hpp"

namespace coeval {

// Strongest first. What holds on `documented` holds on every later one too.
enum class Basis : std::uint8_t { documented, observed, reported, conjectured };
inline constexpr std::array all_bases{Basis::documented, Basis::observed, Basis::reported, Basis::conjectured};
[[nodiscard]] std::string_view name(Basis basis);

struct Reason {
  std::string
      statement; // one plain sentence, lower case, no full stop: "ring-top was in the press until 1981-01 or later"
  Span place;
  Basis basis = Basis::documented;
  std::vector<std::string> sources; // citations as written: "trade-catalogue-1981 p. 9"
  bool definition = false;          // true where it holds by the meaning of the words and no source is needed
  bool weakest = false;             // in a contradiction: the one to doubt first
  friend auto operator<=>(const Reason&, const Reason&) = default;
};

// Appends a reason, unless the same statement at the same place is told already.
void tell_once(std::vector<Reason>& list, Reason reason);

} // namespace coeval
