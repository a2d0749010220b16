#include "commands/command.hpp"
#include "report/claims.hpp"

namespace coeval {

int run_disputes(const Settings& settings, bool everything) {
  const Session session{settings};
  if (session.exit) return *session.exit;
  const DisputesReport report{disputes_of(session.kb(), session.dates(), settings.weakest), everything};
  print(settings.format == Format::json ? disputes_json(session.report(), report)
                                        : disputes_text(session.report(), report, settings.out));
  return exit_yes;
}

} // namespace coeval
