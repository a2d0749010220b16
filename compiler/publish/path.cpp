#include "publish/path.hpp"

#include <algorithm>

namespace coeval {
namespace {

bool is_part(std::string_view part) {
  constexpr std::size_t longest = 255;
  const auto allowed = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '_' || c == '.';
  };
  return !part.empty() && part.size() <= longest && part != "." && part != ".." && std::ranges::all_of(part, allowed);
}

} // namespace

bool is_output_path(std::string_view path) {
  constexpr std::size_t longest = 1024;
  if (path.size() > longest || path.starts_with(".coeval-")) return false;
  for (;;) {
    const std::size_t slash = path.find('/');
    if (!is_part(path.substr(0, slash))) return false;
    if (slash == std::string_view::npos) return true;
    path.remove_prefix(slash + 1);
  }
}

std::string_view folder_of(std::string_view path) {
  const std::size_t slash = path.rfind('/');
  return path.substr(0, slash == std::string_view::npos ? 0 : slash);
}

std::string_view name_of(std::string_view path) { return path.substr(path.rfind('/') + 1); }

} // namespace coeval
