// entries/toml_library.hpp: what stands in a file of TOML, whatever it is, and what is wrong with one that is none?
//
// Private to this room, and the only code that sees toml++.
#pragma once

#include <optional>
#include <string>

#include "entries/toml_tree.hpp"
#include "entries/value_store.hpp"
#include "source/text.hpp"

namespace coeval {

// Why a text is not read. Nothing behind that place was.
struct TomlFault {
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
  std::string message;
};

// Fills the tree, or says why not. Texts and keys are views of the file where they stand there as they are meant; what
// does not is kept by `store`. The text must be UTF-8.
[[nodiscard]] std::optional<TomlFault> read_toml(const SourceFile& file, TomlTree& tree, ValueStore& store);

} // namespace coeval
