// publish/place.hpp: how do files that wait in the staging folder take their places, and stale ones leave?
//
// Each step is one rename or one unlink, so that nobody ever sees half a file. What fails stops the rest, and says
// where.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "publish/disk.hpp"
#include "publish/manifest.hpp"

namespace coeval {

struct StagedFile {
  std::string path;
  bool is_new = false; // nothing stood there when it was written
  bool placed = false;
};

struct PlaceFailure {
  std::string path; // below the folder that is published to
  int error = 0;    // EEXIST: something foreign has appeared there
};

// Lets the new files appear. Where a whole folder is new, one rename brings all that is in it: an empty folder is
// filled with as many renames as the site has names at its top. `files` is sorted by path; all that have come to their
// place are marked.
[[nodiscard]] std::optional<PlaceFailure> place_new(int staged, int root, std::vector<StagedFile>& files);

// Puts the files that are not placed yet where old ones are.
[[nodiscard]] std::optional<PlaceFailure> replace_old(int staged, int root, std::vector<StagedFile>& files);

enum class Removal : std::uint8_t { removed, missing, edited, failed };
struct RemovalResult {
  Removal removal = Removal::missing;
  int error = 0;
};

// Removes a file if it has the content that an earlier publish gave it. `even_edited`: whatever its content.
[[nodiscard]] RemovalResult remove_ours(FolderWalk& walk, const std::string& path, const std::vector<FileState>& known,
                                        bool even_edited);

// Removes the folders of `paths`, and those above them, as far as nothing is in them. Never the root.
void remove_empty_folders(int root, const std::vector<std::string>& paths);

} // namespace coeval
