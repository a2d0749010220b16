#include <fmt/format.h>

#include "commands/command.hpp"
#include "commands/parts.hpp"
#include "verdicts/judge.hpp"

namespace coeval {

int run_homes(const Settings& settings, const std::string& part) {
  const Session session{settings};
  if (session.exit) return *session.exit;
  const auto entry = session.find(part, {Kind::run, Kind::mould, Kind::accessory});
  if (!entry) return exit_usage;
  HomesReport report;
  report.runs = runs_of(session.kb(), *entry);
  if (report.runs.empty()) {
    print_error(
        fmt::format("coeval: no run of `{}` is entered, so nothing can be said of it\n", session.kb().address(*entry)));
    return exit_open;
  }
  Judge judge{session.kb(), session.dates(), settings.weakest};
  std::vector<Judgement> all;
  for (const RunIndex run : report.runs) {
    report.homes.push_back(judge.homes(run));
    all.insert(all.end(), report.homes.back().begin(), report.homes.back().end());
  }
  print(settings.format == Format::json ? homes_json(session.report(), report)
                                        : homes_text(session.report(), report, settings.out));
  return exit_of(all);
}

} // namespace coeval
