// examine/alike.hpp: which candidates can no look tell apart?
#pragma once

#include <vector>

#include "examine/table.hpp"

namespace coeval {

// Some harmless look shows one thing of the one and another of the other, whatever part of either is at hand: both
// state the feature, and no value is common to both. This is no more than the entries say: what one of them does not
// state tells nobody anything.
[[nodiscard]] bool told_apart(const FeatureTable& table, std::size_t one, std::size_t other);
// The same by one feature only.
[[nodiscard]] bool told_apart_by(const FeatureTable& table, std::size_t column, std::size_t one, std::size_t other);
// Both state the feature, and something that the one can show the other cannot: with luck a look tells.
[[nodiscard]] bool may_tell_apart(const FeatureTable& table, std::size_t column, std::size_t one, std::size_t other);

// Sets of two or more candidates of which no two can be told apart, none part of another; each ascending. A candidate
// that states little can be in several. At most `most` are found.
[[nodiscard]] std::vector<std::vector<std::size_t>> alike_sets(const FeatureTable& table, std::size_t most = 1000);

} // namespace coeval
