// chronology/statements.hpp: what do the entries say about time, as differences between days?
//
// Every span has two points, the day it started and the day it ended, in whole days; start <= end by definition. Every
// statement becomes one or more constraints x - y <= most days. Each constraint remembers how it came about, so that it
// can be told as a sentence with its place, basis and sources.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "constraints/graph.hpp"
#include "links/kb.hpp"

namespace coeval {

// Point 0 is the calendar's day 0; then two points for every span; then auxiliary points.
[[nodiscard]] constexpr Point start_of(TimeSpanIndex span) { return Point{1 + 2 * static_cast<std::uint32_t>(span)}; }
[[nodiscard]] constexpr Point end_of(TimeSpanIndex span) { return Point{2 + 2 * static_cast<std::uint32_t>(span)}; }
[[nodiscard]] constexpr Point point_of(SpanPoint point) {
  return point.end == SpanEnd::start ? start_of(point.span) : end_of(point.span);
}

// How a constraint came about.
enum class Wording : std::uint8_t {
  by_words,        // start <= end: what the words mean
  run_in_mould,    // a run lies within its mould's use: what the words mean
  no_earlier,      // a date: the point is no earlier than `day`
  no_later,        // a date: the point is no later than `day`
  timing_gap,      // an order of two ends
  timing_relation, // an interval relation
  within,          // lies within another span
  replaces,        // succession
  replaces_clean,
  reissue,            // a reissue starts after what it put out again
  pairing,            // found together
  stock,              // stock is not kept for longer
  carries_mark,       // nothing carries a mark from before its first day
  carries_ended_mark, // nor, where the mark's end binds, from after its last
  carries_reading,    // nor from before the year or number that the mark reads there
  reads_year,         // which year a reading stands for
  reads_number        // when the numbers from one on were given out
};

// What says a constraint. Of its members the one that the wording asks for.
union Origin {
  std::uint32_t position = 0; // of the subject: in its marks for carries_*, in what it lies within for within; for
                              // reads_number in the mark's numbers; for reads_year the year itself
  const Timing* timing;       // for timing_*; for dates null where the subject's own entry gives them
  const Pairing* pairing;     // for pairing
  const Leftover* leftover;   // for stock
};

// How a constraint came about. Its sentence is made from the entries when somebody asks: there are fourteen constraints
// for each run, and hardly any is ever told. With all that a sentence needs in it, a telling was 72 bytes.
struct Telling {
  Wording wording{};
  SpanEnd end{};            // of the subject, for dates and gaps
  bool approximate = false; // for dates: widened by the line's allowance
  TimeSpanIndex subject{};
  Origin origin{};
};

struct Statements {
  std::vector<Constraint> constraints;
  std::vector<Telling> tellings;         // of each constraint
  std::vector<const Evidence*> evidence; // of each statement; its index is the StatementIndex
  std::uint32_t points = 1;
};

[[nodiscard]] Statements state(const LinkedKb& kb);

// The same and one more that does not count, such as a claim's or a disputed one; it counts on every basis here.
// `index` is nothing where what is supposed says nothing about time.
struct SupposedStatements {
  Statements all;
  std::optional<StatementIndex> index;
};
[[nodiscard]] SupposedStatements state_supposing(const LinkedKb& kb);
[[nodiscard]] SupposedStatements state_supposing(const LinkedKb& kb, const Timing& timing);   // both must
[[nodiscard]] SupposedStatements state_supposing(const LinkedKb& kb, const Pairing& pairing); // outlive it

// The same for many, each of which will be supposed for itself. All must outlive it.
using Supposable = std::variant<const Timing*, const Pairing*>;
struct ManySupposed {
  Statements all;
  std::vector<StatementIndex> indices;                          // of each
  std::vector<std::pair<std::size_t, std::size_t>> constraints; // of each: from one position up to another
};
[[nodiscard]] ManySupposed state_supposing_each(const LinkedKb& kb, std::span<const Supposable> each);

// Which of two statements is the weaker: by basis, then by how few sources speak for it.
[[nodiscard]] bool is_weaker(const Evidence& one, const Evidence& other);

// A date as one day somewhere in it.
[[nodiscard]] DateBounds some_day_in(const WrittenDate& date);

// First and last day that a date allows, widened by the line's allowance where it is approximate.
[[nodiscard]] DateBounds widened(const DateBounds& bounds, const Allowance& allowance);

// Days that stock was kept at most.
[[nodiscard]] inline Day most_days(const Leftover& leftover) { return leftover.at_most.most_days(); }

// One constraint, x - y <= `most`, as a sentence with its evidence; without evidence it holds by definition.
[[nodiscard]] Reason tell(const LinkedKb& kb, const Telling& telling, Day most, const Evidence* evidence);

// "1 year 6 months": a duration as it was written.
[[nodiscard]] std::string in_words(const Duration& duration);

// What a timing, a pairing or an exclusive run states, as one sentence.
[[nodiscard]] std::string in_words(const LinkedKb& kb, const Timing& timing);
[[nodiscard]] std::string in_words(const LinkedKb& kb, const Pairing& pairing);
[[nodiscard]] std::string in_words(const LinkedKb& kb, RunIndex run, const Exclusive& exclusive);

// "signal-lantern/ring-top left the press": an end of a span in words.
[[nodiscard]] std::string happened(const LinkedKb& kb, SpanPoint point);

} // namespace coeval
