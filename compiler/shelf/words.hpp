// shelf/words.hpp: how are an owned part and a move of it called?
#pragma once

#include "shelf/swap_plan.hpp"

namespace coeval {

// What a part is, as short as it can be told: its run or reproduction, else what it can be.
[[nodiscard]] std::string part_words(const LinkedKb& kb, const OwnedPart& part);
// One hand move as an order: "take `lantern-3` (…) off `tam-1` and give it to `maren-1`, hand".
[[nodiscard]] std::string move_words(const LinkedKb& kb, const LinkedShelf& shelf, const PlannedMove& move);
// Why the part is better there than where it was; empty for what is put aside.
[[nodiscard]] std::string gain_words(const PlannedMove& move);

} // namespace coeval
