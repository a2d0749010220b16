// pages/issue_facts.hpp: where was an issue packed and sold, and on what?
//
// Private to this room: told alike on the page of an issue and in the table of its figure.
#pragma once

#include "pages/tell.hpp"

namespace coeval {

// Each is empty where nothing is entered.
[[nodiscard]] Text markets_of(const LinkedKb& kb, const Issue& issue);
[[nodiscard]] Text packer_of(const LinkedKb& kb, const Issue& issue);
[[nodiscard]] Text cards_of(const LinkedKb& kb, const Issue& issue);
[[nodiscard]] Text marks_of(const LinkedKb& kb, TimeSpanIndex span);

// What goes into which slot; slots that take the same accessory stand together, so that its runs are judged once.
struct Taken {
  AccessoryIndex accessory{};
  std::vector<const Takes*> by; // one or more
};
[[nodiscard]] std::vector<Taken> taken_by(const Issue& issue);
[[nodiscard]] std::string slots_of(const Taken& taken); // "hand", "hand and waist"

} // namespace coeval
