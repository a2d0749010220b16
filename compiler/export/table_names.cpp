#include "export/table_names.hpp"

#include <algorithm>

namespace coeval {

std::string table_name(Kind kind) {
  if (kind == Kind::takes) return "takes";
  if (kind == Kind::accessory) return "accessories";
  return std::string{kind_word(kind)} + "s";
}

std::string sql_name(std::string_view name) {
  std::string words{name};
  std::ranges::replace(words, '-', '_');
  return words;
}

} // namespace coeval
