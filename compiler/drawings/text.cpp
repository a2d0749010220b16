#include "drawings/text.hpp"

#include <algorithm>
#include <optional>

#include <utf8proc.h>

namespace coeval {
namespace {

constexpr std::string_view ellipsis = "…";
// More than any layout here asks for on one line; spares the rest of a hostile text from being read.
constexpr std::size_t most_bytes_of_a_line = 4'096;

// Widths in hundredths of the letter size: the widest that DejaVu Sans, Liberation Sans, Liberation Serif and P052 (a
// Palatino) need for any of a group, as measured in a browser.
int latin_width(char letter) {
  const auto among = [letter](std::string_view group) { return group.find(letter) != std::string_view::npos; };
  if (among("ijl'")) return 32;
  if (among(" .,:;!()[]Iftr-")) return 44;
  if (among("mwMWO@%QG&")) return 102;
  if (among("+=<>#~^HN")) return 85;
  return letter >= 'A' && letter <= 'Z' ? 79 : 65;
}

int width_of(utf8proc_int32_t point) {
  if (point < 0x80) return latin_width(static_cast<char>(point));
  const int columns = utf8proc_charwidth(point);
  if (columns <= 0) return 0;
  return columns > 1 ? 110 : point < 0x250 ? 80 : 100;
}

bool controls(utf8proc_int32_t point) {
  const auto category = utf8proc_category(point);
  return category == UTF8PROC_CATEGORY_CC || category == UTF8PROC_CATEGORY_ZL || category == UTF8PROC_CATEGORY_ZP ||
         (point >= 0x202A && point <= 0x202E) || (point >= 0x2066 && point <= 0x2069) || point == 0x200E ||
         point == 0x200F || point == 0xFEFF;
}

// What a reader takes for one character: a letter with its accents, a picture made of several.
struct Character {
  std::string text; // " " for everything that parts words
  double width = 0; // in letter sizes
};

class Characters {
public:
  explicit Characters(std::string_view text) : rest_(text) { step(); }

  std::optional<Character> next() {
    if (ended_) return {};
    Character character;
    do {
      character.text += piece_;
      character.width = std::max(character.width, width_ / 100.0);
      step();
    } while (!ended_ && joined_ && character.text.size() < most_bytes_of_a_line);
    return character;
  }

private:
  void step() {
    if (rest_.empty()) {
      ended_ = true;
      return;
    }
    utf8proc_int32_t point = -1;
    const utf8proc_ssize_t size = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(rest_.data()),
                                                   static_cast<utf8proc_ssize_t>(rest_.size()), &point);
    if (size <= 0 || point < 0) { // no UTF-8
      piece_ = "\xEF\xBF\xBD";
      width_ = 100;
      rest_.remove_prefix(1);
      joined_ = false;
      before_ = ' ';
      return;
    }
    if (controls(point) || utf8proc_category(point) == UTF8PROC_CATEGORY_ZS) {
      piece_ = " ";
      point = ' ';
    } else {
      piece_ = rest_.substr(0, static_cast<std::size_t>(size));
    }
    width_ = width_of(point);
    joined_ = utf8proc_grapheme_break_stateful(before_, point, &state_) == 0;
    before_ = point;
    rest_.remove_prefix(static_cast<std::size_t>(size));
  }

  std::string_view rest_;
  std::string_view piece_;
  int width_ = 0;
  bool joined_ = false; // to the character before
  bool ended_ = false;
  utf8proc_int32_t before_ = ' ';
  utf8proc_int32_t state_ = 0;
};

double letter_size(Style style) { return text_size(style) * (style == Style::label_strong ? 1.12 : 1.0); }

struct Line {
  std::string text;
  double width = 0;
};

// Takes letters off the end until an ellipsis goes on the line.
void end_with_ellipsis(Line& line, Style style, double width) {
  const double room = width - text_width(ellipsis, style);
  std::vector<Character> kept;
  Characters letters{line.text};
  double sum = 0;
  while (auto letter = letters.next()) {
    sum += letter->width * letter_size(style);
    if (sum > room) break;
    kept.push_back(std::move(*letter));
  }
  while (!kept.empty() && kept.back().text == " ") kept.pop_back();
  line.text.clear();
  for (const Character& letter : kept) line.text += letter.text;
  line.text += ellipsis;
}

} // namespace

double text_size(Style style) {
  return style == Style::label_small ? 11 : 13; // label and label_strong
}

double line_height(Style style) { return text_size(style) + 4; }
double ascent(Style style) { return text_size(style) - 2; }
double descent(Style style) { return text_size(style) / 4; }

double text_width(std::string_view text, Style style) {
  double sum = 0;
  Characters letters{text};
  while (const auto letter = letters.next()) sum += letter->width;
  return sum * letter_size(style);
}

std::vector<std::string> wrap(std::string_view text, Style style, double width, std::size_t most) {
  const double size = letter_size(style);
  std::vector<Line> lines{{}};
  Line word; // not yet on a line
  bool cut = false;
  bool gap = false; // a space is owed before the word
  const double space = width_of(' ') / 100.0 * size;
  const auto start_line = [&] {
    cut = lines.size() == most;
    if (!cut) lines.emplace_back();
    return !cut;
  };
  const auto place_word = [&] {
    if (word.text.empty()) return;
    Line* line = &lines.back();
    const bool first = line->text.empty();
    if (!first && line->width + space + word.width > width) {
      if (!start_line()) {
        line->text += " " + word.text; // for the ellipsis to cut
        return;
      }
      line = &lines.back();
    } else if (!first && gap) {
      line->text += " ";
      line->width += space;
    }
    line->text += word.text;
    line->width += word.width;
    word = {};
    gap = false;
  };
  Characters letters{text};
  while (!cut) {
    auto letter = letters.next();
    if (!letter) break;
    if (letter->text == " ") {
      place_word();
      gap = true;
      continue;
    }
    const double letter_width = letter->width * size;
    const bool too_long = !word.text.empty() && word.width + letter_width > width;
    if (too_long || word.text.size() > most_bytes_of_a_line) {
      place_word();
      if (cut) break;
      if (!start_line()) break;
    }
    word.text += letter->text;
    word.width += letter_width;
  }
  if (!cut) place_word();
  if (cut) end_with_ellipsis(lines.back(), style, width);
  std::vector<std::string> result;
  result.reserve(lines.size());
  for (Line& line : lines) result.push_back(std::move(line.text));
  return result;
}

std::string shorten(std::string_view text, Style style, double width) {
  return std::move(wrap(text, style, width, 1).front());
}

std::string one_line(std::string_view text) {
  std::string line;
  Characters letters{text};
  while (const auto letter = letters.next())
    if (letter->text != " " || (!line.empty() && line.back() != ' ')) line += letter->text;
  if (line.ends_with(' ')) line.pop_back();
  return line;
}

} // namespace coeval
