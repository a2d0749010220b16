#include <algorithm>

#include <fmt/format.h>

#include "report/agenda.hpp"

namespace coeval {
namespace {

constexpr std::size_t most_steps = 6; // of one end among several
constexpr std::size_t most_such = 4;

std::string written(const LinkedKb& kb, SpanPoint end) {
  return fmt::format("{}.{}", kb.spans[at(end.span)].address, end.end == SpanEnd::start ? "start" : "end");
}

std::string more(std::size_t count, std::string_view one, std::string_view several) {
  return fmt::format("{} more {}", count, count == 1 ? one : several);
}

std::string steps_text(const AgendaItem& item, std::size_t shown, std::string_view indent, TextStyle style) {
  std::size_t width = 0;
  for (std::size_t i = 0; i < shown; ++i) width = std::max(width, days_words(item, item.steps[i].days).size());
  std::string text;
  for (std::size_t i = 0; i < shown; ++i)
    text += fmt::format("{}{:<{}}  {}\n", indent, days_words(item, item.steps[i].days), width,
                        wrap(become_words(item, item.steps[i]), indent.size() + width + 2, style));
  return text;
}

std::string finds_text(const ReportInput& input, const Chronology& dates, const AgendaItem& item,
                       std::string_view indent, std::size_t shown, TextStyle style) {
  std::string text;
  for (const AgendaFind& find : finds_for(input.kb, dates, item, input.weakest)) {
    std::string such;
    for (std::size_t i = 0; i < std::min(find.find.such.size(), shown); ++i)
      such += fmt::format("{}{}", such.empty() ? "" : ", ", input.kb.address(find.find.such[i]));
    if (find.find.such.size() > shown) such += fmt::format(" and {} more", find.find.such.size() - shown);
    text += fmt::format("{}look for ", indent) +
            wrap(fmt::format("{}: {}", find.find.words, such), indent.size() + 2, style) + "\n";
  }
  return text;
}

std::string head_of(const ReportInput& input, const AgendaItem& item) {
  return fmt::format("when {} ({}): settles {}", happened(input.kb, item.end), in_words(item.known),
                     settles_words(item));
}

} // namespace

std::string agenda_text(const ReportInput& input, const AgendaReport& report, TextStyle style) {
  const Agenda& agenda = report.agenda;
  std::string text = fmt::format("{} open, {} of them for want of dates\n",
                                 agenda.open == 1 ? "1 verdict is" : fmt::format("{} verdicts are", agenda.open),
                                 agenda.undecided_in_time);
  for (std::size_t i = 0; i < std::min(agenda.items.size(), report.shown); ++i) {
    const AgendaItem& item = agenda.items[i];
    text += fmt::format("\n{:>3}. ", i + 1) + wrap(head_of(input, item), 5, style) + "\n";
    text += steps_text(item, std::min(item.steps.size(), most_steps), "       ", style);
    if (item.steps.size() > most_steps)
      text += fmt::format("       and {}: coeval agenda {}\n",
                          more(item.steps.size() - most_steps, "stretch of days", "stretches of days"),
                          written(input.kb, item.end));
    text += finds_text(input, report.dates, item, "     ", most_such, style);
  }
  if (agenda.items.empty()) text += "\nno single day, found out, would settle a verdict\n";
  if (agenda.items.size() > report.shown)
    text += fmt::format("\nand {}; all: coeval agenda --top {}\n",
                        more(agenda.items.size() - report.shown, "day", "days"), agenda.items.size());
  if (!agenda.plants.empty()) text += "\nplants to find out\n";
  for (std::size_t i = 0; i < std::min(agenda.plants.size(), report.shown); ++i) {
    const UnknownPlant& unknown = agenda.plants[i];
    const bool moulded = input.kb.entries[unknown.entry].kind == Kind::run;
    text += "  " +
            wrap(fmt::format("which plant {} {}: {} open", moulded ? "made" : "packed", input.kb.address(unknown.entry),
                             unknown.waiting == 1 ? "1 verdict is" : fmt::format("{} verdicts are", unknown.waiting)),
                 4, style) +
            "\n";
  }
  if (agenda.plants.size() > report.shown)
    text += fmt::format("  and {}; all: coeval agenda --top {}\n",
                        more(agenda.plants.size() - report.shown, "plant", "plants"), agenda.plants.size());
  return text;
}

std::string agenda_end_text(const ReportInput& input, const AgendaEndReport& report, TextStyle style) {
  const LinkedKb& kb = input.kb;
  if (report.item == nullptr)
    return fmt::format("when {}: no day of it, found out, would settle an open verdict\n", happened(kb, report.end));
  const AgendaItem& item = *report.item;
  std::string text = wrap(head_of(input, item), 2, style) + "\n\nif it was\n";
  text += steps_text(item, item.steps.size(), "  ", style);
  const std::string finds = finds_text(input, report.dates, item, "  ", std::string::npos, style);
  if (!finds.empty()) text += "\n" + finds;
  text += "\nthe verdicts\n";
  for (const AgendaPair& pair : item.pairs) {
    text +=
        "  " +
        wrap(fmt::format("{} with {}", kb.runs[at(pair.run)].address, kb.issues[at(pair.issue)].address), 4, style) +
        "\n";
    std::string days;
    for (const AgendaPair::Settled& settled : pair.settled)
      days += fmt::format("{}{} {}", days.empty() ? "" : ", ", name(settled.verdict), days_words(item, settled.days));
    text += "    " + wrap(days + (pair.always ? "" : ", else open"), 4, style) + "\n";
  }
  return text;
}

} // namespace coeval
