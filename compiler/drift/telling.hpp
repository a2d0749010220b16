// drift/telling.hpp: how is a change said in words?
//
// A sentence is told in phrases, so that whoever shows it can set apart what a curator wrote: that may hold anything.
#pragma once

#include "drift/drift.hpp"

namespace coeval {

struct Phrase {
  std::string text;
  bool written = false; // by a curator; else these are this program's words, of letters, digits and plain punctuation
};
using Sentence = std::vector<Phrase>;
[[nodiscard]] std::string text_of(const Sentence& sentence);

// "signal-lantern/ring-top: used was "1976/1979", is "1976/1981"".
[[nodiscard]] Sentence tell(const Edit& edit);
// "open, now anachronistic": what happened to the verdict, the same for many pairs.
[[nodiscard]] std::string transition(const ChangedVerdict& change);
// What is particular to one pair: "at least 13 months too late"; may be empty.
[[nodiscard]] std::string detail(const ChangedVerdict& change);
// "signal-lantern/ring-top left the press no later than 1981-07-30, now no later than 1981-01-31". `kb` holds the span.
[[nodiscard]] std::string tell(const BoundChange& change, const LinkedKb& kb);
[[nodiscard]] std::string tell(const ClaimChange& change);
// "fits 3, anachronistic 2"; "none" where there are none.
[[nodiscard]] std::string counted_verdicts(const LonePiece& piece);
// Text of at most so many bytes, cut between code points with an ellipsis.
[[nodiscard]] std::string shortened(std::string_view text, std::size_t most);
// "5 edits; 14 of 1538 verdicts changed"
[[nodiscard]] std::string totals(const Drift& drift);
// "14 verdicts, 2 bounds and 1 claim"
[[nodiscard]] std::string counted(const AnswerChanges& changes);

// The edit by which a run or issue came or went; nothing where its address became one of another kind.
[[nodiscard]] const Edit* edit_of(const Drift& drift, const LonePiece& piece);
// The edits that no cause names and that are no part of a run or issue that came or went.
[[nodiscard]] std::vector<EditIndex> other_edits(const Drift& drift);

// The changed verdicts of a cause by what happened to them, the most frequent first.
struct VerdictTransition {
  std::string words;
  std::vector<const ChangedVerdict*> changes;
};
[[nodiscard]] std::vector<VerdictTransition> by_transition(const std::vector<ChangedVerdict>& changes);

} // namespace coeval
