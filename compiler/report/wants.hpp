// report/wants.hpp: how is told what is missing, and what to look for?
#pragma once

#include "report/answers.hpp"
#include "shelf/wants.hpp"

namespace coeval {

struct WantsReport {
  const LinkedShelf& shelf;
  std::vector<Wanted> wanted;
  bool all = false; // nothing is cut
};
[[nodiscard]] std::string wants_text(const ReportInput& input, const WantsReport& report, TextStyle style);
[[nodiscard]] std::string wants_json(const ReportInput& input, const WantsReport& report);

} // namespace coeval
