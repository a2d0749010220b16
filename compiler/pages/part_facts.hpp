// pages/part_facts.hpp: what is told alike of runs, moulds and reproductions?
//
// Private to this room.
#pragma once

#include "pages/looks.hpp"

namespace coeval {

// Adds the colour of a run or reproduction: its name, its CIELAB values and a swatch.
void add_colour(const Site& site, EntryIndex entry, Facts& facts);
// The name of the colour of a run or reproduction; empty where it gives none.
[[nodiscard]] std::string_view colour_name_of(const Site& site, EntryIndex entry);
// Adds the pictures of these entries side by side, each with the name of what it is of.
void add_plate(const Site& site, const std::vector<EntryIndex>& of, Page& page);

// Run or mould.
[[nodiscard]] EntryIndex copied_by(const LinkedKb& kb, const Repro& repro);
// The features by which a reproduction can be told from what it copies.
struct GivenAway {
  StatedLook original;
  StatedLook copy;
};
[[nodiscard]] std::vector<GivenAway> gives_away(const Site& site, const Repro& repro);
// Reproductions, what each copies, how it came about, and what gives it away.
[[nodiscard]] Table repros_table(const Site& site, const std::vector<ReproIndex>& repros);
// That not every reproduction is known.
[[nodiscard]] Paragraphs not_every_repro();

} // namespace coeval
