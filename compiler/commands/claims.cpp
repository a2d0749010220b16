#include "report/claims.hpp"
#include "commands/command.hpp"

namespace coeval {

int run_claims(const Settings& settings, const std::string& claim) {
  const Session session{settings};
  if (session.exit) return *session.exit;
  const LinkedKb& kb = session.kb();
  ClaimsReport report;
  report.in_full = !claim.empty();
  // A claim stands or falls with everything that is entered, so every basis counts.
  Judge judge{kb, session.dates(), Basis::conjectured};
  if (report.in_full) {
    const auto entry = session.find(claim, {Kind::claim});
    if (!entry) return exit_usage;
    report.claims.push_back(report_claim(kb, session.dates(), judge, ClaimIndex{kb.position[at(*entry)]}));
  } else {
    report.claims = report_claims(kb, session.dates(), judge);
  }
  print(settings.format == Format::json ? claims_json(session.report(), report)
                                        : claims_text(session.report(), report, settings.out));
  if (!report.in_full) return exit_yes;
  switch (report.claims.front().answer) {
  case ClaimFinding::Answer::proven:
    return exit_yes;
  case ClaimFinding::Answer::ruled_out:
    return exit_no;
  case ClaimFinding::Answer::allowed:
    break;
  }
  return exit_open;
}

} // namespace coeval
