// publish/manifest.hpp: which files in a folder did an earlier publish write, and how did it leave them?
//
// The text of `.coeval-manifest`, version 1. Lines end in a line feed; fields are parted by one space:
//
//   coeval-manifest 1
//   HASH SIZE MODIFIED PATH        one for each file, sorted by path
//   end COUNT HASH
//
// HASH is XXH3-128 in 32 hexadecimal digits, of the file, and in the last line of everything before that line; SIZE is
// in bytes; MODIFIED is the modification time in nanoseconds since 1970, UTC; COUNT is the number of lines between the
// first and the last. Two lines with the same path stand for a publish that is under way, or was stopped: the file is
// in one of the two states. Anything else is no manifest: a text of which one byte is wrong is not believed at all.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "publish/hash.hpp"

namespace coeval {

struct FileState {
  ContentHash hash;
  std::uint64_t size = 0;    // bytes
  std::int64_t modified = 0; // nanoseconds since 1970, UTC
  friend auto operator<=>(const FileState&, const FileState&) = default;
};

using Manifest = std::map<std::string, std::vector<FileState>, std::less<>>; // path → its states, at least one

inline constexpr std::size_t largest_manifest = std::size_t{64} << 20; // bytes; half a million files

[[nodiscard]] std::string manifest_text(const Manifest& manifest);

// Nothing where the text is no manifest. Every path that comes back is one that may be written (is_output_path).
[[nodiscard]] std::optional<Manifest> read_manifest(std::string_view text);

} // namespace coeval
