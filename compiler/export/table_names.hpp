// export/table_names.hpp: what is the table of a kind of entry called outside?
//
// For this room, and for import, which reads what it writes.
#pragma once

#include <string>

#include "entries/schema.hpp"

namespace coeval {

// "feature-values": as a file of CSV.
[[nodiscard]] std::string table_name(Kind kind);
// "feature_values", a name of SQL. Tables need no quotes, some columns do: "from", "to" and "on" are words of SQL.
[[nodiscard]] std::string sql_name(std::string_view name);

} // namespace coeval
