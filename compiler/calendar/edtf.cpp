#include "calendar/edtf.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>

namespace coeval {
namespace {

// Thrown inside this file only; parse_edtf turns it into a refusal.
struct Refusal {
  std::string why;
  std::size_t offset;
};

bool digit(char c) { return c >= '0' && c <= '9'; }
bool digit_or_x(char c) { return digit(c) || c == 'X'; }
bool qualifier(char c) { return c == '?' || c == '~' || c == '%'; }

struct ReadDate {
  DateBounds bounds;
  int level = 0;
  bool unspecified = false; // holds an X
  bool partial = false;     // a qualifier on one component only
  bool has_time = false;
  bool plain = true; // level 0 without time: what a set or interval of level 0 may hold
};

// Codes 21 to 41 stand where a month would. The specification names them but gives no months for seasons; the widest
// customary reading is taken, so that no day that could be meant is left out: the astronomical and the meteorological
// season together, and for winter and for seasons of no stated hemisphere every reading of either. Quarters,
// quadrimesters and semestrals are exact.
struct Months {
  int first; // 1..12, negative: of the year before
  int last;  // up to 14: February of the next year
};
constexpr std::array<Months, 21> subyears{{
    {1, 12}, {1, 12},   {1, 12}, {-12, 15}, // 21-24 spring, summer, autumn, winter, hemisphere not stated
    {3, 6},  {6, 9},    {9, 12}, {-12, 15}, // 25-28 northern
    {9, 12}, {-12, 15}, {3, 6},  {6, 9},    // 29-32 southern
    {1, 3},  {4, 6},    {7, 9},  {10, 12},  // 33-36 quarters
    {1, 4},  {5, 8},    {9, 12},            // 37-39 quadrimesters
    {1, 6},  {7, 12},                       // 40-41 semestrals
}};

Day first_day(std::int64_t year, int month) {
  if (month < 0) return day_number({year - 1, -month, 1});
  return month > 12 ? day_number({year + 1, month - 12, 1}) : day_number({year, month, 1});
}
Day last_day(std::int64_t year, int month) {
  const std::int64_t y = month > 12 ? year + 1 : year;
  const int m = month > 12 ? month - 12 : month;
  return day_number({y, m, days_in_month(y, m)});
}

// Does a number match a mask of digits and X, both of the mask's width?
bool matches(std::int64_t number, std::string_view mask) {
  for (auto it = mask.rbegin(); it != mask.rend(); ++it, number /= 10)
    if (*it != 'X' && *it - '0' != number % 10) return false;
  return number == 0;
}

class DateReader {
public:
  DateReader(std::string_view text, std::size_t offset) : text_(text), offset_(offset) {}

  ReadDate read() {
    if (text_.empty()) refuse("a date is missing");
    if (text_.front() == 'Y') return long_year();
    parse_year();
    if (at('S')) return significant_year();
    if (at('-')) {
      ++pos_;
      parse_month();
      if (at('-')) {
        if (season_ != 0) refuse("a season or quarter has no day");
        ++pos_;
        parse_day();
      }
    }
    if (at('T')) parse_time();
    if (pos_ < text_.size()) rest();
    return finish();
  }

private:
  [[nodiscard]] bool at(char c) const { return pos_ < text_.size() && text_[pos_] == c; }
  [[noreturn]] void refuse(std::string why) const { refuse(std::move(why), pos_); }
  [[noreturn]] void refuse(std::string why, std::size_t where) const { throw Refusal{std::move(why), offset_ + where}; }

  void qualify(char c) {
    result_.bounds.approximate = result_.bounds.approximate || c != '?';
    result_.bounds.uncertain = result_.bounds.uncertain || c != '~';
    result_.plain = false;
  }
  // A qualifier left of a component concerns that component alone: level 2.
  void leading_qualifier() {
    if (pos_ >= text_.size() || !qualifier(text_[pos_])) return;
    qualify(text_[pos_++]);
    result_.level = 2;
    result_.partial = true;
  }
  // A qualifier right of a component concerns it and all to its left: level 1 at the very end, else level 2.
  void trailing_qualifier() {
    if (pos_ >= text_.size() || !qualifier(text_[pos_])) return;
    qualify(text_[pos_++]);
    const bool whole = pos_ == text_.size();
    result_.level = std::max(result_.level, whole ? 1 : 2);
    result_.partial = result_.partial || !whole;
  }

