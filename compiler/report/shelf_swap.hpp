// report/shelf_swap.hpp: how are the moves of a swap told?
#pragma once

#include "report/answers.hpp"
#include "shelf/swap_plan.hpp"

namespace coeval {

// What a part is, as short as it can be told: its run or reproduction, else what it can be.
[[nodiscard]] std::string part_words(const LinkedKb& kb, const OwnedPart& part);

// One hand move as an order: "take `lantern-3` off `tam-1` and give it to `maren-1`, hand".
[[nodiscard]] std::string move_words(const LinkedKb& kb, const LinkedShelf& shelf, const PlannedMove& move);

[[nodiscard]] std::string swap_text(const ReportInput& input, const LinkedShelf& shelf, const ShelfSwap& swap,
                                    TextStyle style);
[[nodiscard]] std::string swap_json(const ReportInput& input, const LinkedShelf& shelf, const ShelfSwap& swap);

} // namespace coeval
