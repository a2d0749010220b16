// shelf/edited_text.hpp: how does each kind of file take new values of its keys? Private to shelf/edit.
#pragma once

#include "shelf/edit.hpp"

namespace coeval {

// A file of tables and keys. Nothing where a table is written in a way that has no lines of its own for its keys;
// `fault` says where.
[[nodiscard]] std::optional<std::string> edited_toml(std::string_view text, const EntrySet& entries,
                                                     const NewValues& values, Span& fault);
// A table of cells.
[[nodiscard]] std::string edited_csv(std::string_view text, const EntrySet& entries, const NewValues& values);

} // namespace coeval
