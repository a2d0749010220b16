#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "calendar/duration.hpp"
#include "chronology/statements.hpp"
#include "report/answers.hpp"
#include "report/text_parts.hpp"

namespace coeval {
namespace {

std::string coloured(std::string_view text, Verdict verdict, TextStyle style) {
  return toned(text, verdict <= Verdict::fits ? Tone::yes : verdict == Verdict::open ? Tone::open : Tone::no, style);
}

std::string joined(const std::vector<std::string>& parts, std::string_view last) {
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i)
    text += (i == 0 ? "" : i + 1 == parts.size() ? fmt::format(" {} ", last) : ", ") + parts[i];
  return text;
}

// "documented and observed": the bases that a verdict's proof draws on.
std::string evidence_words(const Judgement& judgement) {
  std::set<Basis> bases;
  for (const Ground ground : deciding_grounds(judgement))
    for (const Reason& reason : judgement.ground(ground).proof)
      if (!reason.definition) bases.insert(reason.basis);
  std::vector<std::string> names;
  for (const Basis basis : bases) names.emplace_back(name(basis));
  if (names.empty() && judgement.basis) names.emplace_back(name(*judgement.basis));
  return joined(names, "and");
}

std::string second_line(const ReportInput& input, const Judgement& judgement) {
  const std::string gap = gap_words(judgement);
  if (judgement.verdict == Verdict::open) {
    const bool all = input.weakest == Basis::conjectured;
    return all ? "neither proven nor ruled out by what is known"
               : fmt::format("neither proven nor ruled out on {} evidence or stronger", name(input.weakest));
  }
  return fmt::format("{}{}on {} evidence", gap, gap.empty() ? "" : ", ", evidence_words(judgement));
}

std::string one_answer(const ReportInput& input, const Judgement& judgement, bool every_ground, TextStyle style) {
  const Run& run = input.kb.runs[at(judgement.run)];
  const Issue& issue = input.kb.issues[at(judgement.issue)];
  const std::string word = upper_case(name(judgement.verdict));
  const std::size_t indent = word.size() + 3;
  std::string text =
      fmt::format("{}   {}   with   {}\n", coloured(word, judgement.verdict, style), run.address, issue.address);
  text += std::string(indent, ' ') + wrap(second_line(input, judgement), indent, style) + "\n\n";
  for (const Ground ground : {Ground::place, Ground::time, Ground::route, Ground::record}) {
    const GroundAnswer& answer = judgement.ground(ground);
    text += fmt::format("{:<8}{:<5}{}\n", name(ground), answer.answer == Answer::undecided ? "-" : name(answer.answer),
                        wrap(answer.words, 13, style));
  }
  std::vector<Reason> reasons;
  if (!every_ground) {
    for (const Ground ground : deciding_grounds(judgement))
      for (const Reason& reason : judgement.ground(ground).proof) tell_once(reasons, reason);
    if (!reasons.empty()) text += "\nbecause\n" + render_reasons(reasons, input.sources, style);
  } else {
    for (const Ground ground : {Ground::place, Ground::time, Ground::route, Ground::record}) {
      const GroundAnswer& answer = judgement.ground(ground);
      if (!answer.proof.empty())
        text += fmt::format("\n{} {}, because\n", name(ground), name(answer.answer)) +
                render_reasons(answer.proof, input.sources, style);
    }
  }
  if (!judgement.would_settle.empty()) {
    text += "\nit would be settled by finding out\n";
    for (const std::string& line : judgement.would_settle) text += "  - " + wrap(line, 4, style) + "\n";
  }
  return text;
}

std::string basis_or_dash(const Judgement& judgement) {
  return judgement.basis ? std::string{name(*judgement.basis)} : "-";
}

std::string row(std::string_view address, std::size_t width, const Judgement& judgement, TextStyle style) {
  const std::string gap = gap_words(judgement);
  const std::string padded = fmt::format("{:<14}", name(judgement.verdict));
  return fmt::format("  {}{:<{}}  {:<12}{}", coloured(padded, judgement.verdict, style), address, width,
                     basis_or_dash(judgement), gap);
}

} // namespace

