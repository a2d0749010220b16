// shelf/checklist.hpp: how much of all that was ever put out does the owner have, and have right?
#pragma once

#include "shelf/audit.hpp"

namespace coeval {

struct ChecklistSlot {
  SlotState state = SlotState::empty; // the best of all owned pieces of the issue: right, open, wrong, reproduction
  std::optional<PieceIndex> piece;    // that has it so
};

struct ChecklistIssue {
  IssueIndex issue{};
  std::vector<PieceIndex> pieces;   // owned, in the order of the shelf
  bool complete = false;            // one of them has all that the issue was sold with, and right
  std::vector<ChecklistSlot> slots; // as the judge's slots of the issue
};

struct OwnedChecklist {
  std::vector<ChecklistIssue> issues;    // figure by figure
  std::vector<PieceIndex> issue_unknown; // owned pieces of those figures that no line of the list counts

  struct Progress {
    std::size_t done = 0;
    std::size_t of = 0;
    [[nodiscard]] std::size_t percent() const { return of == 0 ? 100 : done * 100 / of; } // rounded down
  };
  [[nodiscard]] Progress owned() const;
  [[nodiscard]] Progress complete() const;
  [[nodiscard]] Progress slots() const; // that are right
};

// Of these figures, in this order; `audit` is of the whole shelf.
[[nodiscard]] OwnedChecklist make_checklist(const LinkedKb& kb, const LinkedShelf& shelf, PartJudge& judge,
                                            const Audit& audit, const std::vector<FigureIndex>& figures);

} // namespace coeval
