// verdicts/verdict.hpp: what can be the answer to "does this run belong with this issue"?
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "calendar/day.hpp"
#include "links/kb.hpp"

namespace coeval {

// The best first: an outfit lists its runs in this order.
enum class Verdict : std::uint8_t {
  attested,      // found together, and nothing speaks against it
  fits,          // place, time and route are all proven
  open,          // neither proven nor ruled out
  stale,         // made too long before: no stock was kept for so long
  misrouted,     // nothing went from its plant to the packer
  reserved,      // it went to other issues only
  refuted,       // the pairing was examined and found wrong
  anachronistic, // made only after the issue was last packed
  no_place,      // the issue does not take this accessory
};
inline constexpr std::size_t verdict_count = 9;
[[nodiscard]] std::string_view name(Verdict verdict);

enum class Answer : std::uint8_t { yes, no, undecided };
[[nodiscard]] std::string_view name(Answer answer);

enum class Ground : std::uint8_t { place, time, route, record };
[[nodiscard]] std::string_view name(Ground ground);

struct GroundAnswer {
  Answer answer = Answer::undecided;
  std::optional<Basis> basis; // the strongest basis that already proves a yes or a no
  std::string words;          // why, in one line
  std::vector<Reason> proof;  // the statements that prove it; empty where undecided or not asked for
};

struct Judgement {
  RunIndex run{};
  IssueIndex issue{};
  Verdict verdict = Verdict::open;
  std::optional<Basis> basis;            // of the verdict; nothing for open
  std::array<GroundAnswer, 4> grounds;   // by Ground
  std::optional<Day> gap;                // for a no on time: the smallest gap that is proven, in days
  std::vector<std::string> would_settle; // for open: what to find out, one line each

  [[nodiscard]] const GroundAnswer& ground(Ground which) const { return grounds[static_cast<std::size_t>(which)]; }
};

// The grounds that make the verdict what it is.
[[nodiscard]] std::vector<Ground> deciding_grounds(const Judgement& judgement);
// "at least 13 months too late"; empty where no gap is proven.
[[nodiscard]] std::string gap_words(const Judgement& judgement);

// A statement that a verdict rests on, with what backs it.
[[nodiscard]] Reason reason_for(std::string statement, const Evidence& evidence);

} // namespace coeval
