// shelf/fee_tables.hpp: what comes on top of a bid, as the shelf's [[fees]] say?
//
// Private to this room.
#pragma once

#include "shelf/shelf.hpp"

namespace coeval {

// In the order of the file. A table that cannot be charged is reported at the place of its fault and left out.
[[nodiscard]] std::vector<FeeTable> read_fee_tables(const EntrySet& entries, Diagnostics& out);

// "half-up", "half-even", "up", "down"; half up where nothing is written.
[[nodiscard]] Rounding rounding_named(std::string_view written);

} // namespace coeval
