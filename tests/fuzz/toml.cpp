// Any text as TOML: what the quick reader takes for plain is read alike by toml++.
#include <cstdlib>

#include "source/text.hpp"
#include "toml_trees.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  if (coeval::first_bad_byte(text)) return 0; // such files are never handed to a reader
  const toml_trees::Comparison comparison = toml_trees::compare(text);
  if (comparison == toml_trees::Comparison::refused_by_toml || comparison == toml_trees::Comparison::different)
    std::abort();
  return 0;
}