  void parse_year() {
    leading_qualifier();
    if (at('-')) {
      negative_ = true;
      result_.level = std::max(result_.level, 1);
      result_.plain = false;
      ++pos_;
    }
    const std::size_t begin = pos_;
    while (pos_ < text_.size() && digit_or_x(text_[pos_])) ++pos_;
    year_ = text_.substr(begin, pos_ - begin);
    if (year_.size() != 4) bad_year(begin);
    if (negative_ && year_ == "0000") refuse("the year 0 has no sign", begin);
    trailing_qualifier();
  }

  [[noreturn]] void bad_year(std::size_t begin) const {
    if (year_.empty()) refuse("a year of four digits is missing", begin);
    if (year_.size() == 8)
      refuse(
          fmt::format("parts are joined by hyphens: {}-{}-{}", year_.substr(0, 4), year_.substr(4, 2), year_.substr(6)),
          begin);
    if (year_.size() == 6)
      refuse(fmt::format("parts are joined by hyphens: {}-{}", year_.substr(0, 4), year_.substr(4)), begin);
    if (year_.size() > 4) refuse(fmt::format("a year of more than four digits starts with Y: Y{}", year_), begin);
    if (year_.size() == 3 && pos_ == text_.size())
      refuse(fmt::format("a year has four digits; a decade is written {}X", year_), begin);
    if (year_.size() == 2 && pos_ == text_.size())
      refuse(fmt::format("a year has four digits; a century is written {}XX", year_), begin);
    refuse(fmt::format("a year has four digits, and `{}` has {}", year_, year_.size()), begin);
  }

  // The two characters of a month or day.
  std::string_view two(std::string_view what) {
    const std::size_t begin = pos_;
    while (pos_ < text_.size() && digit_or_x(text_[pos_])) ++pos_;
    const std::string_view found = text_.substr(begin, pos_ - begin);
    if (found.size() == 1 && found != "X") refuse(fmt::format("a {} has two digits: 0{}", what, found), begin);
    if (found.size() != 2) refuse(fmt::format("a {} has two digits", what), begin);
    return found;
  }

  void parse_month() {
    leading_qualifier();
    const std::size_t begin = pos_;
    month_ = two("month");
    if (month_.find('X') == std::string_view::npos) {
      const int number = (month_[0] - '0') * 10 + month_[1] - '0';
      if (number >= 21 && number <= 41) {
        season_ = number;
        result_.level = std::max(result_.level, number <= 24 ? 1 : 2);
        result_.plain = false;
      } else if (number < 1 || number > 12) {
        refuse(fmt::format("month {} does not exist: months are 01 to 12, seasons and quarters 21 to 41", month_),
               begin);
      }
    } else if (month_[0] != 'X' && month_[0] > '1') {
      refuse(fmt::format("no month is written {}", month_), begin);
    }
    trailing_qualifier();
  }

  void parse_day() {
    leading_qualifier();
    const std::size_t begin = pos_;
    day_ = two("day");
    if (day_ == "00" || (day_[0] != 'X' && day_[0] > '3') || (day_.find('X') == std::string_view::npos && day_ > "31"))
      refuse(fmt::format("day {} does not exist in any month", day_), begin);
    day_offset_ = begin;
    trailing_qualifier();
  }

