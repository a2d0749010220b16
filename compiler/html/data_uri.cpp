#include "html/data_uri.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "html/sha256.hpp"

namespace coeval {
namespace {

constexpr std::array<std::pair<std::string_view, std::string_view>, 5> types{{{".svg", "image/svg+xml"},
                                                                              {".png", "image/png"},
                                                                              {".jpg", "image/jpeg"},
                                                                              {".jpeg", "image/jpeg"},
                                                                              {".webp", "image/webp"}}};

// A line break with what indents the next line is one space to every reader of SVG, unless the file keeps its spaces.
std::string without_indentation(std::string_view svg) {
  if (svg.find("preserve") != std::string_view::npos || svg.find("CDATA") != std::string_view::npos)
    return std::string{svg};
  std::string text;
  for (std::size_t at = 0; at < svg.size(); ++at) {
    if (svg[at] != '\n' && svg[at] != '\r') {
      text += svg[at];
      continue;
    }
    at = std::min(svg.find_first_not_of(" \t\r\n", at), svg.size()) - 1;
    const bool between_tags = (text.empty() || text.back() == '>') && (at + 1 == svg.size() || svg[at + 1] == '<');
    if (!between_tags) text += ' ';
  }
  return text;
}

// RFC 3986 and the URL standard's code points: what is neither is percent-encoded. Quotes become apostrophes, which
// need no encoding, where the file has none of its own.
std::string encoded(std::string_view text) {
  static constexpr std::string_view allowed = "-._~:/?@!$&'()*+,;=";
  static constexpr std::string_view digits = "0123456789ABCDEF";
  const bool swap_quotes = text.find('\'') == std::string_view::npos;
  std::string url;
  for (const char c : text) {
    const bool alphanumeric = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    if (c == '"' && swap_quotes) {
      url += '\'';
    } else if (alphanumeric || allowed.find(c) != std::string_view::npos) {
      url += c;
    } else {
      const auto byte = static_cast<unsigned char>(c);
      url += {'%', digits[byte / 16], digits[byte % 16]};
    }
  }
  return url;
}

} // namespace

std::string data_uri(std::string_view file, std::string_view bytes) {
  const auto type = std::ranges::find_if(types, [&](const auto& each) { return file.ends_with(each.first); });
  if (type == types.end()) return "data:,";
  const std::string start = "data:" + std::string{type->second};
  std::string binary = start + ";base64," + base64(bytes);
  if (type->first != ".svg") return binary;
  std::string text = start + "," + encoded(without_indentation(bytes));
  return text.size() <= binary.size() ? text : binary;
}

} // namespace coeval
