// entries/toml_tables.hpp: how does the text of one file become entries?
//
// Private to this room. One call reads one file; calls for different files may run at the same time.
#pragma once

#include "diagnose/diagnostic.hpp"
#include "entries/entry.hpp"
#include "entries/toml_tree.hpp"

namespace coeval {

// Entries of one file; parents are positions in this list. What they hold is kept by `store`; `tree` is room to read
// the file in.
[[nodiscard]] std::vector<Entry> read_file(const SourceSet& sources, FileIndex file, Language language, TomlTree& tree,
                                           ValueStore& store, Diagnostics& out);

} // namespace coeval
