// drift/answers.hpp: what does a version answer, and which of its answers differ from those of another?
//
// Three things are asked: the verdict of a run with an issue, the earliest or latest day of an end of a span, and what
// the evidence says of a claim. Questions name things by address, so that they can be put to any version. Only
// statements of the basis asked for, or stronger, count; claims are found on every basis, as everywhere.
#pragma once

#include <compare>
#include <map>
#include <string>
#include <variant>

#include "drift/version.hpp"
#include "verdicts/judge.hpp"

namespace coeval {

struct VerdictQuestion {
  std::string run;
  std::string issue;
  friend auto operator<=>(const VerdictQuestion&, const VerdictQuestion&) = default;
};
struct BoundQuestion {
  std::string span;
  SpanEnd end{};
  Side side{};
  friend auto operator<=>(const BoundQuestion&, const BoundQuestion&) = default;
};
struct ClaimQuestion {
  std::string claim; // its address
  friend auto operator<=>(const ClaimQuestion&, const ClaimQuestion&) = default;
};

struct VerdictAnswer {
  Verdict verdict{};
  std::optional<Basis> basis;
  std::optional<Day> gap; // as in Judgement
  friend bool operator==(const VerdictAnswer&, const VerdictAnswer&) = default;
};
struct BoundAnswer {
  std::optional<Day> day;     // nothing where nothing bounds it
  std::optional<Basis> basis; // the strongest that already gives this day
  friend bool operator==(const BoundAnswer&, const BoundAnswer&) = default;
};
enum class ClaimEvidence : std::uint8_t {
  unstated,  // it states nothing that could be checked
  ruled_out, // something that it states cannot be true
  possible,  // all can be true, and not all is proven
  proven,    // all follows from everything else
};
[[nodiscard]] std::string_view name(ClaimEvidence evidence);
struct ClaimState {
  ClaimStanding standing{}; // as the curator calls it
  ClaimEvidence evidence{};
  friend bool operator==(const ClaimState&, const ClaimState&) = default;
};
[[nodiscard]] std::string_view name(ClaimStanding standing);

// Where both answers have the same verdict or day, a change is one of basis or gap, and is the same only where all is;
// where they have not, what counts is the verdict or day alone.
[[nodiscard]] bool same_outcome(const VerdictAnswer& before, const VerdictAnswer& after, const VerdictAnswer& given);
[[nodiscard]] bool same_outcome(const BoundAnswer& before, const BoundAnswer& after, const BoundAnswer& given);
[[nodiscard]] bool same_outcome(const ClaimState& before, const ClaimState& after, const ClaimState& given);

// The span at an address; nothing where none lasts there.
[[nodiscard]] std::optional<TimeSpanIndex> find_span(const LinkedKb& kb, const std::string& address);

// Puts questions to one version without contradictions.
class Answerer {
public:
  Answerer(const LinkedKb& kb, const Chronology& dates, Basis weakest)
      : kb_(kb), dates_(dates), weakest_(weakest), judge_(kb, dates, weakest), on_all_(kb, dates, Basis::conjectured) {}

  // Nothing where the version does not hold what is asked about.
  [[nodiscard]] std::optional<VerdictAnswer> answer(const VerdictQuestion& question);
  [[nodiscard]] std::optional<BoundAnswer> answer(const BoundQuestion& question) const;
  [[nodiscard]] std::optional<ClaimState> answer(const ClaimQuestion& question);

  // Where the statements stand that the answer rests on.
  [[nodiscard]] std::vector<Span> places(const VerdictQuestion& question);
  [[nodiscard]] std::vector<Span> places(const BoundQuestion& question) const;
  [[nodiscard]] std::vector<Span> places(const ClaimQuestion& question);

private:
  const LinkedKb& kb_;
  const Chronology& dates_;
  Basis weakest_;
  Judge judge_;
  Judge on_all_;
};

template <class Question> struct AnswerTo;
template <> struct AnswerTo<VerdictQuestion> { using Type = VerdictAnswer; };
template <> struct AnswerTo<BoundQuestion> { using Type = BoundAnswer; };
template <> struct AnswerTo<ClaimQuestion> { using Type = ClaimState; };

template <class Question> struct Change {
  Question question;
  typename AnswerTo<Question>::Type before;
  typename AnswerTo<Question>::Type after;
};
using ChangedVerdict = Change<VerdictQuestion>;
using BoundChange = Change<BoundQuestion>;
using ClaimChange = Change<ClaimQuestion>;

struct AnswerChanges {
  std::vector<ChangedVerdict> verdicts;
  std::vector<BoundChange> bounds;
  std::vector<ClaimChange> claims;
  std::size_t compared = 0; // verdicts
};

// Of every pair of an issue and a run that both versions hold, where the issue takes the run's accessory in one of
// them; of every end of the spans, and of every claim, that both hold. Sorted by question.
[[nodiscard]] AnswerChanges compare_answers(const Version& before, const Version& after, Basis weakest);

// A run or issue that only one version holds, and how many of its pairs there have each verdict.
struct LonePiece {
  Kind kind{}; // run or issue
  std::string address;
  std::array<std::size_t, verdict_count> verdicts{};
};
// Those of `here` that `there` does not hold, by address.
[[nodiscard]] std::vector<LonePiece> only_in(const Version& here, const LinkedKb& there, Basis weakest);

} // namespace coeval
