// export/export.hpp: what does the knowledge base hold, as files for other programs?
//
// data/kb.json        everything: each entry with its fields, place and days
// data/verdicts.csv   each run of each accessory that an issue takes, with the verdict
// data/figures.csv …  a table for each kind of entry that the knowledge base holds
//
// Same knowledge base, same bytes. The entries as they were written lie beside these as TOML; publishing them is not
// this room's work.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "chronology/chronology.hpp"

namespace coeval {

struct ExportFile {
  std::string path; // from the root of the site
  std::string type; // media type
  std::string holds;
};

// Which files there are, without making them.
[[nodiscard]] std::vector<ExportFile> exported_files(const LinkedKb& kb);
// Their paths and bytes, in the same order.
[[nodiscard]] std::vector<std::pair<std::string, std::string>>
export_files(const LinkedKb& kb, const Chronology& chronology, const SourceSet& sources);

} // namespace coeval
