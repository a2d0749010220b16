#include <algorithm>

#include <fmt/format.h>

#include "commands/carried_marks.hpp"
#include "diagnose/near.hpp"
#include "report/marks.hpp"

namespace coeval {

int run_marks(const Settings& settings, const std::string& kind) {
  const std::vector<std::string_view>& kinds = spec_of(Kind::mark).find("kind")->choices;
  if (!kind.empty() && std::ranges::find(kinds, kind) == kinds.end()) {
    const auto near = near_names(kind, kinds);
    print_error(fmt::format("coeval: there is no kind of mark `{}`; {}\n", printable(kind),
                            near.empty() ? "it is one of " + list_names(kinds) : did_you_mean(near)));
    return exit_usage;
  }
  const Session session{settings};
  if (session.exit) return *session.exit;
  const std::vector<MarkIndex> marks = marks_of_kind(session.kb(), kind);
  print(settings.format == Format::json ? marks_json(session.report(), session.dates(), marks)
                                        : marks_text(session.report(), session.dates(), marks, settings.out));
  return exit_yes;
}

int run_dated(const Settings& settings, const std::vector<std::string>& typed) {
  const Session session{settings};
  if (session.exit) return *session.exit;
  const auto marks = read_marks(session, typed);
  if (!marks) return exit_usage;
  const Dating dating = date_by_marks(session.kb(), session.dates(), *marks, settings.weakest);
  print(settings.format == Format::json ? dated_json(session.report(), dating)
                                        : dated_text(session.report(), dating, settings.out));
  if (!dating.clashes.empty()) return exit_no;
  return dating.earliest || dating.latest ? exit_yes : exit_open;
}

} // namespace coeval
