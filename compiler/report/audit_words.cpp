#include <algorithm>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "report/audit.hpp"

namespace coeval {
namespace {

// "a, b and 4 more"
std::string cut_list(const std::vector<std::string>& items, std::size_t most, std::string_view last) {
  std::string text;
  const std::size_t shown = std::min(items.size(), most);
  for (std::size_t i = 0; i < shown; ++i)
    text += (i == 0 ? "" : i + 1 == items.size() ? fmt::format(" {} ", last) : ", ") + items[i];
  if (items.size() > shown) text += fmt::format(" {} {} more", last, items.size() - shown);
  return text;
}

std::string verdict_words(const Judgement& judgement) {
  const std::string gap = gap_words(judgement);
  std::string words = gap;
  for (const Ground ground : deciding_grounds(judgement))
    words += fmt::format("{}{}", words.empty() ? "" : "; ", judgement.ground(ground).words);
  return words;
}

std::string slot_words(const LinkedKb& kb, const IssueSlot& slot) {
  std::vector<std::string> names;
  for (const AccessoryIndex accessory : slot.accessories) names.push_back(kb.accessories[at(accessory)].id);
  return cut_list(names, 3, "or");
}

std::string possible_words(const LinkedKb& kb, const PieceAudit& piece) {
  std::vector<std::string> left;
  for (const PossibleIssue& possible : piece.possible)
    if (possible.wrong == 0)
      left.push_back(fmt::format("{}{}", kb.issues[at(possible.issue)].address,
                                 possible.right == 0 ? std::string{}
                                                     : fmt::format(" ({} right)", counted(possible.right, "part"))));
  if (piece.possible.empty()) return "no issue of the figure is entered";
  if (left.empty())
    return fmt::format("none of its {} issues takes all that it wears; nearest {}", piece.possible.size(),
                       kb.issues[at(piece.possible.front().issue)].address);
  return fmt::format("what it wears leaves {}", cut_list(left, 4, "or"));
}

std::vector<std::string> reproductions_of(const LinkedKb& kb, const std::vector<PartIdentity>& could_be) {
  std::vector<std::string> addresses;
  for (const PartIdentity& identity : could_be)
    if (const auto* repro = std::get_if<ReproIndex>(&identity)) addresses.emplace_back(kb.repros[at(*repro)].address);
  return addresses;
}

} // namespace

std::string finding_word(const Finding& finding) {
  switch (finding.trouble) {
  case Trouble::reproduction:
    return "reproduction";
  case Trouble::wrong:
    return finding.fit == nullptr ? "wrong" : std::string{name(finding.fit->verdict)};
  case Trouble::nothing_fits:
    return "nothing fits";
  case Trouble::misplaced:
    return "wrong slot";
  case Trouble::undisclosed:
    return "not disclosed";
  case Trouble::missing:
    return "missing";
  case Trouble::doubtful:
    return "doubtful";
  case Trouble::open:
    return "open";
  case Trouble::issue_unknown:
    return "which issue?";
  case Trouble::outfit_unknown:
    return "which outfit?";
  case Trouble::unexamined:
    return "not examined";
  }
  return {};
}

std::string identity_words(const LinkedKb& kb, const std::vector<PartIdentity>& could_be, std::size_t most) {
  std::vector<std::string> addresses;
  for (const PartIdentity& identity : could_be) addresses.emplace_back(address_of(kb, identity));
  return cut_list(addresses, most, "or");
}

std::string fit_reason(const LinkedKb& kb, const PartFit& fit) {
  const auto address = [&](const Judgement* judgement) { return kb.runs[at(judgement->run)].address; };
  if (fit.judgements.empty()) return {};
  if (fit.judgements.size() == 1) {
    const Judgement& only = *fit.judgements.front();
    if (only.verdict != Verdict::open) return verdict_words(only);
    return only.would_settle.empty() ? "neither proven nor ruled out"
                                     : fmt::format("to find out: {}", only.would_settle.front());
  }
  if (fit.state == FitState::wrong) {
    const Judgement& nearest =
        **std::ranges::min_element(fit.judgements, {}, [](const Judgement* judgement) { return judgement->verdict; });
    return fmt::format("whichever of {} runs it is; {}: {}", fit.judgements.size(), address(&nearest),
                       verdict_words(nearest));
  }
  std::vector<std::string> runs;
  for (const Judgement* judgement : fit.judgements)
    runs.push_back(fmt::format("{} {}", address(judgement), name(judgement->verdict)));
  return fmt::format("it can be any of {} runs: {}", runs.size(), cut_list(runs, 3, "and"));
}

// What was seen rules out the rest, wherever a mark does not.
std::string ruled_out_words(const LinkedKb& kb, const OwnedPart& part) {
  if (part.ruled_out.empty()) return "what was seen on it rules out every run and reproduction that is entered";
  std::vector<std::string> runs;
  for (const RunRuledOut& out : part.ruled_out)
    runs.push_back(fmt::format("{} was {}", kb.runs[at(out.run)].address, ruling_words(kb, out.ruling)));
  return cut_list(runs, 2, "and") + (part.seen.empty() ? "" : "; what was seen on it rules out the rest");
}

std::string finding_reason(const ReportInput& input, const AuditReport& report, const PieceAudit& piece,
                           const Finding& finding) {
  const LinkedKb& kb = input.kb;
  const auto slots = [&] { return slots_of(kb.issues[at(*report.shelf[piece.piece].issue)]); };
  std::vector<PartIdentity> could_be;
  if (finding.part) could_be = report.judge.could_be(report.judge.kind(*finding.part));
  switch (finding.trouble) {
  case Trouble::reproduction:
    return identity_words(kb, could_be);
  case Trouble::wrong:
    return fit_reason(kb, *finding.fit);
  case Trouble::nothing_fits:
    return ruled_out_words(kb, report.shelf[*finding.part]);
  case Trouble::misplaced: {
    std::vector<std::string> names;
    const std::vector<IssueSlot> all = slots();
    for (const std::size_t slot : finding.fit->slots) names.push_back(all[slot].name);
    return fmt::format("it goes into the slot {}", cut_list(names, 3, "or"));
  }
  case Trouble::undisclosed:
    return finding.fault;
  case Trouble::missing:
    return slot_words(kb, slots()[*finding.slot]);
  case Trouble::doubtful: {
    const std::string copies = cut_list(reproductions_of(kb, could_be), 2, "or");
    if (finding.fit == nullptr) return fmt::format("it can be {}", copies);
    return fmt::format("it can be {}; if not, {}", copies,
                       finding.fit->verdict == Verdict::open ? fit_reason(kb, *finding.fit) : "it belongs");
  }
  case Trouble::open:
    return could_be.empty() || finding.fit == nullptr ? "no run of it is entered" : fit_reason(kb, *finding.fit);
  case Trouble::issue_unknown:
    return possible_words(kb, piece);
  case Trouble::outfit_unknown:
    return "what the issue was sold with is not entered";
  case Trouble::unexamined: {
    const Received& received = finding.part ? report.shelf[*finding.part].received : report.shelf[piece.piece].received;
    const Purchase& purchase = report.shelf[*received.purchase];
    return fmt::format("it came with {}, which has arrived", purchase.id);
  }
  }
  return {};
}

} // namespace coeval
