#include "report/checklist.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "report/json_parts.hpp"
#include "report/text_parts.hpp"

namespace coeval {
namespace {

std::string ids_of(const LinkedShelf& shelf, const std::vector<PieceIndex>& pieces) {
  std::string text;
  for (const PieceIndex piece : pieces) text += fmt::format("{}{}", text.empty() ? "" : ", ", shelf[piece].id);
  return text;
}

std::string progress_words(const OwnedChecklist::Progress& progress, std::string_view what) {
  return fmt::format("{} of {} {} ({} %)", progress.done, progress.of, what, progress.percent());
}

// The last id of "keeper-maren/painted-buttons".
std::string_view own_id(std::string_view address) { return address.substr(address.find('/') + 1); }

std::string_view standing(const ChecklistIssue& issue) {
  return issue.complete ? "complete" : issue.pieces.empty() ? "-" : "owned";
}

std::size_t right_slots(const ChecklistIssue& issue) {
  return static_cast<std::size_t>(std::ranges::count(issue.slots, SlotState::right, &ChecklistSlot::state));
}

std::string issue_text(const ReportInput& input, const ChecklistReport& report, const ChecklistIssue& issue,
                       std::size_t width, TextStyle style) {
  std::string words = ids_of(report.shelf, issue.pieces);
  if (!issue.pieces.empty() && !issue.complete)
    words += issue.slots.empty() ? "; what it was sold with is not entered"
                                 : fmt::format("; {} of {} {} right", right_slots(issue), issue.slots.size(),
                                               issue.slots.size() == 1 ? "slot" : "slots");
  std::string text = trimmed(fmt::format("  {:<{}}  {:<8}  {}", own_id(input.kb.issues[at(issue.issue)].address), width,
                                         standing(issue), wrap(words, width + 14, style)));
  if (!report.slots) return text;
  const std::vector<IssueSlot> slots = slots_of(input.kb.issues[at(issue.issue)]);
  for (std::size_t i = 0; i < slots.size(); ++i) {
    const ChecklistSlot& slot = issue.slots[i];
    const bool empty = slot.state == SlotState::empty;
    text += trimmed(fmt::format("    {:<{}}  {:<12}  {}", printable(slots[i].name), std::max<std::size_t>(width, 2) - 2,
                                empty ? "-" : name(slot.state), slot.piece ? report.shelf[*slot.piece].id : ""));
  }
  return text;
}

Json progress_json(const OwnedChecklist::Progress& progress) {
  return {{"done", progress.done}, {"of", progress.of}, {"percent", progress.percent()}};
}

Json ids_json(const LinkedShelf& shelf, const std::vector<PieceIndex>& pieces) {
  Json list = Json::array();
  for (const PieceIndex piece : pieces) list.push_back(shelf[piece].id);
  return list;
}

} // namespace

std::string checklist_text(const ReportInput& input, const ChecklistReport& report, TextStyle style) {
  const LinkedKb& kb = input.kb;
  const OwnedChecklist& list = report.list;
  std::string text =
      wrap(fmt::format("{}, {}; {}", progress_words(list.owned(), "issues owned"),
                       progress_words(list.complete(), "complete"), progress_words(list.slots(), "slots right")),
           0, style) +
      "\n";
  std::size_t width = 0;
  for (const ChecklistIssue& issue : list.issues)
    width = std::max(width, own_id(kb.issues[at(issue.issue)].address).size());
  width = std::min(width, columns(style) / 3);
  std::optional<FigureIndex> figure;
  for (const ChecklistIssue& issue : list.issues) {
    if (figure != kb.issues[at(issue.issue)].figure) {
      figure = kb.issues[at(issue.issue)].figure;
      text += fmt::format("\n{}\n", kb.figures[at(*figure)].id);
    }
    text += issue_text(input, report, issue, width, style);
  }
  if (!list.issue_unknown.empty())
    text += "\nissue not known, and not counted  " + wrap(ids_of(report.shelf, list.issue_unknown), 34, style) + "\n";
  return text;
}

std::string checklist_json(const ReportInput& input, const ChecklistReport& report) {
  const OwnedChecklist& list = report.list;
  Json json = document("checklist", input);
  json["shelf"] = report.shelf.name;
  json["owned"] = progress_json(list.owned());
  json["complete"] = progress_json(list.complete());
  json["slots-right"] = progress_json(list.slots());
  json["issues"] = Json::array();
  for (const ChecklistIssue& issue : list.issues) {
    const Issue& linked = input.kb.issues[at(issue.issue)];
    const std::vector<IssueSlot> slots = slots_of(linked);
    Json told{{"figure", input.kb.figures[at(linked.figure)].id},
              {"issue", linked.address},
              {"pieces", ids_json(report.shelf, issue.pieces)},
              {"complete", issue.complete},
              {"slots", Json::array()}};
    for (std::size_t i = 0; i < slots.size(); ++i)
      told["slots"].push_back(
          {{"slot", slots[i].name},
           {"state", name(issue.slots[i].state)},
           {"piece", issue.slots[i].piece ? Json(report.shelf[*issue.slots[i].piece].id) : Json(nullptr)}});
    json["issues"].push_back(std::move(told));
  }
  json["issue-unknown"] = ids_json(report.shelf, list.issue_unknown);
  return written(json);
}

} // namespace coeval
