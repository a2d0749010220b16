// An issue without any accessory leaves every question about it open; that is either an omission or worth saying.
#include <vector>

#include <fmt/format.h>

#include "rules/rule_list.hpp"

namespace coeval {

void check_outfits(const RuleInput& input, Diagnostics& out) {
  const LinkedKb& kb = input.kb;
  std::vector<bool> written(kb.entries.entries.size(), false); // takes that could not be resolved are reported already
  for (const Entry& entry : kb.entries.entries)
    if (entry.kind == Kind::takes && entry.parent != no_entry) written[at(entry.parent)] = true;
  for (const Issue& issue : kb.issues) {
    if (!issue.takes.empty() || issue.bare || kb.entries[issue.entry].broken || !input.complete) continue;
    if (written[at(issue.entry)]) continue;
    Diagnostic none;
    none.code = Code::no_outfit;
    none.place = kb.entries[issue.entry].place;
    none.message = fmt::format("`{}` is not said to take any accessory", issue.address);
    none.help = "add [[issue.takes]] for each, or bare = true if it was sold with none";
    out.report(std::move(none));
  }
}

} // namespace coeval
