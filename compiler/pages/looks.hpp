// pages/looks.hpp: what is stated of how something looks, by which entry, and which of it tells things apart?
//
// Private to this room. The nearest statement counts: of a run its own, else its mould's, else its accessory's; of a
// reproduction its own, else what is stated of what it copies.
#pragma once

#include "pages/tell.hpp"

namespace coeval {

// Points into the entries of the knowledge base.
struct StatedLook {
  FeatureIndex feature{};
  EntryIndex from = no_entry;          // the entry whose table says so
  const FeatureValue* value = nullptr; // absent where a [colour] says it, which stands for the colour of the plastic
  const Numbers* lab = nullptr;        // of a colour that is given as numbers
  std::optional<double> tolerance;     // the value's, else the feature's
};

// In the order of the features. Of a figure, an issue or a card: what its own table states.
[[nodiscard]] std::vector<StatedLook> looks_of(const Site& site, EntryIndex entry);
[[nodiscard]] const StatedLook* find_look(const std::vector<StatedLook>& looks, FeatureIndex feature);

// No part can show both: no alternative in common, measures further apart than their tolerances, colours further apart
// than theirs.
[[nodiscard]] bool tells_apart(const LinkedKb& kb, const StatedLook& one, const StatedLook& other);

[[nodiscard]] std::string look_words(const LinkedKb& kb, const StatedLook& look); // its value
[[nodiscard]] Cell value_cell(const LinkedKb& kb, const StatedLook& look);
[[nodiscard]] Piece feature_link(const LinkedKb& kb, FeatureIndex feature);
// What it takes to look: "by eye, on a photograph, half a minute".
[[nodiscard]] std::string effort_words(const Feature& feature);

// Feature, value, and the entry that states it.
[[nodiscard]] Table looks_table(const Site& site, std::string caption, const std::vector<StatedLook>& looks);

struct Compared {
  Cell head;
  EntryIndex entry = no_entry;
};
// A column for each entry, a row for each feature that one of them states; values that tell an entry from another one
// are marked. With `about`, only features that this entry states itself, or that tell.
[[nodiscard]] Table comparison(const Site& site, std::string caption, std::vector<Compared> columns,
                               EntryIndex about = no_entry);

} // namespace coeval
