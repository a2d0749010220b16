// Statements that cannot all be true prove everything and so nothing: each irreducible group of them is an error.
#include <fmt/format.h>

#include "calendar/duration.hpp"
#include "rules/rule_list.hpp"

namespace coeval {

void check_contradictions(const RuleInput&, const Chronology& chronology, Diagnostics& out) {
  for (const Contradiction& contradiction : chronology.contradictions()) {
    Diagnostic clash;
    clash.code = Code::contradiction;
    clash.reasons = chronology.tell_contradiction(contradiction);
    for (const Reason& reason : clash.reasons)
      if (reason.weakest) clash.place = reason.place;
    const auto count = contradiction.statements.size();
    clash.message = count == 1
                        ? fmt::format("this statement cannot be true: it misses itself by at least {}",
                                      at_least_words(contradiction.excess))
                        : fmt::format("these {} statements cannot all be true: they miss each other by at least {}",
                                      count, at_least_words(contradiction.excess));
    clash.help = "correct the wrong one, or mark the one that you doubt with disputed = true; what a key says, such as "
                 "`used`, is first moved to a [[timing]] of its own";
    out.report(std::move(clash));
  }
}

} // namespace coeval
