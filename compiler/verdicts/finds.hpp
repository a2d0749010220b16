// verdicts/finds.hpp: which find would show that an end was no later, or no earlier, than a day?
//
// A dated document can show any day. An example can show one side: what was sealed on a card had begun by the card's
// last day; a part sealed there was still being made not longer than stock is kept before the card's first; and nothing
// carries a mark from before the mark's first day. Which cards and marks would do is known from their own dates.
#pragma once

#include "verdicts/judge.hpp"

namespace coeval {

struct Find {
  std::string words;            // "one sealed on a card last used by 1979-06-11"
  std::vector<EntryIndex> such; // the cards, marks or issues that are known to be so, by address
};

// Only finds for which something entered would do; empty where only a document can show it. `day` is one that the end
// can have been on.
[[nodiscard]] std::vector<Find> finds_that_show(const LinkedKb& kb, const Chronology& chronology, SpanPoint end,
                                                Side side, Day day, Basis weakest);

} // namespace coeval
