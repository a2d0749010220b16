#include "report/shelf_swap.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "report/json_parts.hpp"
#include "shelf/words.hpp"

namespace coeval {
namespace {

std::string counted_of(std::size_t count, std::size_t of, std::string_view noun) {
  return fmt::format("{} of {} {}{}", count, of, noun, of == 1 ? "" : "s");
}

Json place_json(const LinkedShelf& shelf, const std::optional<WornPlace>& place) {
  if (!place) return nullptr;
  return {{"piece", shelf[place->piece].id}, {"slot", place->slot}};
}

Json counts_json(const SwapCounts& counts) {
  return {{"right", counts.right}, {"weight", counts.weight}, {"complete", counts.complete}};
}

} // namespace

std::string swap_text(const ReportInput& input, const LinkedShelf& shelf, const ShelfSwap& swap,
                      std::string_view written_to, TextStyle style) {
  if (swap.slots == 0) return "nothing to swap: no piece of a known issue with slots is on this shelf\n";
  const bool weighed = std::ranges::any_of(shelf.pieces, [](const OwnedPiece& piece) { return piece.priority != 1; });
  const auto counts = [&](std::string_view when, const SwapCounts& state) {
    return fmt::format("{:<8}{} right, {} complete{}\n", when, counted_of(state.right, swap.slots, "slot"),
                       counted_of(state.complete, swap.pieces, "piece"),
                       weighed ? fmt::format("; {} by priority", state.weight) : "");
  };
  std::string text = counts("now", swap.before);
  if (swap.moves.empty()) {
    text += swap.is_best ? "\nno move makes it better\n" : "\nno better order was found\n";
  } else {
    text += counts("after", swap.after) + "\n";
    const std::size_t width = std::to_string(swap.moves.size()).size();
    for (std::size_t i = 0; i < swap.moves.size(); ++i) {
      const PlannedMove& move = swap.moves[i];
      std::string line = move_words(input.kb, shelf, move);
      if (const std::string gain = gain_words(move); !gain.empty()) line += ": " + gain;
      if (move.completes) line += fmt::format("; `{}` is complete", shelf[move.to->piece].id);
      text += fmt::format("{:>{}}  {}\n", i + 1, width, wrap(line, width + 2, style));
    }
  }
  if (!swap.is_best)
    text +=
        "\n" +
        wrap(fmt::format("As many slots are right as can be. Whether these moves are the best of all was not settled "
                         "in the time allowed: at most {} pieces can be complete.",
                         swap.most_complete),
             0, style) +
        "\n";
  if (!written_to.empty())
    text +=
        "\n" + wrap(fmt::format("{} says so now: make the moves by hand in this order", written_to), 0, style) + "\n";
  return text + "\nright is what the entered evidence supports; look at each part before you move it\n";
}

std::string swap_json(const ReportInput& input, const LinkedShelf& shelf, const ShelfSwap& swap,
                      std::string_view written_to) {
  Json json = document("swap", input);
  json["slots"] = swap.slots;
  json["pieces"] = swap.pieces;
  json["before"] = counts_json(swap.before);
  json["after"] = counts_json(swap.after);
  json["moves"] = Json::array();
  for (const PlannedMove& move : swap.moves) {
    const OwnedPart& part = shelf[move.part];
    Json could_be = Json::array();
    for (const PartIdentity& identity : part.could_be) could_be.emplace_back(address_of(input.kb, identity));
    Json one{{"part", part.id},
             {"could-be", std::move(could_be)},
             {"from", place_json(shelf, move.from)},
             {"to", place_json(shelf, move.to)},
             {"right", move.fit != nullptr && move.fit->state == FitState::right},
             {"verdict", nullptr},
             {"basis", nullptr},
             {"completes", move.completes},
             {"words", move_words(input.kb, shelf, move)}};
    if (move.fit != nullptr) one["verdict"] = name(move.fit->verdict);
    if (move.fit != nullptr && move.fit->basis) one["basis"] = name(*move.fit->basis);
    json["moves"].push_back(std::move(one));
  }
  json["written"] = !written_to.empty();
  json["best"] = swap.is_best;
  json["most-complete"] = swap.most_complete;
  return written(json);
}

} // namespace coeval
