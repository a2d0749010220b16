#include "entries/toml_write.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace coeval {
namespace {

std::string escaped(std::string_view text, bool several_lines) {
  std::string safe;
  for (const char c : text) {
    if (c == '"' || c == '\\')
      safe += fmt::format("\\{}", c);
    else if (c == '\n' && several_lines)
      safe += c;
    else if (static_cast<unsigned char>(c) < 0x20 || c == '\x7f')
      safe += fmt::format("\\u{:04X}", static_cast<unsigned>(c));
    else
      safe += c;
  }
  return safe;
}

} // namespace

std::string toml_string(std::string_view text) {
  // A line break right after the opening quotes is no part of the text.
  if (text.find('\n') != std::string_view::npos) return "\"\"\"\n" + escaped(text, true) + "\"\"\"";
  return "\"" + escaped(text, false) + "\"";
}

std::string toml_key(std::string_view key) {
  const bool bare = !key.empty() && std::ranges::all_of(key, [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
  });
  return bare ? std::string{key} : "\"" + escaped(key, false) + "\"";
}

} // namespace coeval
