// report/audit.hpp: how is told what is right and what is wrong on a shelf?
#pragma once

#include "report/answers.hpp"
#include "shelf/audit.hpp"

namespace coeval {

struct AuditReport {
  const LinkedShelf& shelf;
  const PartJudge& judge;
  Audit audit;              // perhaps of some pieces only
  bool every_slot = false;  // told, the right ones too, and nothing is cut
  std::optional<Day> today; // to say how long a parcel has been on its way
};
[[nodiscard]] std::string audit_text(const ReportInput& input, const AuditReport& report, TextStyle style);
[[nodiscard]] std::string audit_json(const ReportInput& input, const AuditReport& report);

// "anachronistic", "missing", "not disclosed": a finding in a word or two.
[[nodiscard]] std::string finding_word(const Finding& finding);
// Why, and what to act on, in one line: "at least 13 months too late; first made …".
[[nodiscard]] std::string finding_reason(const ReportInput& input, const AuditReport& report, const PieceAudit& piece,
                                         const Finding& finding);
// Why a part belongs, does not, or may.
[[nodiscard]] std::string fit_reason(const LinkedKb& kb, const PartFit& fit);
// "signal-lantern/ring-top/brass or signal-lantern/plain-top/grey": what a part can be; at most `most` of it.
[[nodiscard]] std::string identity_words(const LinkedKb& kb, const std::vector<PartIdentity>& could_be,
                                         std::size_t most = 3);

} // namespace coeval
