// report/shelf_swap.hpp: how are the moves of a swap told?
#pragma once

#include "report/answers.hpp"
#include "shelf/swap_plan.hpp"

namespace coeval {

// `written_to` is the file that now says where the parts are; empty where it still says where they were.
[[nodiscard]] std::string swap_text(const ReportInput& input, const LinkedShelf& shelf, const ShelfSwap& swap,
                                    std::string_view written_to, TextStyle style);
[[nodiscard]] std::string swap_json(const ReportInput& input, const LinkedShelf& shelf, const ShelfSwap& swap,
                                    std::string_view written_to);

} // namespace coeval
