#include "commands/shelf_commands.hpp"
#include "report/money.hpp"

namespace coeval {

int run_ledger(const Settings& settings, const LedgerSettings& wished) {
  const ShelfSession session{settings, wished.shelf};
  if (session.exit) return *session.exit;
  const Ledger ledger = keep_ledger(session.shelf());
  Diagnostics missing;
  report_missing(session.shelf(), ledger, missing);
  if (ledger.too_large) return session.refuse(missing);
  // Where a rate is missing the rest still holds: the totals that lack it say so.
  const LedgerReport report{session.shelf(), ledger, wished.every_amount};
  print(settings.format == Format::json ? ledger_json(report) : ledger_text(report, settings.out));
  if (!missing.has_errors()) return exit_yes;
  print_error(render_text(missing.sorted(), session.sources(), settings.err));
  return exit_no;
}

} // namespace coeval
