// inputs/parts.hpp: what was worked out for the last site, by what it follows from?
//
// Parts of files that are made whole each time, kept from one publish to the next. The bytes, numbers as they lie in
// memory:
//
//   "coeval-parts 1\n" and 0x01020304     so that a machine with another order of bytes does not believe them
//   KEY SIZE PART …                       a ContentHash, 64 bits, SIZE bytes
//   HASH                                  of everything before it
//
// Bytes of which one is wrong are not believed at all. They only save work, and may be lost at any time.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "publish/hash.hpp"

namespace coeval {

class PartsBefore {
public:
  explicit PartsBefore(std::string_view bytes); // must outlive it; empty, or broken: none are found
  [[nodiscard]] std::optional<std::string_view> find(const ContentHash& key) const;

private:
  std::vector<std::pair<ContentHash, std::string_view>> parts_; // sorted by key
};

class PartsAfter {
public:
  explicit PartsAfter(std::size_t expected = 0); // about so many bytes
  void add(const ContentHash& key, std::string_view part);
  [[nodiscard]] std::string finished() &&;

private:
  std::string bytes_;
};

} // namespace coeval
