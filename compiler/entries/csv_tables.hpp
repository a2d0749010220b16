// entries/csv_tables.hpp: how does a shelf that is written as CSV become entries?
//
// Each row is turned into TOML and read by the one reader; every place that it names is then that of the cell.
#pragma once

#include "diagnose/diagnostic.hpp"
#include "entries/entry.hpp"

namespace coeval {

// "shelf.csv", whatever the case of the ending.
[[nodiscard]] bool is_csv_path(std::string_view path);

// Entries of one file; parents are positions in this list. What they hold is kept by `store`.
[[nodiscard]] std::vector<Entry> read_csv_file(const SourceSet& sources, FileIndex file, ValueStore& store,
                                               Diagnostics& out);

// Says in which row and column each diagnostic that concerns a cell stands, as spreadsheets count.
void name_cells(std::vector<Diagnostic>& list, const SourceSet& sources);

} // namespace coeval