  void parse_time() {
    if (day_.empty() || !result_.plain || any_x())
      refuse("a time of day needs a plain date before it: 1985-04-12T23:20:30");
    const std::size_t begin = pos_++;
    const auto number = [&](int most, std::string_view what) {
      if (pos_ + 2 > text_.size() || !digit(text_[pos_]) || !digit(text_[pos_ + 1]))
        refuse(fmt::format("a time is written 23:20:30; two digits of the {} are missing", what));
      const int value = (text_[pos_] - '0') * 10 + text_[pos_ + 1] - '0';
      if (value > most) refuse(fmt::format("{} {} does not exist", what, text_.substr(pos_, 2)));
      pos_ += 2;
      return value;
    };
    const auto colon = [&] {
      if (!at(':')) refuse("a time is written with hours, minutes and seconds: 23:20:30");
      ++pos_;
    };
    number(23, "hour");
    colon();
    const int minute = number(59, "minute");
    colon();
    if (number(60, "second") == 60 && minute != 59) refuse("a leap second ends the last minute of an hour", begin);
    if (at('Z'))
      ++pos_;
    else if (at('+') || at('-')) {
      const bool west = at('-');
      const std::size_t sign = pos_++;
      int offset = 60 * number(14, "hour of the offset");
      if (at(':')) {
        ++pos_;
        offset += number(59, "minute of the offset");
      }
      if (west ? offset == 0 || offset > 12 * 60 : offset > 14 * 60)
        refuse("no place keeps this offset: they go from -12:00 to +14:00, and zero is +00:00 or Z", sign);
    }
    result_.has_time = true;
    result_.plain = false;
  }

  [[noreturn]] void rest() const {
    const char c = text_[pos_];
    if (c == 's' && year_.size() == 4 && year_[3] == '0')
      refuse(fmt::format("a decade is written {}X", year_.substr(0, 3)));
    if (c == ' ') refuse("spaces are not allowed in a date");
    if (c == '.' || c == '/') refuse("parts are joined by hyphens, the year first: 1979-06-30");
    if (qualifier(c)) refuse("one qualifier is enough: ? uncertain, ~ approximate, % both");
    refuse("this does not belong to a date");
  }

  [[nodiscard]] bool any_x() const {
    const auto open = [](std::string_view part) { return part.find('X') != std::string_view::npos; };
    return open(year_) || open(month_) || open(day_);
  }

  // Y170000002, Y-17E7, Y171010000S3
  ReadDate long_year() {
    ++pos_;
    const bool minus = at('-');
    if (minus) ++pos_;
    const std::size_t begin = pos_;
    const auto number = [&](std::string_view what) {
      const std::size_t from = pos_;
      std::int64_t value = 0;
      while (pos_ < text_.size() && digit(text_[pos_])) {
        value = std::min<std::int64_t>(value * 10 + (text_[pos_] - '0'), farthest_year * 100);
        ++pos_;
      }
      if (pos_ == from) refuse(fmt::format("digits of the {} are missing", what));
      return value;
    };
    std::int64_t year = number("year");
    const std::size_t digits = pos_ - begin;
    if (text_[begin] == '0') refuse("a year after Y does not start with 0", begin);
    bool exponential = false;
    if (at('E')) {
      exponential = true;
      ++pos_;
      const std::int64_t exponent = number("exponent");
      for (std::int64_t i = 0; i < exponent && year <= farthest_year; ++i) year *= 10;
      result_.level = 2;
    } else if (digits <= 4) {
      refuse("Y is for years of more than four digits; write the four digits alone", 0);
    }
    if (year > farthest_year) refuse("a year this far away is beyond the calendar kept here", begin);
    result_.level = std::max(result_.level, exponential ? 2 : 1);
    std::int64_t first = year;
    std::int64_t last = year;
    if (at('S')) std::tie(first, last) = significant(year);
    trailing_qualifier();
    if (pos_ < text_.size()) rest();
    if (minus) std::tie(first, last) = std::pair{-last, -first};
    return years(first, last, first == last ? Precision::year : Precision::coarser);
  }

  // 1950S2: some year whose first two digits are those of 1950.
  std::pair<std::int64_t, std::int64_t> significant(std::int64_t year) {
    const std::size_t begin = pos_++;
    std::int64_t digits = 0;
    while (pos_ < text_.size() && digit(text_[pos_]))
      digits = std::min<std::int64_t>(100, digits * 10 + (text_[pos_++] - '0'));
    const auto width = static_cast<std::int64_t>(std::max<std::size_t>(4, fmt::formatted_size("{}", year)));
    if (digits < 1 || digits > width)
      refuse(fmt::format("S is followed by the count of significant digits, 1 to {}", width), begin);
    std::int64_t block = 1;
    for (std::int64_t i = digits; i < width; ++i) block *= 10;
    result_.level = 2;
    return {year / block * block, year / block * block + block - 1};
  }

