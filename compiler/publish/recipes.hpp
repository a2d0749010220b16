// publish/recipes.hpp: which content came of the same things before?
//
// Whatever makes a file can tell what it makes it from as one hash, its recipe. That a recipe gave a content stays
// true whatever happens to the folder, so what is remembered can be old, or missing, but never wrong. The text of
// `.coeval-recipes`, version 1; lines end in a line feed, fields are parted by one space:
//
//   coeval-recipes 1
//   RECIPE HASH                    one for each file that has one, sorted
//   end COUNT HASH                 the hash of everything before this line
//
// Both are XXH3-128 in 32 hexadecimal digits. A text of which one byte is wrong is not believed at all. The file may be
// deleted at any time: everything is made again then.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "publish/hash.hpp"

namespace coeval {

using Recipes = std::map<ContentHash, ContentHash>; // recipe → content

[[nodiscard]] std::string recipes_text(const Recipes& recipes);
[[nodiscard]] std::optional<Recipes> read_recipes(std::string_view text);

} // namespace coeval
