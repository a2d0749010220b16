#include "html/text.hpp"

#include <utf8proc.h>

namespace coeval {
namespace {

constexpr int most_marks = 8; // on one base; more is no writing system, and would be drawn over other lines
constexpr std::string_view replacement = "\xEF\xBF\xBD";
constexpr std::string_view dotted_circle = "\xE2\x97\x8C"; // U+25CC, on which a mark is shown by itself

// Without a way out before the end, so that a compiler can look at many bytes at once: nearly every text is plain.
bool is_plain(std::string_view text) {
  unsigned odd = 0;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    odd |= static_cast<unsigned>(byte < 0x20 && byte != '\n') | static_cast<unsigned>(byte >= 0x7f);
  }
  return odd == 0;
}

enum class Fate { keep, leave_out, space, replace };

Fate fate_of(utf8proc_int32_t point, const utf8proc_property_t& property) {
  if (point == '\n') return Fate::keep;
  switch (property.category) {
  case UTF8PROC_CATEGORY_CC: // controls
  case UTF8PROC_CATEGORY_ZL: // line and paragraph separator
  case UTF8PROC_CATEGORY_ZP:
    return Fate::space;
  case UTF8PROC_CATEGORY_CS:
    return Fate::replace;
  default:
    break;
  }
  if ((point & 0xfffe) == 0xfffe || (point >= 0xfdd0 && point <= 0xfdef)) return Fate::replace; // noncharacters
  if (point == 0xfeff || (point >= 0xfff9 && point <= 0xfffb) || (point >= 0xe0000 && point <= 0xe007f))
    return Fate::leave_out;
  const bool turns = (point >= 0x202a && point <= 0x202e) || (point >= 0x2066 && point <= 0x2069);
  return turns ? Fate::leave_out : Fate::keep;
}

bool is_mark(const utf8proc_property_t& property) {
  return property.category == UTF8PROC_CATEGORY_MN || property.category == UTF8PROC_CATEGORY_ME;
}

std::string cleaned(std::string_view text) {
  std::string clean;
  clean.reserve(text.size());
  bool base = false; // something that a mark can stand on
  int marks = 0;
  for (std::size_t at = 0; at < text.size();) {
    utf8proc_int32_t point = -1;
    const auto* bytes = reinterpret_cast<const utf8proc_uint8_t*>(text.data()) + at;
    const auto size = utf8proc_iterate(bytes, static_cast<utf8proc_ssize_t>(text.size() - at), &point);
    if (size <= 0) {
      clean += replacement;
      base = true;
      marks = 0;
      ++at;
      continue;
    }
    const utf8proc_property_t& property = *utf8proc_get_property(point);
    const std::string_view here = text.substr(at, static_cast<std::size_t>(size));
    at += static_cast<std::size_t>(size);
    switch (fate_of(point, property)) {
    case Fate::leave_out:
      continue;
    case Fate::space:
      clean += ' ';
      base = false;
      continue;
    case Fate::replace:
      clean += replacement;
      break;
    case Fate::keep:
      if (is_mark(property)) {
        if (!base) clean += dotted_circle;
        base = true;
        if (++marks <= most_marks) clean += here;
        continue;
      }
      clean += here;
      break;
    }
    base = point != ' ' && point != '\n';
    marks = 0;
  }
  return clean;
}

} // namespace

std::string_view safe_text(std::string_view text, std::string& scratch) {
  if (is_plain(text)) return text;
  scratch = cleaned(text);
  return scratch;
}

bool runs_right_to_left(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    if (static_cast<unsigned char>(text[at]) < 0x80) {
      ++at;
      continue;
    }
    utf8proc_int32_t point = -1;
    const auto* bytes = reinterpret_cast<const utf8proc_uint8_t*>(text.data()) + at;
    const auto size = utf8proc_iterate(bytes, static_cast<utf8proc_ssize_t>(text.size() - at), &point);
    if (size <= 0) {
      ++at;
      continue;
    }
    const auto direction = utf8proc_get_property(point)->bidi_class;
    if (direction == UTF8PROC_BIDI_CLASS_R || direction == UTF8PROC_BIDI_CLASS_AL) return true;
    at += static_cast<std::size_t>(size);
  }
  return false;
}

} // namespace coeval
