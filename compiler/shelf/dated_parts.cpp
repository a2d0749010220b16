#include "shelf/dated_parts.hpp"

#include <algorithm>
#include <map>

namespace coeval {

void rule_out_by_marks(LinkedShelf& shelf, const LinkedKb& kb, const Chronology& chronology, Basis weakest) {
  using Written = std::vector<std::pair<MarkIndex, std::optional<std::int64_t>>>;
  std::map<Written, RunsByMarks> by_marks;
  for (OwnedPart& part : shelf.parts) {
    if (part.marks.empty()) continue;
    Written written;
    for (const CarriedMark& mark : part.marks) written.emplace_back(mark.mark, mark.reading);
    const RunsByMarks& runs =
        by_marks.try_emplace(std::move(written), kb, chronology, part.marks, weakest).first->second;
    const auto ruled_out = [&](const PartIdentity& identity) {
      const auto* run = std::get_if<RunIndex>(&identity);
      if (run == nullptr) return false;
      auto ruling = runs.rule_out(*run, false);
      if (!ruling) return false;
      part.ruled_out.push_back({*run, std::move(*ruling)});
      return true;
    };
    std::erase_if(part.could_be, ruled_out);
  }
}

} // namespace coeval
