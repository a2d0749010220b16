// money/apportion.hpp: how is a sum shared out by weight so that no unit is lost?
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace coeval {

// One share for each weight; the shares add up to `total`, and each is less than one unit from its exact part. By the
// largest remainders (Hamilton's method): of equal remainders the first is rounded up. Throws std::logic_error for a
// total or weight below nought, or weights that are all nought.
[[nodiscard]] std::vector<std::int64_t> apportion(std::int64_t total, std::span<const std::int64_t> weights);

} // namespace coeval
