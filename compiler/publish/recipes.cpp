#include "publish/recipes.hpp"

#include <iterator>

#include <fmt/format.h>

namespace coeval {
namespace {

constexpr std::string_view recipes_head = "coeval-recipes 1\n";
constexpr std::size_t hash_digits = 32;
constexpr std::size_t recipe_line = 2 * hash_digits + 2;

} // namespace

std::string recipes_text(const Recipes& recipes) {
  std::string text{recipes_head};
  text.reserve((recipes.size() + 2) * recipe_line);
  auto end = std::back_inserter(text);
  for (const auto& [recipe, content] : recipes)
    fmt::format_to(end, "{:016x}{:016x} {:016x}{:016x}\n", recipe.high, recipe.low, content.high, content.low);
  text += fmt::format("end {} {}\n", recipes.size(), text_of(hash_of(text)));
  return text;
}

std::optional<Recipes> read_recipes(std::string_view text) {
  if (!text.starts_with(recipes_head) || !text.ends_with('\n')) return {};
  const std::size_t last = text.rfind('\n', text.size() - 2) + 1; // where the last line starts
  const std::string_view lines = text.substr(recipes_head.size(), last - recipes_head.size());
  const std::size_t count = lines.size() / recipe_line;
  if (text.substr(last) != fmt::format("end {} {}\n", count, text_of(hash_of(text.substr(0, last))))) return {};
  Recipes recipes;
  for (std::size_t start = 0; start < lines.size(); start += recipe_line) {
    const std::string_view line = lines.substr(start, recipe_line);
    if (line.size() != recipe_line || line[hash_digits] != ' ' || line.back() != '\n') return {};
    const auto recipe = read_hash(line.substr(0, hash_digits));
    const auto content = read_hash(line.substr(hash_digits + 1, hash_digits));
    if (!recipe || !content) return {};
    recipes.emplace_hint(recipes.end(), *recipe, *content);
  }
  return recipes;
}

} // namespace coeval
