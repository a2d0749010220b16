#include "report/text_parts.hpp"

#include <fmt/format.h>

namespace coeval {

std::string toned(std::string_view text, Tone tone, TextStyle style) {
  if (!style.colour) return std::string{text};
  const std::string_view code = tone == Tone::yes ? "32" : tone == Tone::open ? "33" : "31";
  return fmt::format("\x1b[1;{}m{}\x1b[0m", code, text);
}

std::string trimmed(std::string line) {
  while (!line.empty() && line.back() == ' ') line.pop_back();
  return line + "\n";
}

std::string upper_case(std::string_view text) {
  std::string result{text};
  for (char& c : result)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return result;
}

} // namespace coeval
