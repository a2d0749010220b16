// Records must not speak against each other: a pairing that is both attested and refuted, or attested with an issue
// that the run is said never to have gone to, decides nothing until one of the two is disputed or mended.
#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "rules/rule_list.hpp"

namespace coeval {

void check_pairings(const RuleInput& input, Diagnostics& out) {
  const LinkedKb& kb = input.kb;
  std::map<std::pair<RunIndex, IssueIndex>, const Pairing*> refuted;
  for (const Pairing& pairing : kb.pairings)
    if (pairing.refuted && !pairing.evidence.disputed) refuted.try_emplace({pairing.run, pairing.issue}, &pairing);
  for (const Pairing& pairing : kb.pairings) {
    if (pairing.refuted || pairing.evidence.disputed) continue;
    const Run& run = kb.runs[at(pairing.run)];
    const Issue& issue = kb.issues[at(pairing.issue)];
    const Span place = pairing.evidence.place;
    if (const auto other = refuted.find({pairing.run, pairing.issue}); other != refuted.end()) {
      Diagnostic conflict;
      conflict.code = Code::pairing_conflict;
      conflict.place = place;
      conflict.message = fmt::format("`{}` with `{}` is both attested and refuted", run.address, issue.address);
      conflict.help = "mark the one that you doubt with disputed = true";
      conflict.labels.push_back({other->second->evidence.place, "refuted here"});
      out.report(std::move(conflict));
    }
    for (const Exclusive& exclusive : run.exclusives) {
      if (exclusive.evidence.disputed || std::ranges::find(exclusive.to, pairing.issue) != exclusive.to.end()) continue;
      Diagnostic conflict;
      conflict.code = Code::exclusive_conflict;
      conflict.place = place;
      conflict.message = fmt::format("`{}` was found with `{}`, and is said to have gone to other issues only",
                                     run.address, issue.address);
      conflict.help = "add the issue to the exclusive list, or mark one of the two with disputed = true";
      conflict.labels.push_back({exclusive.evidence.place, "the exclusive list"});
      out.report(std::move(conflict));
    }
    const bool placed =
        std::ranges::any_of(issue.takes, [&](const Takes& takes) { return takes.accessory == run.accessory; });
    if (placed || (issue.takes.empty() && !issue.bare)) continue;
    Diagnostic homeless;
    homeless.code = Code::pairing_without_place;
    homeless.place = place;
    homeless.message = fmt::format("`{}` was found with `{}`, which is not said to take {}", run.address, issue.address,
                                   kb.accessories[at(run.accessory)].id);
    homeless.help =
        fmt::format("add [[issue.takes]] with accessory = \"{}\" to the issue, or mark the pairing disputed",
                    kb.accessories[at(run.accessory)].id);
    homeless.labels.push_back({kb.entries[issue.entry].place, "the issue"});
    out.report(std::move(homeless));
  }
}

} // namespace coeval
