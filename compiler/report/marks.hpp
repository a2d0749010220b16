// report/marks.hpp: how is told what marks say about the age of what carries them?
//
// The values are those of the verdicts; nothing is concluded here. Every answer says that its dates are bounds, and
// gives the caution of each mark.
#pragma once

#include "report/answers.hpp"
#include "verdicts/marks.hpp"

namespace coeval {

// The marks of a kind, or all: by kind in the order of the schema, those without one last, then by id.
[[nodiscard]] std::vector<MarkIndex> marks_of_kind(const LinkedKb& kb, std::string_view kind);

[[nodiscard]] std::string marks_text(const ReportInput& input, const Chronology& dates,
                                     const std::vector<MarkIndex>& marks, TextStyle style);
[[nodiscard]] std::string marks_json(const ReportInput& input, const Chronology& dates,
                                     const std::vector<MarkIndex>& marks);

[[nodiscard]] std::string dated_text(const ReportInput& input, const Dating& dating, TextStyle style);
[[nodiscard]] std::string dated_json(const ReportInput& input, const Dating& dating);

// What a reader must know of every date that a mark gives.
[[nodiscard]] std::string_view bounds_caution();

} // namespace coeval
