// links/find.hpp: which entry does somebody mean who types an address?
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "links/kb.hpp"

namespace coeval {

struct Found {
  std::vector<EntryIndex> matches; // one: found; several: ambiguous; none: see `near`
  std::vector<std::string> near;   // addresses that were perhaps meant, best first, when nothing matches
  std::vector<EntryIndex> other;   // entries of other kinds that the text does name
};

// An exact address of one of the kinds, or else every address of those kinds that ends in `text` on a whole id.
[[nodiscard]] Found find_entry(const LinkedKb& kb, std::string_view text, std::span<const Kind> kinds);

} // namespace coeval