std::string belongs_text(const ReportInput& input, const BelongsReport& report, TextStyle style) {
  if (report.answers.size() == 1) {
    std::string text = one_answer(input, report.answers.front(), report.every_ground, style);
    if (!report.instead.empty()) {
      std::string list;
      for (const Judgement& other : report.instead)
        list += fmt::format("{}{} ({})", list.empty() ? "" : ", ", input.kb.runs[at(other.run)].address,
                            name(other.verdict));
      text += "\nbelongs instead   " + wrap(list, 18, style) + "\n";
    }
    return text;
  }
  std::string text = fmt::format("with {}\n\n", input.kb.issues[at(report.answers.front().issue)].address);
  std::size_t width = 0;
  for (const Judgement& judgement : report.answers)
    width = std::max(width, input.kb.runs[at(judgement.run)].address.size());
  for (const Judgement& judgement : report.answers)
    text += trimmed(row(input.kb.runs[at(judgement.run)].address, width, judgement, style));
  return text;
}

std::string outfit_text(const ReportInput& input, const OutfitReport& report, TextStyle style) {
  const Issue& issue = input.kb.issues[at(report.issue)];
  std::string text = fmt::format("outfit of {}\n", issue.address);
  if (report.slots.empty())
    return text + (issue.bare ? "\nit was sold with no accessory\n" : "\nwhat it was sold with is not entered\n");
  std::size_t width = 0;
  std::size_t complete = 0;
  for (const OutfitSlot& slot : report.slots) {
    complete += slot.complete() ? 1 : 0;
    for (const Judgement& judgement : slot.runs)
      width = std::max(width, input.kb.runs[at(judgement.run)].address.size());
  }
  for (const OutfitSlot& slot : report.slots) {
    text += fmt::format("\n{}: {}\n", slot.slot, input.kb.accessories[at(slot.accessory)].id);
    for (const Judgement& judgement : slot.runs)
      text += trimmed(row(input.kb.runs[at(judgement.run)].address, width, judgement, style));
    if (slot.runs.empty()) text += "  no run of it is entered\n";
  }
  text += complete == report.slots.size() ? "\nevery slot has a run that belongs\n"
                                          : fmt::format("\n{} of {} slots {} a run that belongs\n", complete,
                                                        report.slots.size(), complete == 1 ? "has" : "have");
  return text;
}

std::string homes_text(const ReportInput& input, const HomesReport& report, TextStyle style) {
  std::string text;
  std::size_t width = 0;
  for (const auto& homes : report.homes)
    for (const Judgement& judgement : homes)
      width = std::max(width, input.kb.issues[at(judgement.issue)].address.size());
  for (std::size_t i = 0; i < report.runs.size(); ++i) {
    text += fmt::format("{}homes of {}\n", i == 0 ? "" : "\n", input.kb.runs[at(report.runs[i])].address);
    for (const Judgement& judgement : report.homes[i])
      text += trimmed(row(input.kb.issues[at(judgement.issue)].address, width, judgement, style));
    if (report.homes[i].empty()) text += "  no issue takes this accessory\n";
  }
  return text;
}

std::string why_text(const ReportInput& input, const std::vector<WhyPoint>& points, TextStyle style) {
  std::string text;
  const auto day = [](const std::optional<Day>& value) { return value ? iso(*value) : std::string{"-"}; };
  for (const WhyPoint& why : points) {
    if (!text.empty()) text += "\n";
    text += happened(input.kb, why.point) + "\n\n";
    text += fmt::format("  {:<26}{:<14}{}\n", "on this evidence", "earliest", "latest");
    for (const Basis basis : all_bases) {
      if (basis > input.weakest) break;
      const auto& [earliest, latest] = why.by_basis[static_cast<std::size_t>(basis)];
      text += fmt::format("  {:<26}{:<14}{}\n",
                          basis == Basis::documented ? "documented" : fmt::format("{} or stronger", name(basis)),
                          day(earliest), day(latest));
    }
    const auto side = [&](const ProvenBound& bound, std::string_view words, std::string_view none) {
      if (!bound.day) {
        text += fmt::format("\n{}\n", none);
        return;
      }
      text +=
          fmt::format("\n{} {}, because\n", words, iso(*bound.day)) + render_reasons(bound.proof, input.sources, style);
    };
    side(why.earliest, "no earlier than", "nothing says how early");
    side(why.latest, "no later than", "nothing says how late");
  }
  return text;
}

std::string list_text(const ReportInput& input, const std::vector<EntryIndex>& entries) {
  std::string text;
  std::size_t width = 0;
  for (const EntryIndex entry : entries)
    width = std::max(width, std::min<std::size_t>(48, input.kb.address(entry).size()));
  for (const EntryIndex entry : entries)
    text += trimmed(fmt::format("{:<10}{:<{}}  {}", spec_of(input.kb.entries[entry].kind).name, input.kb.address(entry),
                                width, printable(entry_name(input.kb.entries[entry]))));
  return text;
}

} // namespace coeval