  ReadDate significant_year() {
    if (year_.find('X') != std::string_view::npos) refuse("significant digits and X exclude each other");
    auto [first, last] = significant(std::stoll(std::string{year_}));
    trailing_qualifier();
    if (pos_ < text_.size()) rest();
    if (negative_) std::tie(first, last) = std::pair{-last, -first};
    const std::int64_t width = last - first + 1;
    return years(first, last,
                 width <= 1     ? Precision::year
                 : width <= 10  ? Precision::decade
                 : width <= 100 ? Precision::century
                                : Precision::coarser);
  }

  ReadDate years(std::int64_t first, std::int64_t last, Precision precision) {
    result_.plain = false;
    result_.bounds.first = day_number({first, 1, 1});
    result_.bounds.last = day_number({last, 12, 31});
    result_.bounds.precision = precision;
    return result_;
  }

  ReadDate finish() {
    result_.unspecified = any_x();
    if (result_.unspecified) {
      result_.plain = false;
      result_.level = std::max(result_.level, unspecified_level());
    }
    std::int64_t lowest = 0;
    std::int64_t highest = 0;
    for (const char c : year_) {
      lowest = lowest * 10 + (c == 'X' ? 0 : c - '0');
      highest = highest * 10 + (c == 'X' ? 9 : c - '0');
    }
    if (season_ != 0) {
      const Months months = subyears[static_cast<std::size_t>(season_ - 21)];
      if (negative_) std::tie(lowest, highest) = std::pair{-highest, -lowest};
      result_.bounds.first = first_day(lowest, months.first);
      result_.bounds.last = last_day(highest, months.last);
      result_.bounds.precision = Precision::season;
      return result_;
    }
    const bool found = search(lowest, highest, true) && search(lowest, highest, false);
    if (!found) no_such_day();
    const auto unknown = std::ranges::count(year_, 'X');
    result_.bounds.precision = !day_.empty()     ? Precision::day
                               : !month_.empty() ? Precision::month
                               : unknown == 0    ? Precision::year
                               : unknown == 1    ? Precision::decade
                               : unknown == 2    ? Precision::century
                                                 : Precision::coarser;
    return result_;
  }

  // Level 1 leaves digits open only from the right: 201X, 20XX, 2004-XX, 1985-04-XX, 1985-XX-XX.
  [[nodiscard]] int unspecified_level() const {
    const bool year_open = year_.find('X') != std::string_view::npos;
    if (year_open)
      return month_.empty() && year_.substr(0, 2).find('X') == std::string_view::npos && year_.substr(2) != "X0" &&
                     year_.ends_with("X")
                 ? 1
                 : 2;
    if (day_.empty()) return month_ == "XX" ? 1 : 2;
    return day_ == "XX" && (month_ == "XX" || month_.find('X') == std::string_view::npos) ? 1 : 2;
  }

  // The first or last existing day that fits the masks, searched from that end.
  bool search(std::int64_t lowest, std::int64_t highest, bool from_start) {
    const bool ascending = from_start != negative_;
    for (std::int64_t i = 0; i <= highest - lowest; ++i) {
      const std::int64_t magnitude = ascending ? lowest + i : highest - i;
      if (!matches(magnitude, year_)) continue;
      if (negative_ && magnitude == 0) continue;
      const std::int64_t year = negative_ ? -magnitude : magnitude;
      for (int step = 1; step <= 12; ++step) {
        const int month = from_start ? step : 13 - step;
        if (!month_.empty() && !matches(month, month_)) continue;
        const int length = days_in_month(year, month);
        for (int count = 1; count <= length; ++count) {
          const int day = from_start ? count : length + 1 - count;
          if (!day_.empty() && !matches(day, day_)) continue;
          (from_start ? result_.bounds.first : result_.bounds.last) = day_number({year, month, day});
          return true;
        }
      }
    }
    return false;
  }

