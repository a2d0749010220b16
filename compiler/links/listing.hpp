// links/listing.hpp: which figures, runs, spans … are there, and where in its list does each entry stand?
//
// The first step of linking, before any reference but that to a line is followed, so that references can point forward.
// Private to this room.
#pragma once

#include <cstdint>
#include <vector>

#include "links/addresses.hpp"

namespace coeval {

inline constexpr std::uint32_t nowhere = 0xffffffffU; // the position of what is in no list

// Fills the lists of `kb`, whose entries have their addresses, with what is known of each entry without following its
// references, and the positions. Returns the position of each entry among the spans; `nowhere` where it does not last.
[[nodiscard]] std::vector<std::uint32_t> list_entries(LinkedKb& kb, LinkTroubles& troubles);

} // namespace coeval
