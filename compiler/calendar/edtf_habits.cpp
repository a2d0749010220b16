#include "calendar/edtf_habits.hpp"

#include <algorithm>
#include <array>
#include <vector>

#include <fmt/format.h>

#include "calendar/ascii.hpp"

// The text is cut into numbers, words and marks; each custom is a short list of those. English words only.

namespace coeval {

namespace {

using Readable = std::function<bool(std::string_view)>;

constexpr std::size_t longest_text = 60; // bytes; longer texts are no date with a slip

std::string replaced(std::string_view text, std::string_view from, std::string_view to) {
  std::string result;
  for (std::size_t at = text.find(from); at != std::string_view::npos; at = text.find(from)) {
    result += text.substr(0, at);
    result += to;
    text.remove_prefix(at + from.size());
  }
  result += text;
  return result;
}

// En dash, minus sign and their kin as a hyphen.
std::string with_hyphens(std::string text) {
  for (const std::string_view dash : {"\u2010", "\u2011", "\u2012", "\u2013", "\u2014", "\u2212"})
    text = replaced(text, dash, "-");
  return text;
}

// ---- pieces

struct Piece {
  enum class Kind { number, word, mark } kind;
  std::string text; // words in lower case
};

// Spaces, and the full stop of an abbreviation, only separate.
std::vector<Piece> pieces_of(std::string_view text) {
  std::vector<Piece> pieces;
  while (!text.empty()) {
    const char head = text.front();
    const auto same = [&](char c) { return digit(head) ? digit(c) : letter(head) && letter(c); };
    const auto length = static_cast<std::size_t>(std::find_if_not(text.begin() + 1, text.end(), same) - text.begin());
    std::string piece(text.substr(0, length));
    text.remove_prefix(length);
    if (digit(head)) {
      pieces.push_back({Piece::Kind::number, std::move(piece)});
    } else if (letter(head)) {
      std::transform(piece.begin(), piece.end(), piece.begin(), lower);
      pieces.push_back({Piece::Kind::word, std::move(piece)});
      if (text.starts_with('.')) text.remove_prefix(1);
    } else if (head != ' ') {
      pieces.push_back({Piece::Kind::mark, std::move(piece)});
    }
  }
  return pieces;
}

bool number_of(const Piece& piece, std::size_t least_digits, std::size_t most_digits) {
  return piece.kind == Piece::Kind::number && piece.text.size() >= least_digits && piece.text.size() <= most_digits;
}

bool year(const Piece& piece) { return number_of(piece, 4, 4); }
bool short_number(const Piece& piece) { return number_of(piece, 1, 2); }
bool mark(const Piece& piece, std::string_view marks) {
  return piece.kind == Piece::Kind::mark && marks.find(piece.text) != std::string_view::npos;
}

std::string two_digits(const Piece& piece) { return fmt::format("{:0>2}", piece.text); }

std::optional<int> month_of(const Piece& piece) {
  constexpr std::array<std::string_view, 12> names = {"january",   "february", "march",    "april",
                                                      "may",       "june",     "july",     "august",
                                                      "september", "october",  "november", "december"};
  if (piece.kind != Piece::Kind::word || piece.text.size() < 3) return std::nullopt;
  for (std::size_t index = 0; index < names.size(); ++index)
    if (names[index].starts_with(piece.text)) return static_cast<int>(index) + 1;
  return piece.text == "sept" ? std::optional<int>(9) : std::nullopt;
}

std::optional<int> season_of(const Piece& piece) {
  constexpr std::array<std::string_view, 5> names = {"spring", "summer", "autumn", "winter", "fall"};
  if (piece.kind != Piece::Kind::word) return std::nullopt;
  for (std::size_t index = 0; index < names.size(); ++index)
    if (piece.text == names[index]) return index == 4 ? 23 : 21 + static_cast<int>(index);
  return std::nullopt;
}

bool word_among(const Piece& piece, std::initializer_list<std::string_view> words) {
  return piece.kind == Piece::Kind::word && std::find(words.begin(), words.end(), piece.text) != words.end();
}

// ---- customs: each gives its advice, or nothing

using Pieces = std::vector<Piece>;
using Advice = std::optional<std::string>;

Advice if_readable(const Readable& readable, std::string_view repaired, std::string_view sentence) {
  if (!readable(repaired)) return std::nullopt;
  return fmt::format("{}: {}", sentence, repaired);
}

// 12/1979, 30.6.1979, 6-30-1979
Advice day_last(const Pieces& pieces, const Readable& readable) {
  constexpr std::string_view separators = "/.-";
  if (pieces.size() == 3 && short_number(pieces[0]) && mark(pieces[1], separators) && year(pieces[2])) {
    const std::string repaired = pieces[2].text + "-" + two_digits(pieces[0]);
    if (pieces[0].text.size() == 2 && pieces[0].text > "12") return std::nullopt;
    return if_readable(readable, repaired, "the year comes first");
  }
  if (pieces.size() != 5 || !short_number(pieces[0]) || !mark(pieces[1], separators) || !short_number(pieces[2]) ||
      !mark(pieces[3], pieces[1].text) || !year(pieces[4]))
    return std::nullopt;
  const std::string day_first = pieces[4].text + "-" + two_digits(pieces[2]) + "-" + two_digits(pieces[0]);
  const std::string month_first = pieces[4].text + "-" + two_digits(pieces[0]) + "-" + two_digits(pieces[2]);
  const std::string sentence = "the order is year, month, day";
  if (day_first != month_first && readable(day_first) && readable(month_first))
    return fmt::format("{}: {} or {}", sentence, day_first, month_first);
  if (auto advice = if_readable(readable, day_first, sentence)) return advice;
  return if_readable(readable, month_first, sentence);
}

// 1979/06/30, 1979.6, 1979-8-3
Advice year_first(const Pieces& pieces, const Readable& readable) {
  constexpr std::string_view separators = "/.-";
  const bool month_only = pieces.size() == 3;
  if ((!month_only && pieces.size() != 5) || !year(pieces[0]) || !mark(pieces[1], separators) ||
      !short_number(pieces[2]))
    return std::nullopt;
  std::string repaired = pieces[0].text + "-" + two_digits(pieces[2]);
  if (!month_only) {
    if (!mark(pieces[3], pieces[1].text) || !short_number(pieces[4])) return std::nullopt;
    repaired += "-" + two_digits(pieces[4]);
  }
  if (pieces[1].text != "-") return if_readable(readable, repaired, "hyphens go between year, month and day");
  const bool day_short = !month_only && pieces[4].text.size() == 1;
  const bool month_short = pieces[2].text.size() == 1;
  if (!day_short && !month_short) return std::nullopt;
  const std::string_view unit = day_short && month_short ? "month and the day" : day_short ? "day" : "month";
  return if_readable(readable, repaired, fmt::format("two digits are due for the {}", unit));
}

// June 1979, 30 June 1979, June 30, 1979, 1979 June
Advice month_name(Pieces pieces, const Readable& readable) {
  std::erase_if(pieces, [](const Piece& piece) {
    return mark(piece, ",") || word_among(piece, {"the", "of", "st", "nd", "rd", "th"});
  });
  std::string the_year;
  std::string the_day;
  std::optional<int> part;
  for (const Piece& piece : pieces) {
    const auto named = month_of(piece) ? month_of(piece) : season_of(piece);
    if (named && !part) {
      part = named;
    } else if (year(piece) && the_year.empty()) {
      the_year = piece.text;
    } else if (short_number(piece) && the_day.empty()) {
      the_day = two_digits(piece);
    } else {
      return std::nullopt;
    }
  }
  if (!part || the_year.empty()) return std::nullopt;
  const std::string repaired = fmt::format("{}-{:02}{}{}", the_year, *part, the_day.empty() ? "" : "-", the_day);
  return if_readable(readable, repaired, "months and seasons are written in digits");
}

// circa 1979, before 1979, 1979 or later, early 1979: a word around a date that can be read.
Advice word_around(const Pieces& pieces, const Readable& readable) {
  if (pieces.size() < 2) return std::nullopt;
  std::string date;
  std::vector<std::string> words;
  for (const Piece& piece : pieces) {
    if (piece.kind == Piece::Kind::word)
      words.push_back(piece.text);
    else
      date += piece.text;
  }
  if (words.empty() || !readable(date) || date.find_first_of("[{/?~%") != std::string::npos) return std::nullopt;
  const auto only = [&](std::initializer_list<std::string_view> allowed) {
    return std::all_of(words.begin(), words.end(), [&](const std::string& word) {
      return std::find(allowed.begin(), allowed.end(), word) != allowed.end();
    });
  };
  if (only({"c", "ca", "circa", "about", "around", "approx", "approximately", "roughly", "near"}))
    return if_readable(readable, date + "~", "an approximate date ends with `~` instead of words");
  if (only({"maybe", "perhaps", "possibly", "probably", "prob", "poss"}))
    return if_readable(readable, date + "?", "an uncertain date ends with `?` instead of words");
  if (only({"before", "until", "by", "or", "earlier", "not", "later", "than"}) && words.front() != "or" &&
      words.front() != "later")
    return if_readable(readable, fmt::format("[..{}]", date), "that date or an earlier one is written in brackets");
  if (only({"after", "since", "from", "or", "later"}))
    return if_readable(readable, fmt::format("[{}..]", date), "that date or a later one is written in brackets");
  if (only({"or", "earlier"}))
    return if_readable(readable, fmt::format("[..{}]", date), "that date or an earlier one is written in brackets");
  constexpr std::array<std::array<std::string_view, 3>, 3> parts = {
      {{"early", "01", "04"}, {"mid", "05", "08"}, {"late", "09", "12"}}};
  for (const auto& [word, from, to] : parts)
    if (words.size() == 1 && words.front() == word && date.size() == 4)
      return if_readable(readable, fmt::format("[{0}-{1}..{0}-{2}]", date, from, to),
                         fmt::format("`{}` is not read, write the months that are meant", word));
  return std::nullopt;
}

// 1979-1981, 1979 to 1981, 1979..1981, from 1979 until 1981
Advice span_of_years(std::string_view text, Pieces pieces, const Readable& readable) {
  if (!pieces.empty() && word_among(pieces.front(), {"from", "between"})) pieces.erase(pieces.begin());
  if (pieces.size() == 3 && year(pieces[0]) && year(pieces[2]) &&
      (mark(pieces[1], "-") || word_among(pieces[1], {"to", "until", "till", "and", "through"})))
    return if_readable(readable, pieces[0].text + "/" + pieces[2].text,
                       "from one year to another is written with a slash");
  if (text.find("..") == std::string_view::npos || text.find_first_of("[{/") != std::string_view::npos)
    return std::nullopt;
  return if_readable(readable, fmt::format("[{}]", text), "a range with two dots stands in brackets");
}

// 1979-01/03, 1979-06-01/30: an end that leaves out what it shares with the start.
Advice shortened_end(std::string_view text, const Readable& readable) {
  const std::size_t slash = text.find('/');
  if (slash == std::string_view::npos) return std::nullopt;
  const std::string_view start = text.substr(0, slash);
  const std::string_view end = text.substr(slash + 1);
  const bool digits = std::all_of(end.begin(), end.end(), [](char c) { return digit(c) || c == '-'; });
  if (!digits || (end.size() != 2 && end.size() != 5) || start.size() < end.size() + 5) return std::nullopt;
  const std::string repaired = fmt::format("{}/{}{}", start, start.substr(0, start.size() - end.size()), end);
  return if_readable(readable, repaired, "both ends of an interval are written in full");
}

// 1970s, 1970's, the 1970s; 197?, 19??
Advice decade(Pieces pieces, const Readable& readable) {
  std::erase_if(pieces, [](const Piece& piece) { return word_among(piece, {"the"}) || mark(piece, "'"); });
  if (pieces.size() == 2 && year(pieces[0]) && pieces[0].text.back() == '0' && word_among(pieces[1], {"s"})) {
    const std::string decade_digits = pieces[0].text.substr(0, 3) + "X";
    if (!pieces[0].text.ends_with("00"))
      return if_readable(readable, decade_digits, "a decade is written with a capital X");
    const std::string century = pieces[0].text.substr(0, 2) + "XX";
    return fmt::format("a century is written {}, a decade {}", century, decade_digits);
  }
  if (pieces.size() >= 2 && number_of(pieces[0], 2, 3) && pieces[0].text.size() + pieces.size() - 1 == 4 &&
      std::all_of(pieces.begin() + 1, pieces.end(), [](const Piece& piece) { return mark(piece, "?-_*"); }))
    return if_readable(readable, pieces[0].text + std::string(pieces.size() - 1, 'X'),
                       "an unspecified digit is a capital X");
  return std::nullopt;
}

// Spaces, other dashes, small letters, and the signs of the draft of 2012 (u, unknown, open, ?~).
Advice other_signs(std::string_view text, const Readable& readable) {
  const std::string whole(text);
  std::string without_spaces = whole;
  std::erase(without_spaces, ' ');
  if (without_spaces != whole) {
    if (auto advice = if_readable(readable, without_spaces, "a date has no spaces")) return advice;
  }
  const std::string hyphens = with_hyphens(whole);
  if (hyphens != whole) {
    if (auto advice = if_readable(readable, hyphens, "a date has plain hyphens")) return advice;
  }
  std::string capitals = whole;
  std::transform(capitals.begin(), capitals.end(), capitals.begin(), capital);
  if (capitals != whole) {
    if (auto advice = if_readable(readable, capitals, "the letters of a date are capitals")) return advice;
  }
  std::string draft = replaced(replaced(whole, "unknown", ""), "open", "..");
  draft = replaced(replaced(replaced(draft, "u", "X"), "?~", "%"), "~?", "%");
  if (draft == whole) return std::nullopt;
  return if_readable(readable, draft, "these signs are of an older draft; today it is");
}

} // namespace

std::optional<std::string> advice_for_another_custom(std::string_view text, const Readable& readable) {
  if (text.empty() || text.size() > longest_text) return std::nullopt;
  if (auto advice = other_signs(text, readable)) return advice;
  const std::string plain = with_hyphens(std::string(text));
  const Pieces pieces = pieces_of(plain);
  if (pieces.size() < 2) return std::nullopt;
  if (auto advice = day_last(pieces, readable)) return advice;
  if (auto advice = year_first(pieces, readable)) return advice;
  if (auto advice = month_name(pieces, readable)) return advice;
  if (auto advice = span_of_years(plain, pieces, readable)) return advice;
  if (auto advice = shortened_end(plain, readable)) return advice;
  if (text.find('S') == std::string_view::npos) { // which stands for significant digits
    if (auto advice = decade(pieces, readable)) return advice;
  }
  return word_around(pieces, readable);
}

} // namespace coeval
