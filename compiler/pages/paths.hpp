// pages/paths.hpp: where in the site is the page of an entry?
//
// Figures and accessories have a page of their own, and so have issues, runs, reproductions and most other kinds. A
// mould is a section of its accessory's page. Paths are made of ids and fixed words only, so they cannot leave the
// site.
#pragma once

#include <string>

#include "links/kb.hpp"

namespace coeval {

// "figures/keeper-maren/painted-buttons.html", "accessories/signal-lantern.html#ring-top"; empty where an entry of this
// kind has no page.
[[nodiscard]] std::string path_of(const LinkedKb& kb, EntryIndex entry);
[[nodiscard]] std::string path_of_market(std::string_view country); // "markets/gb.html"
[[nodiscard]] std::string path_of_matrix(const LinkedKb& kb,
                                         AccessoryIndex accessory);                  // "matrices/signal-lantern.html"
[[nodiscard]] std::string path_of_key(const LinkedKb& kb, AccessoryIndex accessory); // "keys/signal-lantern.html"
[[nodiscard]] std::string path_of_slot_key(std::string_view slot);                   // "keys/slots/hand.html"
[[nodiscard]] std::string path_of_checklist(const LinkedKb& kb, EntryIndex line_or_figure);
// The list of all entries of a kind: "figures.html"; empty for kinds that have none.
[[nodiscard]] std::string path_of_index(Kind kind);
// Where the verdict of a run stands open on the page of its issue: "signal-lantern.ring-top.brass".
[[nodiscard]] std::string verdict_anchor(const LinkedKb& kb, RunIndex run);
// A file of the knowledge base (TOML or picture) as it is published: "data/kb/saltmere/cards.toml". Bytes other than
// small ASCII letters, digits, '-', '.' and '/' are written _xx, in hexadecimal, and long names are shortened, so that
// every path is safe in any file system and in a link.
[[nodiscard]] std::string path_of_file(std::string_view path);

} // namespace coeval
