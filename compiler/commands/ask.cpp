#include "commands/looks.hpp"
#include "report/examine.hpp"

namespace coeval {

int run_ask(const Settings& settings, const std::string& run, const LookSettings& looks) {
  const Session session{settings};
  if (session.exit) return *session.exit;
  const auto offered = find_offered(session, settings, run, looks.issue);
  if (!offered) return exit_usage;
  const auto read = read_looks(session.kb(), looks);
  if (!read) return exit_usage;
  const FeatureTable table = tabulate(session.kb(), offered->candidates, read->figure_colour);
  AskReport report{table, offered->claimed, read->seen};
  report.requests = what_to_ask(table, read->seen, offered->claimed);
  ExamineReport so_far{table, offered->claimed, read->seen};
  so_far.outcome = examine(table, read->seen, {.claimed = offered->claimed, .seller_first = true});
  so_far.conclusion = conclude(table, so_far.outcome, offered->claimed);
  so_far.with = offered->with;
  report.excluded = so_far.conclusion.answer == ClaimAnswer::excluded;
  report.with = offered->with;
  print(settings.format == Format::json ? ask_json(session.report(), report)
                                        : ask_text(session.report(), report, settings.out));
  if (!looks.sheet.empty() && !write_sheet(looks.sheet, second_opinion_sheet(session.report(), so_far)))
    return exit_world;
  if (report.excluded) return exit_no;
  return report.requests.others.empty() ? exit_yes : exit_open;
}

} // namespace coeval
