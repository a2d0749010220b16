// A source that nothing cites is either waiting to be read or left over.
#include <fmt/format.h>

#include "rules/rule_list.hpp"

namespace coeval {

void check_sources_are_used(const RuleInput& input, Diagnostics& out) {
  if (!input.complete) return;
  for (const Source& source : input.kb.sources) {
    if (source.used) continue;
    Diagnostic unused;
    unused.code = Code::unused_source;
    unused.place = input.kb.entries[source.entry].place;
    unused.message = fmt::format("nothing cites the source `{}`", source.id);
    unused.help = "cite it where it speaks, or take it out";
    out.report(std::move(unused));
  }
}

} // namespace coeval
