// entries/toml_tables.hpp: how does the text of one file become entries?
//
// Private to this room. One call reads one file; calls for different files may run at the same time.
#pragma once

#include "diagnose/diagnostic.hpp"
#include "entries/entry.hpp"

namespace coeval {

// Entries of one file; parents are positions in this list.
[[nodiscard]] std::vector<Entry> read_file(const SourceSet& sources, FileIndex file, Language language,
                                           Diagnostics& out);

} // namespace coeval
