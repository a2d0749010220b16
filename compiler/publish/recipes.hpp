// publish/recipes.hpp: which content came of the same things before?
//
// Whatever makes a file can tell what it makes it from as a hash, its recipe. That a recipe gave a content stays true
// whatever happens to the folder, so what is remembered can be old, or missing, but never wrong. The text of
// `.coeval-recipes`, version 1; lines end in a line feed, fields are parted by one space:
//
//   coeval-recipes 1
//   RECIPE HASH                    sorted; a file may have two recipes
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

// What a file is made from, in two ways. Each covers everything that its bytes follow from.
struct FileRecipe {
  std::optional<ContentHash> inputs;  // what it is made from; known before anything is made
  std::optional<ContentHash> content; // what it is to say; known when it is half made, and changes less often
  friend bool operator==(const FileRecipe&, const FileRecipe&) = default;
};

[[nodiscard]] std::string recipes_text(const Recipes& recipes);
[[nodiscard]] std::optional<Recipes> read_recipes(std::string_view text);

} // namespace coeval
