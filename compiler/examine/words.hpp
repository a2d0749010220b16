// examine/words.hpp: how is a value of a feature put into words?
#pragma once

#include <string>

#include "examine/looks.hpp"

namespace coeval {

// "21.5": as few decimals as it takes, four at most.
[[nodiscard]] std::string number_words(double number);
// "ring or notch", "yes", "4", "22.4 ± 0.3 mm", "lab(70.8, 5.2, 44.9) ± 4", "same-as-figure".
[[nodiscard]] std::string stated_words(const LinkedKb& kb, const Stated& stated);
// One value of a count, choice, mark or presence.
[[nodiscard]] std::string atom_words(const FeatureAtom& atom);
// The name that a run or reproduction gives its colour; empty where it gives none.
[[nodiscard]] std::string_view colour_name(const LinkedKb& kb, EntryIndex run_or_repro);
// What a look can show, in words: "ring", "21.1 to 21.7 mm", "brass yellow, lab(70.8, 5.2, 44.9)".
[[nodiscard]] std::string shown_words(const FeatureTable& table, std::size_t column, const Showing& showing,
                                      std::size_t shown);
// The name of a colour that a look can show; empty where none of those that state it names it.
[[nodiscard]] std::string_view shown_colour(const FeatureTable& table, std::size_t column, std::size_t shown);

} // namespace coeval
