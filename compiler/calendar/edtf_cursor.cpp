#include "calendar/edtf_cursor.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace coeval {

namespace {

// How many bytes the UTF-8 character at the head of `text` has; 0 where the bytes are not UTF-8 or not printable.
std::size_t printable_length(std::string_view text) {
  const auto byte = [&](std::size_t index) { return static_cast<unsigned char>(text[index]); };
  const auto lead = byte(0);
  if (lead < 0x80) return lead >= ' ' && lead != 0x7F ? 1 : 0;
  const std::size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
  if (lead < 0xC2 || lead > 0xF4 || text.size() < length) return 0;
  for (std::size_t index = 1; index < length; ++index)
    if ((byte(index) & 0xC0) != 0x80) return 0;
  // Overlong forms, surrogates, and what lies beyond U+10FFFF; control characters of U+0080..U+009F.
  if ((lead == 0xE0 && byte(1) < 0xA0) || (lead == 0xED && byte(1) > 0x9F)) return 0;
  if ((lead == 0xF0 && byte(1) < 0x90) || (lead == 0xF4 && byte(1) > 0x8F)) return 0;
  return lead == 0xC2 && byte(1) < 0xA0 ? 0 : length;
}

} // namespace

std::string shown(std::string_view piece) {
  constexpr std::size_t most_bytes = 40;
  std::string result = "`";
  while (!piece.empty() && result.size() < most_bytes) {
    const std::size_t length = printable_length(piece);
    result += length == 0 ? "?" : std::string(piece.substr(0, length));
    piece.remove_prefix(std::max<std::size_t>(length, 1));
  }
  return result + (piece.empty() ? "`" : "...`");
}

std::string_view Cursor::take_digits(bool unspecified_too) {
  const std::size_t begin = at;
  while (!ended() && ((next() >= '0' && next() <= '9') || (unspecified_too && next() == 'X'))) ++at;
  return text.substr(begin, at - begin);
}

std::string Cursor::found() const {
  if (ended()) return "the end";
  const std::size_t length = printable_length(text.substr(at));
  if (length == 0) return fmt::format("byte 0x{:02X}", static_cast<unsigned char>(text[at]));
  return text[at] == ' ' ? "a space" : shown(text.substr(at, length));
}

bool Cursor::refuse(std::size_t where, std::string reason) {
  if (refusal.empty()) {
    refusal = std::move(reason);
    refused_at = where;
  }
  return false;
}

} // namespace coeval
