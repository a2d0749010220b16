#include "shelf/words.hpp"

#include <fmt/format.h>

namespace coeval {

std::string gain_words(const PlannedMove& move) {
  if (move.fit == nullptr) return {};
  if (move.fit->state != FitState::right)
    return fmt::format("not known to be wrong there ({})", name(move.fit->verdict));
  return fmt::format("right there ({}{}{})", name(move.fit->verdict), move.fit->basis ? ", " : "",
                     move.fit->basis ? name(*move.fit->basis) : "");
}

std::string part_words(const LinkedKb& kb, const OwnedPart& part) {
  if (part.could_be.size() == 1) return std::string{address_of(kb, part.could_be.front())};
  const std::string what = part.accessory ? kb.accessories[at(*part.accessory)].id : "a part for the " + part.slot;
  if (part.could_be.empty()) return what + ", nothing that is entered";
  return fmt::format("{}, one of {}", what, part.could_be.size());
}

std::string move_words(const LinkedKb& kb, const LinkedShelf& shelf, const PlannedMove& move) {
  const OwnedPart& part = shelf[move.part];
  const std::string what = fmt::format("`{}` ({})", part.id, part_words(kb, part));
  if (!move.to) return fmt::format("take {} off `{}` and put it aside", what, shelf[move.from->piece].id);
  const std::string to = fmt::format("`{}`, {}", shelf[move.to->piece].id, move.to->slot);
  return move.from ? fmt::format("take {} off `{}` and give it to {}", what, shelf[move.from->piece].id, to)
                   : fmt::format("take {} from the loose parts and give it to {}", what, to);
}

} // namespace coeval
