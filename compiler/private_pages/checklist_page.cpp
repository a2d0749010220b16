#include <fmt/format.h>

#include "private_pages/tell.hpp"

namespace coeval {
namespace {

Piece progress(const OwnedChecklist::Progress& progress) {
  return words(fmt::format("{} of {}, {} %", progress.done, progress.of, progress.percent()));
}

// "hand right, head empty": the best that any owned piece of the issue has in each slot.
std::string slot_words(const PrivatePagesInput& input, const ChecklistIssue& issue) {
  const std::vector<IssueSlot>& slots = input.judge.slots(issue.issue);
  std::string line;
  for (std::size_t i = 0; i < issue.slots.size(); ++i)
    line += fmt::format("{}{} {}", line.empty() ? "" : ", ", slots[i].name, name(issue.slots[i].state));
  return line;
}

} // namespace

Page owned_checklist_page(const PrivatePagesInput& input) {
  const LinkedKb& kb = input.report.kb;
  const PrivateTeller tell{input};
  const OwnedChecklist& list = input.checklist;
  Page page{.path = "checklist.html", .title = "Checklist"};
  page.summary = fmt::format("Every issue that is entered, {} of {} owned.", list.owned().done, list.owned().of);
  Facts facts;
  facts.facts = {{"issues owned", {progress(list.owned())}, {}},
                 {"issues complete", {progress(list.complete())}, {}},
                 {"slots right", {progress(list.slots())}, {}}};
  page.sections.push_back({"intro", {}, {}, {std::move(facts)}});
  if (!list.issue_unknown.empty()) {
    List unknown{{{}}};
    for (const PieceIndex piece : list.issue_unknown) unknown.groups.front().items.push_back({tell.piece(piece), {}});
    add_to_list(page, "Owned, but nobody says which issue", {std::move(unknown)});
  }
  Table table;
  table.caption = "Every issue";
  table.columns = {{{words("Issue")}}, {{words("Owned")}}, {{words("Slots")}}};
  for (const ChecklistIssue& issue : list.issues) {
    std::string owned;
    for (const PieceIndex piece : issue.pieces) owned += (owned.empty() ? "" : ", ") + input.shelf[piece].id;
    if (issue.complete) owned += ", complete";
    table.rows.push_back({{{tell.entry(kb.issues[at(issue.issue)].entry)}},
                          {{words(owned.empty() ? "☐ no" : "☑ " + owned)}},
                          {{words(owned.empty() ? std::string{} : slot_words(input, issue))}}});
  }
  add_to_list(page, "Issues", {std::move(table)});
  return page;
}

} // namespace coeval
