#include <algorithm>

#include "commands/command.hpp"
#include "report/agenda.hpp"

namespace coeval {
namespace {

constexpr std::size_t shown_unless_said = 10; // of a text; a program gets all

} // namespace

int run_agenda(const Settings& settings, const std::string& point, std::optional<std::size_t> top) {
  const Session session{settings};
  if (session.exit) return *session.exit;
  std::vector<SpanPoint> ends;
  if (!point.empty()) {
    const auto found = session.find_ends(point);
    if (!found) return exit_usage;
    ends = *found;
  }
  Agenda agenda = agenda_of(session.kb(), session.dates(), settings.weakest);
  const auto is_end = [](const SpanPoint& end) {
    return [&end](const AgendaItem& item) { return item.end.span == end.span && item.end.end == end.end; };
  };
  if (settings.format == Format::json) {
    if (!point.empty()) { // then of everything else nothing is told
      std::erase_if(agenda.items, [&](const AgendaItem& item) {
        return std::ranges::none_of(ends, [&](const SpanPoint& end) { return is_end(end)(item); });
      });
      agenda.plants.clear();
    }
    print(agenda_json(session.report(), {session.dates(), agenda, top.value_or(std::string::npos)}));
    return exit_yes;
  }
  if (point.empty()) {
    print(agenda_text(session.report(), {session.dates(), agenda, top.value_or(shown_unless_said)}, settings.out));
    return exit_yes;
  }
  for (const SpanPoint& end : ends) {
    const auto item = std::ranges::find_if(agenda.items, is_end(end));
    if (&end != &ends.front()) print("\n");
    print(agenda_end_text(session.report(), {session.dates(), end, item == agenda.items.end() ? nullptr : &*item},
                          settings.out));
  }
  return exit_yes;
}

} // namespace coeval
