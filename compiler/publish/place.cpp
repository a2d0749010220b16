#include "publish/place.hpp"

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <set>

#include <fcntl.h>
#include <unistd.h>

#include "publish/path.hpp"

namespace coeval {

std::optional<PlaceFailure> place_new(int staged, int root, std::vector<StagedFile>& files) {
  FolderWalk walk{root};
  for (std::size_t i = 0; i < files.size();) {
    if (!files[i].is_new) {
      ++i;
      continue;
    }
    const std::string& path = files[i].path;
    std::string moved = path; // what one rename brings: the file, or the topmost folder of it that is missing
    if (const int error = walk.go(folder_of(path)); error == ENOENT)
      moved = walk.stopped_at();
    else if (error != 0)
      return PlaceFailure{walk.stopped_at(), error == ENOTDIR || error == ELOOP ? EEXIST : error};
    if (const int error = rename_to_free(staged, moved, walk.here(), std::string{name_of(moved)}))
      return PlaceFailure{moved, error};
    const std::string inside = moved + "/";
    do files[i++].placed = true;
    while (i < files.size() && files[i].path.starts_with(inside));
  }
  return {};
}

std::optional<PlaceFailure> replace_old(int staged, int root, std::vector<StagedFile>& files) {
  FolderWalk walk{root};
  for (StagedFile& file : files) {
    if (file.placed) continue;
    if (const int error = walk.go(folder_of(file.path))) return PlaceFailure{walk.stopped_at(), error};
    if (::renameat(staged, file.path.c_str(), walk.here(), std::string{name_of(file.path)}.c_str()) != 0)
      return PlaceFailure{file.path, errno};
    file.placed = true;
  }
  return {};
}

RemovalResult remove_ours(FolderWalk& walk, const std::string& path, const std::vector<FileState>& known,
                          bool even_edited) {
  if (const int error = walk.go(folder_of(path))) {
    // Where a folder of the path has become a link, what lies behind that is not ours.
    if (error == ENOENT || error == ENOTDIR || error == ELOOP) return {};
    return {Removal::failed, error};
  }
  const std::string name{name_of(path)};
  if (!even_edited) {
    std::uint64_t largest = 0;
    for (const FileState& state : known) largest = std::max(largest, state.size);
    const ReadResult read = read_file(walk.here(), name, largest);
    if (read.error == ENOENT) return {};
    if (read.error == EFBIG || read.error == EINVAL || read.error == ELOOP) return {Removal::edited};
    if (read.error != 0) return {Removal::failed, read.error};
    const ContentHash now = hash_of(read.bytes);
    if (std::ranges::find(known, now, &FileState::hash) == known.end()) return {Removal::edited};
  }
  if (::unlinkat(walk.here(), name.c_str(), 0) == 0) return {Removal::removed};
  if (errno == ENOENT) return {};
  return {Removal::failed, errno};
}

void remove_empty_folders(int root, const std::vector<std::string>& paths) {
  std::set<std::string, std::greater<>> folders; // what lies in a folder comes before it
  for (const std::string& path : paths)
    for (std::string_view folder = folder_of(path); !folder.empty(); folder = folder_of(folder))
      folders.emplace(folder);
  FolderWalk walk{root};
  for (const std::string& folder : folders)
    if (walk.go(folder_of(folder)) == 0)
      (void)::unlinkat(walk.here(), std::string{name_of(folder)}.c_str(), AT_REMOVEDIR);
}

} // namespace coeval
