#include "report/wants.hpp"
#include "commands/shelf_commands.hpp"

namespace coeval {

int run_wants(const Settings& settings, const WantsSettings& typed) {
  const ShelfSession session{settings, typed.shelf};
  if (session.exit) return *session.exit;
  PartJudge judge{session.kb(), session.dates(), session.shelf(), settings.weakest};
  // What is on its way is not bought twice.
  const ShelfSwap after = plan_swap(session.kb(), session.shelf(), judge, {.with_parcels = true});
  const WantsReport report{session.shelf(), find_wanted(session.kb(), session.shelf(), judge, after, settings.weakest),
                           typed.all};
  const ReportInput input = session.session().report();
  print(settings.format == Format::json ? wants_json(input, report) : wants_text(input, report, settings.out));
  return report.wanted.empty() ? exit_yes : exit_no;
}

} // namespace coeval
