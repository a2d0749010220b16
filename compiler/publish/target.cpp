#include "publish/target.hpp"

#include <algorithm>
#include <cerrno>
#include <optional>

#include <fcntl.h>

#include <fmt/format.h>

#include "publish/path.hpp"

namespace coeval {
namespace {

Occupant foreign(std::string what) {
  Occupant target;
  target.standing = Occupancy::foreign;
  target.what = std::move(what);
  return target;
}

Occupant shut(std::string what, int error) {
  Occupant target;
  target.standing = Occupancy::shut;
  target.what = std::move(what);
  target.error = error;
  return target;
}

Occupant to_clear(std::string what) {
  Occupant target;
  target.clear = std::move(what);
  return target;
}

bool is_folder_of_ours(const Manifest& before, const std::string& path) {
  const auto inside = before.lower_bound(path + "/");
  return inside != before.end() && inside->first.starts_with(path + "/");
}

// The first thing below a folder that no publish wrote. Only goes into folders that a manifest knows, so never deep.
std::optional<Occupant> something_foreign(int root, const Manifest& before, const std::string& folder) {
  FolderWalk walk{root};
  if (const int error = walk.go(folder)) return shut(walk.stopped_at(), error);
  Listing list = list_folder(walk.here(), ".");
  if (list.error != 0) return shut(folder, list.error);
  std::ranges::sort(list.names);
  for (const std::string& name : list.names) {
    const std::string path = fmt::format("{}/{}", folder, name);
    struct stat status {};
    if (::fstatat(walk.here(), name.c_str(), &status, AT_SYMLINK_NOFOLLOW) != 0) return shut(path, errno);
    if (S_ISREG(status.st_mode) && before.contains(path)) continue;
    if (!S_ISDIR(status.st_mode) || !is_folder_of_ours(before, path)) return foreign(path);
    if (auto found = something_foreign(root, before, path)) return found;
  }
  return {};
}

// What stands at a part of the path that must be a folder, and is none.
Occupant look_at_part(int root, const Manifest& before, const std::string& part) {
  FolderWalk walk{root};
  struct stat status {};
  if (const int error = walk.go(folder_of(part))) return shut(walk.stopped_at(), error);
  if (::fstatat(walk.here(), std::string{name_of(part)}.c_str(), &status, AT_SYMLINK_NOFOLLOW) != 0)
    return shut(part, errno);
  return S_ISREG(status.st_mode) && before.contains(part) ? to_clear(part) : foreign(part);
}

Occupant look_at_file(int folder, const std::string& path, const std::vector<FileState>* known,
                      const struct stat& status, std::string_view bytes, const ContentHash& hash) {
  const FileState now{hash, static_cast<std::uint64_t>(status.st_size), modified_ns(status)};
  Occupant target;
  target.state = now;
  const bool right_size = now.size == bytes.size();
  if (known != nullptr) {
    // What has kept its size and its modification time is as we left it.
    if (right_size && std::ranges::find(*known, now) != known->end()) {
      target.standing = Occupancy::same;
      return target;
    }
    const auto untouched = [&](const FileState& state) {
      return state.size == now.size && state.modified == now.modified;
    };
    if (std::ranges::any_of(*known, untouched)) {
      target.standing = Occupancy::ours;
      return target;
    }
  }
  const auto size_of_then = [&](const FileState& state) { return state.size == now.size; };
  if (right_size || (known != nullptr && std::ranges::any_of(*known, size_of_then))) {
    const ReadResult read = read_file(folder, std::string{name_of(path)}, now.size);
    if (read.error == 0 && read.bytes == bytes) {
      target.standing = Occupancy::same;
      return target;
    }
    const ContentHash found = hash_of(read.bytes);
    const auto content_of_then = [&](const FileState& state) { return state.hash == found; };
    if (read.error == 0 && known != nullptr && std::ranges::any_of(*known, content_of_then)) {
      target.standing = Occupancy::ours; // copied or touched, not changed
      return target;
    }
  }
  if (known == nullptr) return foreign(path);
  target.standing = Occupancy::edited;
  return target;
}

} // namespace

Occupant look_at(FolderWalk& walk, const Manifest& before, const std::string& path, std::string_view bytes,
                 const ContentHash& hash) {
  const int error = walk.go(folder_of(path));
  if (error == ENOENT) return {};
  if (error == ENOTDIR || error == ELOOP) return look_at_part(walk.root(), before, walk.stopped_at());
  if (error != 0) return shut(walk.stopped_at(), error);
  struct stat status {};
  if (::fstatat(walk.here(), std::string{name_of(path)}.c_str(), &status, AT_SYMLINK_NOFOLLOW) != 0)
    return errno == ENOENT ? Occupant{} : shut(path, errno);
  const auto known = before.find(path);
  if (S_ISREG(status.st_mode))
    return look_at_file(walk.here(), path, known == before.end() ? nullptr : &known->second, status, bytes, hash);
  if (S_ISDIR(status.st_mode)) return something_foreign(walk.root(), before, path).value_or(to_clear(path));
  return foreign(path);
}

} // namespace coeval
