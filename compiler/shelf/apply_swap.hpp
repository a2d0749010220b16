// shelf/apply_swap.hpp: what does the file of a shelf say once the moves of a swap are made?
//
// Only `in` and, where it would not follow by itself, `slot` of the parts that move are written. Pure: text in, text
// out.
#pragma once

#include <optional>
#include <string>

#include "shelf/swap_plan.hpp"

namespace coeval {

// Of the one file that the shelf was read from. Nothing where it cannot be changed in place, or would not say of every
// part what it says now and of each that moves where it goes; then `out` says why.
[[nodiscard]] std::optional<std::string> apply_swap(const LinkedKb& kb, const SourceSet& sources,
                                                    const LinkedShelf& shelf, const ShelfSwap& swap, Diagnostics& out);

} // namespace coeval
