// report/shelf_swap.hpp: how are the moves of a swap told?
#pragma once

#include "report/answers.hpp"
#include "shelf/swap_plan.hpp"

namespace coeval {

[[nodiscard]] std::string swap_text(const ReportInput& input, const LinkedShelf& shelf, const ShelfSwap& swap,
                                    TextStyle style);
[[nodiscard]] std::string swap_json(const ReportInput& input, const LinkedShelf& shelf, const ShelfSwap& swap);

} // namespace coeval
