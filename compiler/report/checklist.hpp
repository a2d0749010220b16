// report/checklist.hpp: how is told what of all issues is owned?
#pragma once

#include "report/answers.hpp"
#include "shelf/checklist.hpp"

namespace coeval {

struct ChecklistReport {
  const LinkedShelf& shelf;
  OwnedChecklist list;
  bool slots = false; // slot by slot
};
[[nodiscard]] std::string checklist_text(const ReportInput& input, const ChecklistReport& report, TextStyle style);
[[nodiscard]] std::string checklist_json(const ReportInput& input, const ChecklistReport& report);

} // namespace coeval
