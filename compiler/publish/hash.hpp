// publish/hash.hpp: are these the bytes that were written?
//
// XXH3, 128 bits: it has to notice edits and accidents, at the speed of memory. Nothing is kept safe by it; who may
// write to the folder may also write its manifest.
#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace coeval {

struct ContentHash {
  std::uint64_t high = 0;
  std::uint64_t low = 0;
  friend auto operator<=>(const ContentHash&, const ContentHash&) = default;
};

[[nodiscard]] ContentHash hash_of(std::string_view bytes);

// As 32 hexadecimal digits, and back; nothing where it is something else.
[[nodiscard]] std::string text_of(const ContentHash& hash);
[[nodiscard]] std::optional<ContentHash> read_hash(std::string_view digits);

} // namespace coeval
