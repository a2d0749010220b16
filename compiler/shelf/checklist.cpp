#include "shelf/checklist.hpp"

#include <algorithm>

namespace coeval {

OwnedChecklist::Progress OwnedChecklist::owned() const {
  Progress progress{0, issues.size()};
  for (const ChecklistIssue& issue : issues) progress.done += issue.pieces.empty() ? 0 : 1;
  return progress;
}

OwnedChecklist::Progress OwnedChecklist::complete() const {
  Progress progress{0, issues.size()};
  for (const ChecklistIssue& issue : issues) progress.done += issue.complete ? 1 : 0;
  return progress;
}

OwnedChecklist::Progress OwnedChecklist::slots() const {
  Progress progress;
  for (const ChecklistIssue& issue : issues) {
    progress.of += issue.slots.size();
    for (const ChecklistSlot& slot : issue.slots) progress.done += slot.state == SlotState::right ? 1 : 0;
  }
  return progress;
}

OwnedChecklist make_checklist(const LinkedKb& kb, const LinkedShelf& shelf, PartJudge& judge, const Audit& audit,
                              const std::vector<FigureIndex>& figures) {
  OwnedChecklist list;
  std::map<IssueIndex, std::size_t> places;
  std::vector<bool> wanted(kb.figures.size());
  for (const FigureIndex figure : figures) {
    wanted[at(figure)] = true;
    for (const IssueIndex issue : kb.figures[at(figure)].issues)
      if (places.emplace(issue, list.issues.size()).second)
        list.issues.push_back({issue, {}, false, std::vector<ChecklistSlot>(judge.slots(issue).size())});
  }
  std::vector<const PieceAudit*> pieces;
  for (const PieceAudit& piece : audit.pieces) pieces.push_back(&piece);
  std::ranges::sort(pieces, {}, &PieceAudit::piece);
  for (const PieceAudit* piece : pieces) {
    const OwnedPiece& owned = shelf[piece->piece];
    if (!owned.figure || !wanted[at(*owned.figure)]) continue;
    if (!owned.issue) {
      list.issue_unknown.push_back(piece->piece);
      continue;
    }
    ChecklistIssue& issue = list.issues[places.at(*owned.issue)];
    issue.pieces.push_back(piece->piece);
    issue.complete = issue.complete || piece->complete() || kb.issues[at(*owned.issue)].bare;
    for (std::size_t slot = 0; slot < issue.slots.size(); ++slot)
      if (piece->slots[slot].state < issue.slots[slot].state)
        issue.slots[slot] = {piece->slots[slot].state, piece->piece};
  }
  return list;
}

} // namespace coeval
