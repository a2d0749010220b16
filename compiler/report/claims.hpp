// report/claims.hpp: how are claims and disputes told, to a person and to a program?
#pragma once

#include "report/answers.hpp"
#include "verdicts/claims.hpp"
#include "verdicts/disputes.hpp"

namespace coeval {

// All claims, a line each; or one in full. JSON always tells all of each.
struct ClaimsReport {
  std::vector<ClaimReport> claims;
  bool in_full = false;
};
[[nodiscard]] std::string claims_text(const ReportInput& input, const ClaimsReport& report, TextStyle style);
[[nodiscard]] std::string claims_json(const ReportInput& input, const ClaimsReport& report);

// Every disputed statement. Of what would differ a text shows the first few, unless `everything`.
struct DisputesReport {
  std::vector<Dispute> disputes;
  bool everything = false;
};
[[nodiscard]] std::string disputes_text(const ReportInput& input, const DisputesReport& report, TextStyle style);
[[nodiscard]] std::string disputes_json(const ReportInput& input, const DisputesReport& report);

} // namespace coeval
