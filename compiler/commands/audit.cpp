#include <set>

#include "commands/days.hpp"
#include "commands/shelf_commands.hpp"
#include "report/audit.hpp"

namespace coeval {

int run_audit(const Settings& settings, const AuditSettings& typed) {
  const auto today = given_day(typed.on);
  if (!today) return exit_usage;
  const ShelfSession session{settings, typed.shelf};
  if (session.exit) return *session.exit;
  std::set<PieceIndex> wanted;
  bool understood = true;
  for (const std::string& id : typed.pieces)
    if (const auto piece = session.find_piece(id))
      wanted.insert(*piece);
    else
      understood = false;
  if (!understood) return exit_usage;
  PartJudge judge{session.kb(), session.dates(), session.shelf(), settings.weakest};
  AuditReport report{session.shelf(), judge, audit_shelf(session.kb(), session.shelf(), judge),
                     typed.all || !wanted.empty(), today};
  if (!wanted.empty()) {
    const auto other = [&](const PieceAudit& piece) { return !wanted.contains(piece.piece); };
    std::erase_if(report.audit.pieces, other);
    std::erase_if(report.audit.offered, other);
    report.audit.loose.clear();
    report.audit.parcels.clear();
  }
  print(settings.format == Format::json ? audit_json(session.session().report(), report)
                                        : audit_text(session.session().report(), report, settings.out));
  return report.audit.wrong() ? exit_no : report.audit.open() ? exit_open : exit_yes;
}

} // namespace coeval
