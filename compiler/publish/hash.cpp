#include "publish/hash.hpp"

#include <charconv>

#include <fmt/format.h>
#include <xxhash.h>

namespace coeval {

ContentHash hash_of(std::string_view bytes) {
  const XXH128_hash_t hash = XXH3_128bits(bytes.data(), bytes.size());
  return {hash.high64, hash.low64};
}

std::string text_of(const ContentHash& hash) { return fmt::format("{:016x}{:016x}", hash.high, hash.low); }

std::optional<ContentHash> read_hash(std::string_view digits) {
  constexpr std::size_t half = 16;
  if (digits.size() != 2 * half) return {};
  ContentHash hash;
  const char* begin = digits.data();
  for (std::uint64_t* value : {&hash.high, &hash.low}) {
    const auto [end, error] = std::from_chars(begin, begin + half, *value, 16);
    if (error != std::errc{} || end != begin + half) return {};
    begin = end;
  }
  return hash;
}

} // namespace coeval
