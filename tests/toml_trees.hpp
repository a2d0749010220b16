// tests/toml_trees.hpp: do plain_toml and toml++ read the same in a text?
//
// The property test and the fuzz target hold the two against each other: what the quick reader accepts toml++ must
// accept too, and every value, key and place must be the same.
#pragma once

#include <bit>
#include <string>

#include "entries/plain_toml.hpp"
#include "entries/toml_library.hpp"

namespace toml_trees {

inline bool same(const coeval::TomlNode& one, const coeval::TomlNode& other) {
  const bool alike = one.type == other.type && one.flag == other.flag && one.begin == other.begin &&
                     one.end == other.end && one.key_begin == other.key_begin && one.key_end == other.key_end &&
                     one.key == other.key && one.text == other.text && one.integer == other.integer &&
                     std::bit_cast<std::uint64_t>(one.real) == std::bit_cast<std::uint64_t>(other.real) &&
                     one.held == other.held;
  if (!alike) return false;
  auto in_other = other.begin_held();
  for (const coeval::TomlNode& node : coeval::HeldBy{one}) {
    if (!same(node, *in_other)) return false;
    ++in_other;
  }
  return true;
}

enum class Comparison { not_plain, alike, refused_by_toml, different };

// The text must be UTF-8.
inline Comparison compare(const std::string& text) {
  const coeval::SourceFile file{"compared.toml", text};
  coeval::ValueStore store;
  coeval::TomlTree plain;
  if (!coeval::read_plain_toml(file.text(), plain, store)) return Comparison::not_plain;
  coeval::TomlTree whole;
  if (coeval::read_toml(file, whole, store)) return Comparison::refused_by_toml;
  return same(plain.root(), whole.root()) ? Comparison::alike : Comparison::different;
}

} // namespace toml_trees
