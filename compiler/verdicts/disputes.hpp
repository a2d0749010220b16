// verdicts/disputes.hpp: what does a disputed statement contradict, and what would follow if it were right?
//
// Disputed pairings, exclusive runs and timings do not count. Each is taken as right in turn: whatever it contradicts
// is found, the weakest statement of each contradiction set aside, and the verdicts and bounds of both ways compared.
//
// A dispute costs a pass over all constraints, and judging the pairs whose days or records it can touch; where it sets
// the policy on stock aside, or moves a route, that is every pair.
#pragma once

#include "verdicts/judge.hpp"

namespace coeval {

// Statements that count and that cannot all be true beside the disputed one; without any of them they can. The one that
// is set aside for it to be right is marked as the weakest.
struct DisputeConflict {
  std::vector<Reason> statements;
};

struct VerdictChange {
  RunIndex run{};
  IssueIndex issue{};
  Verdict before{};
  Verdict after{}; // if it were right
};

struct BoundsChange {
  SpanPoint end{};
  DayBounds before;
  DayBounds after; // if it were right
};

struct Dispute {
  EntryIndex entry{};                     // its table
  Reason says;                            // the disputed statement
  bool hopeless = false;                  // it cannot hold whatever else does, by itself; nothing follows from it
  std::vector<DisputeConflict> conflicts; // each remains if only the statements marked in earlier ones are set aside
  std::vector<VerdictChange> verdicts;    // by issue, then by run
  std::vector<BoundsChange> bounds;       // by address; the start first
};

// In the order of the entries. Verdicts are of every issue with every run of the accessories that it takes.
[[nodiscard]] std::vector<Dispute> disputes_of(const LinkedKb& kb, const Chronology& chronology, Basis weakest);

} // namespace coeval
