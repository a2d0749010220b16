#include <fmt/format.h>

#include "private_pages/tell.hpp"
#include "shelf/words.hpp"

namespace coeval {

Page swap_page(const PrivatePagesInput& input) {
  const ShelfSwap& swap = input.swap;
  Page page{.path = "swap.html", .title = "Swap"};
  page.summary = swap.moves.empty() ? "No move makes more of what is owned."
                                    : fmt::format("{} moves make the most of what is owned.", swap.moves.size());
  Table counts;
  counts.caption = "What the moves are worth";
  counts.columns = {{{words("")}}, {{words("Now")}}, {{words("After")}}, {{words("Of")}}};
  const auto number = [](std::size_t count) { return Cell{{words(std::to_string(count))}}; };
  counts.rows = {
      {{{words("slots with a right part")}}, number(swap.before.right), number(swap.after.right), number(swap.slots)},
      {{{words("complete pieces")}}, number(swap.before.complete), number(swap.after.complete), number(swap.pieces)}};
  page.sections.push_back({"intro", {}, {}, {std::move(counts)}});
  if (swap.moves.empty()) return page;

  Checklist list;
  list.groups.emplace_back();
  for (const PlannedMove& move : swap.moves) {
    std::string note = gain_words(move);
    if (move.completes) note += fmt::format("; {} is complete", input.shelf[move.to->piece].id);
    list.groups.back().items.push_back({with_ids(move_words(input.report.kb, input.shelf, move)), std::move(note)});
  }
  std::vector<Block> blocks{
      Paragraphs{
          {{words("In this order no part is needed before it is free. Look at each part before you move it: right is "
                  "what the entered evidence supports. Do not force what does not come off; old plastic breaks.")}}},
      std::move(list)};
  if (!swap.is_best)
    blocks.push_back(Paragraphs{{{words(fmt::format("As many slots are right as can be. Whether these moves are the "
                                                    "best of all was not settled: at most {} pieces can "
                                                    "be complete.",
                                                    swap.most_complete))}}});
  add_to_list(page, "Moves", std::move(blocks));
  return page;
}

} // namespace coeval
