// entries/plain_toml.hpp: what stands in a file of TOML that is written as nearly everybody writes it?
//
// Private to this room. toml++ is who knows TOML, and says what is wrong with a text; but it decodes one code point
// after the other and allocates every value for itself. This reads what is plain (bare keys, tables in their usual
// order, texts without rare escapes, numbers without exponents) and leaves everything else, and everything that is
// wrong, to it: 118 MB in 0.2 s of processor time in place of 3.1, so that compiling them takes 2.1 s in place of 5.8.
// What is read here is read alike there: tests/property/plain_toml and the fuzz target `toml` hold the two against each
// other.
#pragma once

#include <string_view>

#include "entries/toml_tree.hpp"
#include "entries/value_store.hpp"

namespace coeval {

// Whether all of the text is plain; `tree` then holds it, and else nothing of use. The text must be UTF-8. Texts with
// escapes are kept by `store`, all others are views of `text`. Takes time in proportion to the text.
[[nodiscard]] bool read_plain_toml(std::string_view text, TomlTree& tree, ValueStore& store);

} // namespace coeval
