// publish/target.hpp: what stands where a file must go, and whose is it?
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "publish/disk.hpp"
#include "publish/manifest.hpp"

namespace coeval {

enum class Occupancy : std::uint8_t {
  free,    // nothing, or only what an earlier publish wrote and this one cannot keep: see `clear`
  same,    // a file with these very bytes, whoever wrote it
  ours,    // a file of an earlier publish, as it left it
  edited,  // a file of an earlier publish that somebody has changed
  foreign, // anything else
  shut,    // it cannot be known: see `error`
};

struct Occupant {
  Occupancy standing = Occupancy::free;
  FileState state;  // where it is the same
  std::string what; // foreign: the path of what is in the way; shut: of what cannot be looked at
  // A file of an earlier publish where a folder must go, or a folder with nothing but such files where a file must go.
  // Empty where nothing has to be cleared away first.
  std::string clear;
  int error = 0;
};

// Looks below the root of `walk`, following no link.
[[nodiscard]] Occupant look_at(FolderWalk& walk, const Manifest& before, const std::string& path,
                               std::string_view bytes, const ContentHash& hash);

} // namespace coeval
