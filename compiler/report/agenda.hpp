// report/agenda.hpp: how is it told what to find out next, to a person and to a program?
#pragma once

#include "report/answers.hpp"
#include "verdicts/agenda.hpp"

namespace coeval {

// The first `shown` of the agenda's days and plants; or one end in full, with what it would settle.
struct AgendaReport {
  const Chronology& dates;
  const Agenda& agenda;
  std::size_t shown = 0;
};
[[nodiscard]] std::string agenda_text(const ReportInput& input, const AgendaReport& report, TextStyle style);
[[nodiscard]] std::string agenda_json(const ReportInput& input, const AgendaReport& report);

// One end that was asked about; the item is nothing where no day of it would settle a verdict.
struct AgendaEndReport {
  const Chronology& dates;
  SpanPoint end{};
  const AgendaItem* item = nullptr;
};
[[nodiscard]] std::string agenda_end_text(const ReportInput& input, const AgendaEndReport& report, TextStyle style);

} // namespace coeval
