#include "report/examine.hpp"
#include "commands/looks.hpp"

namespace coeval {

int run_examine(const Settings& settings, const std::string& run, const LookSettings& looks) {
  const Session session{settings};
  if (session.exit) return *session.exit;
  const auto offered = find_offered(session, settings, run, looks.issue);
  if (!offered) return exit_usage;
  auto read = read_looks(session.kb(), looks);
  if (!read) return exit_usage;
  auto marks = find_marks(session, settings, looks.marks, offered->candidates, offered->claimed);
  if (!marks) return exit_usage;
  const FeatureTable table = tabulate(session.kb(), offered->candidates, read->figure_colour);
  ExamineReport report{table, offered->claimed, std::move(read->seen)};
  report.outcome =
      examine(table, report.seen,
              {.claimed = offered->claimed, .seller_first = looks.seller_first, .ruled_out = ruled_out(*marks)});
  report.conclusion = conclude(table, report.outcome, offered->claimed);
  report.with = offered->with;
  report.marks = std::move(*marks);
  print(settings.format == Format::json ? examine_json(session.report(), report)
                                        : examine_text(session.report(), report, settings.out));
  if (!looks.sheet.empty() && !write_sheet(looks.sheet, second_opinion_sheet(session.report(), report)))
    return exit_world;
  switch (report.conclusion.answer) {
  case ClaimAnswer::consistent:
    return exit_yes;
  case ClaimAnswer::excluded:
    return exit_no;
  case ClaimAnswer::undecided:
    return exit_open;
  }
  return exit_open;
}

} // namespace coeval
