#include <algorithm>

#include <fmt/format.h>

#include "report/claims.hpp"
#include "report/text_parts.hpp"

namespace coeval {
namespace {

constexpr std::size_t most_changes = 12; // of each dispute, unless everything is asked for

std::string_view standing_of(const LinkedKb& kb, const Claim& claim) {
  return kb.entries[claim.entry].text("standing");
}

std::string in_full(const ReportInput& input, const ClaimReport& report, TextStyle style) {
  const LinkedKb& kb = input.kb;
  const Claim& claim = kb.claims[at(report.claim)];
  const Entry& entry = kb.entries[claim.entry];
  const std::string standing = upper_case(standing_of(kb, claim));
  const std::size_t indent = standing.size() + 3;
  std::string text = fmt::format("{}   {}\n{}", standing, kb.address(claim.entry), std::string(indent, ' '));
  text += wrap(finding_words(report), indent, style) + "\n\n";
  if (!entry.text("name").empty()) text += wrap(entry.text("name"), 0, style) + "\n";
  text += wrap(entry.text("says"), 0, style) + "\n";
  for (const ClaimReport::Stated& stated : report.stated) {
    const ClaimFinding& finding = stated.finding;
    text += "\nit states that\n  " + wrap(stated.words, 2, style) + "\n";
    if (finding.answer == ClaimFinding::Answer::allowed) {
      text += "which is neither proven nor ruled out\n";
      continue;
    }
    text += fmt::format("which is {} on {} evidence, because\n", name(finding.answer), name(finding.basis.value()));
    text += render_reasons(finding.proof, input.sources, style);
  }
  if (!entry.text("why").empty()) text += "\nwhy it is called that\n  " + wrap(entry.text("why"), 2, style) + "\n";
  if (const auto* sources = entry.get<Words>("source")) {
    std::string list;
    for (const Word& source : *sources) list += (list.empty() ? "" : "; ") + source.text;
    text += "\nrepeated in\n  " + wrap(list, 2, style) + "\n";
  }
  return text;
}

// Reasons below what they are reasons for.
std::string indented(const std::vector<Reason>& reasons, const SourceSet& sources, TextStyle style) {
  constexpr std::string_view margin = "     ";
  style.width -= static_cast<int>(margin.size());
  const std::string rendered = render_reasons(reasons, sources, style);
  std::string text;
  for (std::size_t at = 0; at < rendered.size();) {
    const std::size_t end = rendered.find('\n', at) + 1;
    text += margin;
    text += rendered.substr(at, end - at);
    at = end;
  }
  return text;
}

std::string bounds_words(const LinkedKb& kb, const BoundsChange& change) {
  return fmt::format("{}: {}, would be {}", happened(kb, change.end), in_words(change.before), in_words(change.after));
}

std::string one_dispute(const ReportInput& input, const Dispute& dispute, std::size_t shown, TextStyle style) {
  const LinkedKb& kb = input.kb;
  std::string text = render_reasons({dispute.says}, input.sources, style);
  text = text.substr(std::string_view{"  1. "}.size()); // numbered by the caller
  if (dispute.hopeless) return text + "     it cannot be right, whatever else is\n";
  for (std::size_t i = 0; i < dispute.conflicts.size(); ++i) {
    const std::vector<Reason>& statements = dispute.conflicts[i].statements;
    text +=
        fmt::format("     {}contradicts {}\n", i == 0 ? "" : "and ",
                    statements.size() == 1
                        ? "this statement, which would have to be wrong"
                        : fmt::format("these {} statements; the one marked would have to be wrong", statements.size()));
    text += indented(statements, input.sources, style);
  }
  if (dispute.conflicts.empty()) text += "     it contradicts nothing\n";
  const auto rest = [&](std::size_t all) {
    return all > shown ? fmt::format("       and {} more; all: coeval disputes --everything\n", all - shown)
                       : std::string{};
  };
  if (dispute.verdicts.empty())
    text += "     if it were right, no verdict would differ\n";
  else
    text +=
        fmt::format("     if it were right, {} would differ\n",
                    dispute.verdicts.size() == 1 ? "1 verdict" : fmt::format("{} verdicts", dispute.verdicts.size()));
  for (std::size_t i = 0; i < std::min(shown, dispute.verdicts.size()); ++i) {
    const VerdictChange& change = dispute.verdicts[i];
    text += "       " +
            wrap(fmt::format("{} with {}: {}, would be {}", kb.runs[at(change.run)].address,
                             kb.issues[at(change.issue)].address, name(change.before), name(change.after)),
                 9, style) +
            "\n";
  }
  text += rest(dispute.verdicts.size());
  if (!dispute.bounds.empty())
    text += fmt::format("     and {}\n", dispute.bounds.size() == 1
                                             ? "1 day would be known otherwise"
                                             : fmt::format("{} days would be known otherwise", dispute.bounds.size()));
  for (std::size_t i = 0; i < std::min(shown, dispute.bounds.size()); ++i)
    text += "       " + wrap(bounds_words(kb, dispute.bounds[i]), 9, style) + "\n";
  text += rest(dispute.bounds.size());
  return text;
}

} // namespace

std::string claims_text(const ReportInput& input, const ClaimsReport& report, TextStyle style) {
  if (report.in_full) {
    std::string text;
    for (const ClaimReport& claim : report.claims) text += (text.empty() ? "" : "\n") + in_full(input, claim, style);
    return text;
  }
  if (report.claims.empty()) return "no claim is entered\n";
  std::size_t width = 0;
  for (const ClaimReport& claim : report.claims) width = std::max(width, input.kb.claims[at(claim.claim)].id.size());
  std::string text;
  for (const ClaimReport& one : report.claims) {
    const Claim& claim = input.kb.claims[at(one.claim)];
    text += fmt::format("{:<9}  {:<{}}  {}\n", standing_of(input.kb, claim), claim.id, width, finding_words(one));
  }
  return text;
}

std::string disputes_text(const ReportInput& input, const DisputesReport& report, TextStyle style) {
  if (report.disputes.empty()) return "no statement is disputed\n";
  std::string text =
      report.disputes.size() == 1
          ? "1 statement is disputed, and nothing rests on it\n"
          : fmt::format("{} statements are disputed, and nothing rests on them\n", report.disputes.size());
  for (std::size_t i = 0; i < report.disputes.size(); ++i)
    text += fmt::format("\n{:>3}. ", i + 1) +
            one_dispute(input, report.disputes[i], report.everything ? std::string::npos : most_changes, style);
  return text;
}

} // namespace coeval
