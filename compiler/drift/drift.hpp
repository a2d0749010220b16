// drift/drift.hpp: what changed between two versions of a knowledge base, and why?
//
// Answers that changed come with the edits that changed them. A run or an issue that only one version holds is told as
// such, and not as a change of each of its verdicts. Where a version contradicts itself no question can be asked of it:
// then only edits and contradictions are compared.
#pragma once

#include "drift/causes.hpp"

namespace coeval {

// Statements that cannot all be true, in one version only.
struct ContradictionChange {
  bool came = false;           // it is in the new version; else it was in the old one
  std::vector<Reason> reasons; // with places in that version
};

// An entry that is gone and one of the same kind that is new, which say the same but for the id: a guess.
struct Rename {
  Kind kind{};
  std::string from;
  std::string to;
};

struct Drift {
  std::vector<Edit> edits;
  bool answers_compared = false;
  std::size_t verdicts_compared = 0;
  std::vector<CausedChanges> causes; // the one that explains most first
  std::vector<LonePiece> arrived;    // runs and issues
  std::vector<LonePiece> gone;
  std::vector<ContradictionChange> contradictions; // those that came first
  std::vector<Rename> renames;

  [[nodiscard]] bool nothing() const { return edits.empty() && contradictions.empty(); }
  [[nodiscard]] std::size_t changed_verdicts() const;
};

[[nodiscard]] Drift drift_between(const Version& before, const Version& after, Basis weakest);

// Of the entries that are added and removed as a whole.
[[nodiscard]] std::vector<Rename> guess_renames(const Version& before, const Version& after,
                                                const std::vector<Edit>& edits);

} // namespace coeval
