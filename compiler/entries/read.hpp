// entries/read.hpp: what do the files of a knowledge base, or a shelf, say?
//
// Reads every file in parallel and reports every mistake it can tell from one file alone: TOML errors, unknown tables
// and keys, wrong types, missing keys, ids, dates, durations, addresses, URLs, country codes that are none. Files
// listed in `skip` (already reported as unreadable text, sorted) are left out. The result and the order of reports do
// not depend on the threads. A shelf whose path ends in .csv is read as a table.
#pragma once

#include <span>

#include "diagnose/diagnostic.hpp"
#include "entries/entry.hpp"

namespace coeval {

[[nodiscard]] EntrySet read_entries(const SourceSet& sources, std::span<const FileIndex> skip, Diagnostics& out,
                                    Language language = Language::knowledge_base);

} // namespace coeval
