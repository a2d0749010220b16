#include "commands/shelf_commands.hpp"
#include "report/money.hpp"

namespace coeval {

int run_comparables(const Settings& settings, const ComparablesSettings& wished) {
  const ShelfSession session{settings, wished.shelf};
  if (session.exit) return *session.exit;
  const auto entry =
      session.session().find(wished.of, {Kind::issue, Kind::figure, Kind::run, Kind::mould, Kind::accessory});
  if (!entry) return exit_usage;
  const Comparables comparables = compare_sales(session.shelf(), session.kb(), *entry);
  const ComparablesReport report{session.shelf(), session.kb().address(*entry), comparables};
  print(settings.format == Format::json ? comparables_json(report) : comparables_text(report, settings.out));
  return comparables.currencies.empty() ? exit_open : exit_yes;
}

} // namespace coeval
