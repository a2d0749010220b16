// links/asset_path.hpp: which file does an entry name?
#pragma once

#include <string>

#include "entries/entry.hpp"
#include "source/text.hpp"

namespace coeval {

// Relative to the root of the knowledge base, as `SourceSet::assets` lists files; begins with ".." or "/" where it lies
// outside. Entries count from the folder of the file that they stand in.
[[nodiscard]] std::string asset_path(const SourceSet& sources, const Field& field);

} // namespace coeval