  [[noreturn]] void no_such_day() const {
    if (!any_x()) {
      const std::int64_t year = (negative_ ? -1 : 1) * std::stoll(std::string{year_});
      const int month = std::stoi(std::string{month_});
      if (month == 2 && day_ == "29")
        refuse(fmt::format("{} is not a leap year: its February has 28 days", year), day_offset_);
      refuse(fmt::format("month {} has {} days", month_, days_in_month(year, month)), day_offset_);
    }
    refuse("no day that exists is written like this", day_offset_);
  }

  std::string_view text_;
  std::size_t offset_;
  std::size_t pos_ = 0;
  ReadDate result_;
  std::string_view year_, month_, day_;
  std::size_t day_offset_ = 0;
  bool negative_ = false;
  int season_ = 0;
};

ReadDate read_date(std::string_view text, std::size_t offset) { return DateReader{text, offset}.read(); }

Edtf read_interval(std::string_view text, std::size_t slash) {
  const std::string_view left = text.substr(0, slash);
  const std::string_view right = text.substr(slash + 1);
  if (const std::size_t third = right.find('/'); third != std::string_view::npos)
    throw Refusal{"a range has one slash, and dates have hyphens: 1979-06-30/1980", slash + 1 + third};
  const auto all_digits = [](std::string_view part) { return !part.empty() && std::ranges::all_of(part, digit); };
  if (all_digits(left) && left.size() <= 2 && all_digits(right) && right.size() == 4)
    throw Refusal{fmt::format("the year comes first and a hyphen follows: {}-{:0>2}", right, left), 0};
  Edtf result;
  result.shape = EdtfShape::interval;
  const auto end = [&](std::string_view part, std::size_t offset, DateBounds& bounds) {
    if (part.empty() || part == "..") {
      result.level = std::max(result.level, 1);
      return part.empty() ? EndKind::unknown : EndKind::open;
    }
    if (part.starts_with("..") || part.ends_with(".."))
      throw Refusal{"in a range an open end is .. alone: ../1979 or 1976/..", offset};
    const ReadDate date = read_date(part, offset);
    if (date.has_time) throw Refusal{"a range has no time of day", offset};
    bounds = date.bounds;
    result.level = std::max({result.level, date.level, date.unspecified || date.partial ? 2 : 0});
    return EndKind::dated;
  };
  result.start_kind = end(left, 0, result.start);
  result.end_kind = end(right, slash + 1, result.end);
  if (result.start_kind != EndKind::dated && result.end_kind != EndKind::dated)
    throw Refusal{"neither end of the range says anything", 0};
  if (result.start.first && result.end.last && *result.start.first > *result.end.last)
    throw Refusal{fmt::format("it starts on {} at the earliest and ends on {} at the latest; exchange the two",
                              iso(*result.start.first), iso(*result.end.last)),
                  0};
  return result;
}

// The smaller of two bounds where an absent one counts as unbounded.
std::optional<Day> lower(std::optional<Day> one, std::optional<Day> other) {
  return one && other ? std::optional{std::min(*one, *other)} : std::nullopt;
}
std::optional<Day> upper(std::optional<Day> one, std::optional<Day> other) {
  return one && other ? std::optional{std::max(*one, *other)} : std::nullopt;
}

Edtf read_set(std::string_view text) {
  const bool one_of = text.front() == '[';
  const char close = one_of ? ']' : '}';
  if (text.back() != close || text.size() < 2)
    throw Refusal{fmt::format("the set is not closed with {}", close), text.size() - 1};
  const std::string_view inside = text.substr(1, text.size() - 2);
  if (inside.empty()) throw Refusal{"the set is empty", 0};
  Edtf result;
  result.shape = one_of ? EdtfShape::one_of : EdtfShape::all_of;
  result.level = 2;
  bool first = true;
  const auto take = [&](const DateBounds& bounds) {
    if (first) result.start = result.end = bounds;
    first = false;
    result.start.first = lower(result.start.first, bounds.first);
    result.start.last = lower(result.start.last, bounds.last);
    result.end.first = upper(result.end.first, bounds.first);
    result.end.last = upper(result.end.last, bounds.last);
    for (DateBounds* end : {&result.start, &result.end}) {
      end->approximate = end->approximate || bounds.approximate;
      end->uncertain = end->uncertain || bounds.uncertain;
      end->precision = std::max(end->precision, bounds.precision);
    }
  };
  const auto member = [&](std::string_view part, std::size_t offset) {
    if (part.find(' ') != std::string_view::npos) throw Refusal{"spaces are not allowed in a set", offset};
    if (part.find('/') != std::string_view::npos)
      throw Refusal{"a set holds dates; a range in it is written 1979..1980", offset};
    const ReadDate date = read_date(part, offset);
    if (date.has_time) throw Refusal{"a set has no time of day", offset};
    return date.bounds;
  };
  std::size_t begin = 0;
  bool open_below = false;
  bool open_above = false;
  while (begin <= inside.size()) {
    const std::size_t end = std::min(inside.find(',', begin), inside.size());
    const std::string_view part = inside.substr(begin, end - begin);
    const std::size_t offset = begin + 1;
    const std::size_t dots = part.find("..");
    if (part.empty()) throw Refusal{"a member of the set is missing", offset};
    if (dots == std::string_view::npos) {
      take(member(part, offset));
    } else {
      const std::string_view low = part.substr(0, dots);
      const std::string_view high = part.substr(dots + 2);
      if (low.empty() && high.empty()) throw Refusal{"a range in a set needs a date on one side of ..", offset};
      if (low.empty() && begin != 0) throw Refusal{"only the first member of a set can be open below", offset};
      if (high.empty() && end != inside.size())
        throw Refusal{"only the last member of a set can be open above", offset};
      open_below = open_below || low.empty();
      open_above = open_above || high.empty();
      std::optional<DateBounds> from, to;
      if (!low.empty()) from = member(low, offset);
      if (!high.empty()) to = member(high, offset + dots + 2);
      if (from && to && *from->first > *to->last) throw Refusal{"this range of the set runs backwards", offset};
      if (from) take(*from);
      if (to) take(*to);
    }
    begin = end + 1;
  }
  if (open_below) result.start.first.reset(), result.start.last.reset();
  if (open_above) result.end.first.reset(), result.end.last.reset();
  return result;
}

// What somebody meant who did not write EDTF at all.
std::optional<Refusal> common_slip(std::string_view text) {
  for (const std::string_view word :
       {"circa ", "circa", "ca. ", "ca.", "ca ", "c. ", "c.", "c ", "c", "about ", "around ", "approx. ", "approx "}) {
    if (!text.starts_with(word)) continue;
    const std::string_view year = text.substr(word.size());
    if (year.size() == 4 && std::ranges::all_of(year, digit))
      return Refusal{fmt::format("an approximate year is written {}~", year), 0};
  }
  if (text.front() == ' ' || text.back() == ' ')
    return Refusal{"there is a space before or after it", text.front() == ' ' ? 0 : text.size() - 1};
  return {};
}

} // namespace

std::optional<Day> Edtf::first() const { return start.first; }
std::optional<Day> Edtf::last() const { return end.last; }

EdtfResult parse_edtf(std::string_view text) {
  try {
    if (text.empty()) return {{}, "it is empty", 0};
    if (text.size() > 10'000) return {{}, "it is longer than any date", 0};
    if (auto slip = common_slip(text)) return {{}, std::move(slip->why), slip->offset};
    if (text.front() == '[' || text.front() == '{') return {read_set(text), {}, 0};
    if (const std::size_t slash = text.find('/'); slash != std::string_view::npos)
      return {read_interval(text, slash), {}, 0};
    if (text.find("..") != std::string_view::npos)
      return {
          {}, "a range is written from/until, and `some day from .. until` in brackets: [1978..1979]", text.find("..")};
    const ReadDate date = read_date(text, 0);
    Edtf result;
    result.level = date.level;
    result.start = result.end = date.bounds;
    return {result, {}, 0};
  } catch (const Refusal& refusal) {
    return {{}, refusal.why, refusal.offset};
  }
}

} // namespace coeval
