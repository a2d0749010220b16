// diagnose/near.hpp: which known name was probably meant?
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace coeval {

// Edits (insert, delete, replace, swap of neighbours) between two byte strings: the optimal string alignment distance.
[[nodiscard]] std::size_t edit_distance(std::string_view one, std::string_view other);

// The known names close enough to `written` to be meant, nearest first, ties in alphabetical order; at most `most`.
// Close enough: at most one edit for every three characters, and never all of them.
[[nodiscard]] std::vector<std::string_view> near_names(std::string_view written,
                                                       std::span<const std::string_view> known, std::size_t most = 3);

// "did you mean `a`, `b` or `c`?"; empty where there is nothing to suggest.
[[nodiscard]] std::string did_you_mean(std::span<const std::string_view> names);
// "an issue", "a run".
[[nodiscard]] std::string with_article(std::string_view noun);
// "1 verdict", "3 verdicts".
[[nodiscard]] std::string counted(std::size_t count, std::string_view noun);
// "`a`, `b` or `c`"; `last` joins the last two.
[[nodiscard]] std::string list_names(std::span<const std::string_view> names, std::string_view last = "or");

} // namespace coeval
