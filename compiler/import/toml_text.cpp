#include "import/toml_text.hpp"

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

// Every number of a knowledge base is a double; TOML wants its floats with a point or an exponent.
std::string float_text(double value) {
  std::string text = fmt::format("{}", value);
  if (text.find_first_of(".e") == std::string::npos) text += ".0";
  return text;
}

} // namespace

std::string toml_string(std::string_view text) {
  // A line break right after the opening quotes is no part of the text.
  if (text.find('\n') != std::string_view::npos) return "\"\"\"\n" + escaped(text, true) + "\"\"\"";
  return "\"" + escaped(text, false) + "\"";
}

std::optional<std::string> toml_scalar(const nlohmann::ordered_json& value) {
  if (value.is_string()) return toml_string(value.get_ref<const std::string&>());
  if (value.is_boolean()) return value.get<bool>() ? "true" : "false";
  if (value.is_number_unsigned() && value.get<std::uint64_t>() > std::uint64_t{INT64_MAX})
    return float_text(value.get<double>());
  if (value.is_number_integer()) return std::to_string(value.get<std::int64_t>());
  if (value.is_number_float()) return float_text(value.get<double>());
  return {};
}

std::string toml_key(std::string_view key) {
  const bool bare = !key.empty() && std::ranges::all_of(key, [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
  });
  return bare ? std::string{key} : "\"" + escaped(key, false) + "\"";
}

} // namespace coeval
