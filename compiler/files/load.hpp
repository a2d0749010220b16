// files/load.hpp: which files make up a knowledge base, and what is in them?
//
// The one stage that reads a disk. Everything below the root whose name ends in .toml is read, in parallel; every other
// file is only listed (pictures are named by entries). Names that start with a dot are passed over. Links are followed
// where they lead to something below the root that was not found on its own, and never out of it; only regular files
// are ever opened. The result does not depend on the order of the disk or on the number of threads.
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <vector>

#include "diagnose/diagnostic.hpp"
#include "source/text.hpp"

namespace coeval {

struct LoadLimits {
  std::size_t file_bytes = std::size_t{4} << 20; // of one TOML file
  // Files and folders below the root. A file for each figure and each accessory, as the demo has them, makes 360,000
  // for a million runs; whoever names a disk by mistake has more.
  std::size_t files = 500'000;
  unsigned threads = 0; // 0: as many as the machine runs at once
};

struct LoadResult {
  SourceSet sources;
  // Files whose text is not UTF-8, sorted. Their text is kept so that the place can be shown; nothing may read it.
  std::vector<FileIndex> broken;
};

// Reports a root or folder that cannot be listed, a root without TOML files, files that cannot be read, are too large
// or are not UTF-8, and links that lead out, nowhere or in a circle. Over the limit of files nothing is read at all.
[[nodiscard]] LoadResult load_sources(const std::filesystem::path& root, Diagnostics& out,
                                      const LoadLimits& limits = {});

// One file by its own path, a shelf say: a set of this file alone, whose root is the folder that it lies in. Nothing
// where it cannot be read or is larger than `most`; where its text is not UTF-8, that is reported and the set serves to
// show the place only.
[[nodiscard]] std::optional<SourceSet> load_file(const std::filesystem::path& path, Diagnostics& out,
                                                 std::size_t most = std::size_t{32} << 20);

} // namespace coeval
