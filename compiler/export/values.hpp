// export/values.hpp: how is a value of an entry written in a table and in JSON?
//
// Private to this room.
#pragma once

#include <nlohmann/json.hpp>

#include "links/kb.hpp"

namespace coeval {

// Dates and durations as they were written: "1976-08/1978", "P9M"; lists parted by "; ".
[[nodiscard]] std::string value_text(const SourceSet& sources, const Field& field);
// Lists as arrays, numbers as numbers; dates as they were written, with the days that they allow.
[[nodiscard]] nlohmann::ordered_json value_json(const SourceSet& sources, const Field& field);

} // namespace coeval
