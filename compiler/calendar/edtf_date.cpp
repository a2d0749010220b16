#include "calendar/edtf_date.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "calendar/edtf_pattern.hpp"

// A date is read component by component: [?]year[?]-[?]month[?]-[?]day[?]Ttime, where [?] is a qualifier. One on the
// right of a component qualifies it and all before it, one on the left that component alone.

namespace coeval {

namespace {

constexpr int year_part = 0;
constexpr int month_part = 1;
constexpr int day_part = 2;

struct Qualified {
  bool approximate = false;
  bool uncertain = false;
};

struct Component {
  std::string_view digits; // 0-9 and X
  std::size_t at = 0;      // its first byte
  Qualified qualified;
  [[nodiscard]] bool unspecified() const { return digits.find('X') != std::string_view::npos; }
  [[nodiscard]] int number() const { return (digits[0] - '0') * 10 + (digits[1] - '0'); } // two digits, no X
};

constexpr std::array<std::string_view, 12> month_names = {"January",   "February", "March",    "April",
                                                          "May",       "June",     "July",     "August",
                                                          "September", "October",  "November", "December"};

class DateReader {
public:
  explicit DateReader(Cursor& cursor) : cursor_(cursor), begin_(cursor.at) {}

  std::optional<OneDate> read() {
    if (!read_year()) return std::nullopt;
    if (!long_year_ && !significant_) {
      if (!read_two_digits("month") || !read_two_digits("day")) return std::nullopt;
    } else if (cursor_.next() == '-') {
      cursor_.refuse(cursor_.at, fmt::format("{} is a year alone: no month may follow", written()));
      return std::nullopt;
    }
    if (cursor_.next() == 'T' && !read_time()) return std::nullopt;
    if (!find_days()) return std::nullopt;
    date_.bounds.precision = precision();
    for (int part = 0; part < count_; ++part) {
      date_.bounds.approximate |= parts_[part].qualified.approximate;
      date_.bounds.uncertain |= parts_[part].qualified.uncertain;
      date_.unspecified |= parts_[part].unspecified();
    }
    date_.level = std::max(date_.level, level_of_unspecified());
    return date_;
  }

private:
  [[nodiscard]] std::string written() const { return shown(cursor_.text.substr(begin_, cursor_.at - begin_)); }
  [[nodiscard]] std::string_view text_between(std::size_t from, std::size_t to) const {
    return cursor_.text.substr(from, to - from);
  }
  void needs_level(int level) { date_.level = std::max(date_.level, level); }

  // ---- qualifiers

  std::optional<Qualified> take_qualifier() {
    Qualified qualified;
    const std::size_t where = cursor_.at;
    if (cursor_.take("?")) {
      qualified.uncertain = true;
    } else if (cursor_.take("~")) {
      qualified.approximate = true;
    } else if (cursor_.take("%")) {
      qualified = {.approximate = true, .uncertain = true};
    } else {
      return qualified;
    }
    if (!cursor_.ended() && std::string_view("?~%").find(cursor_.next()) != std::string_view::npos) {
      cursor_.refuse(where, "two qualifiers in a row; `%` says both uncertain and approximate");
      return std::nullopt;
    }
    return qualified;
  }

  static bool any(Qualified qualified) { return qualified.approximate || qualified.uncertain; }

  void qualify(int part, Qualified qualified) {
    parts_[part].qualified.approximate |= qualified.approximate;
    parts_[part].qualified.uncertain |= qualified.uncertain;
  }

  bool read_left_qualifier(int part) {
    const auto qualified = take_qualifier();
    if (!qualified) return false;
    qualify(part, *qualified);
    if (any(*qualified)) needs_level(2);
    return true;
  }

  bool read_right_qualifier(int part) {
    const auto qualified = take_qualifier();
    if (!qualified) return false;
    for (int covered = 0; covered <= part; ++covered) qualify(covered, *qualified);
    if (any(*qualified)) needs_level(cursor_.next() == '-' ? 2 : 1);
    return true;
  }

  // ---- years

  bool read_year() {
    if (!read_left_qualifier(year_part)) return false;
    if (cursor_.next() == '+') return cursor_.refuse(cursor_.at, "a year after year 0 has no sign: leave out the `+`");
    if (cursor_.take("Y")) return read_long_year();
    negative_ = cursor_.take("-");
    if (negative_) needs_level(1);
    Component& year = parts_[year_part];
    year.at = cursor_.at;
    year.digits = cursor_.take_digits(true);
    count_ = 1;
    if (year.digits.size() != 4) return refuse_year_length(year);
    if (negative_ && year.digits == "0000") return cursor_.refuse(begin_, "year 0 has no sign: 0000");
    if (!year.unspecified()) {
      for (const char digit : year.digits) year_ = year_ * 10 + (digit - '0');
      digits_of_year_ = year_;
      if (negative_) year_ = -year_;
    }
    return read_significant_digits() && read_right_qualifier(year_part);
  }

  bool refuse_year_length(const Component& year) {
    const std::string_view digits = year.digits;
    if (cursor_.next() == 'x')
      return cursor_.refuse(cursor_.at, "an unspecified digit is a capital X, such as 197X for the 1970s");
    if (digits.size() < 2) {
      return cursor_.refuse(year.at,
                            fmt::format("{} where a year of four digits is due, such as 1979", word_at(year.at)));
    }
    const std::string year_shown = shown(digits);
    if (digits.size() < 4) {
      const bool decade = digits.size() == 3;
      return cursor_.refuse(year.at, fmt::format("{} is no year of four digits; a {} is written {}{}", year_shown,
                                                 decade ? "decade" : "century", digits, decade ? "X" : "XX"));
    }
    const std::string_view month = digits.size() >= 6 ? digits.substr(4, 2) : "";
    const std::string_view day = digits.size() == 8 ? digits.substr(6, 2) : "";
    const bool month_fits = month >= "01" && month <= "12";
    if (digits.size() == 6 && month_fits)
      return cursor_.refuse(
          year.at, fmt::format("{} needs a hyphen before the month: {}-{}", year_shown, digits.substr(0, 4), month));
    if (digits.size() == 8 && month_fits && day >= "01" && day <= "31")
      return cursor_.refuse(year.at,
                            fmt::format("{} needs hyphens: {}-{}-{}", year_shown, digits.substr(0, 4), month, day));
    return cursor_.refuse(year.at,
                          fmt::format("{} has over four digits; such a year starts with a capital Y", year_shown));
  }

  // The letters or the one character at `where`, as shown in a message.
  [[nodiscard]] std::string word_at(std::size_t where) const {
    const auto letter_or_digit = [](char c) {
      return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    };
    std::size_t end = where;
    while (end < cursor_.text.size() && letter_or_digit(cursor_.text[end])) ++end;
    return end > where ? shown(text_between(where, end)) : cursor_.found();
  }

  // Y170000002, Y-17E7: only beyond four digits.
  bool read_long_year() {
    long_year_ = true;
    needs_level(1);
    negative_ = cursor_.take("-");
    count_ = 1;
    const std::size_t where = cursor_.at;
    const std::string_view digits = cursor_.take_digits(false);
    if (digits.empty())
      return cursor_.refuse(cursor_.at, fmt::format("{} where `Y` needs the digits of a year", cursor_.found()));
    if (digits.front() == '0') return cursor_.refuse(where, "a year after `Y` does not start with 0");
    digits_of_year_ = number_up_to(farthest_year + 1, digits);
    if (cursor_.take("E")) {
      needs_level(2);
      const std::size_t exponent_at = cursor_.at;
      const std::int64_t exponent = number_up_to(1000, cursor_.take_digits(false));
      if (exponent == 0) return cursor_.refuse(exponent_at, "`E` needs a count of zeros, one at least, such as Y17E7");
      for (std::int64_t zero = 0; zero < exponent && digits_of_year_ <= farthest_year; ++zero) digits_of_year_ *= 10;
    }
    if (digits_of_year_ > farthest_year)
      return cursor_.refuse(begin_,
                            fmt::format("{} is beyond year {}, the farthest that is read", written(), farthest_year));
    if (digits_of_year_ <= 9999)
      return cursor_.refuse(begin_, fmt::format("`Y` is for years beyond four digits: write {}{:04}",
                                                negative_ ? "-" : "", digits_of_year_));
    year_ = negative_ ? -digits_of_year_ : digits_of_year_;
    return read_significant_digits() && read_right_qualifier(year_part);
  }

  // The number, or `limit` where it is greater.
  static std::int64_t number_up_to(std::int64_t limit, std::string_view digits) {
    std::int64_t number = 0;
    for (const char digit : digits) number = std::min(number * 10 + (digit - '0'), limit);
    return number;
  }

  // 1950S2: some year of 1900..1999. Leading zeros are not significant.
  bool read_significant_digits() {
    const std::size_t where = cursor_.at;
    if (!cursor_.take("S")) return true;
    needs_level(2);
    significant_ = true;
    if (parts_[year_part].unspecified())
      return cursor_.refuse(where, "`S` and an unspecified digit X exclude each other");
    const std::int64_t wanted = number_up_to(1000, cursor_.take_digits(false));
    if (wanted == 0) return cursor_.refuse(where, "`S` needs a count of digits, one at least, such as 1950S2");
    std::int64_t digits = 1;
    for (std::int64_t rest = digits_of_year_; rest > 9; rest /= 10) ++digits;
    if (wanted > digits)
      return cursor_.refuse(where, fmt::format("year {} has {} significant digit{}, fewer than {} after `S`",
                                               digits_of_year_, digits, digits == 1 ? "" : "s", wanted));
    open_digits_ = static_cast<int>(digits - wanted);
    for (int digit = 0; digit < open_digits_; ++digit) open_years_ *= 10;
    const std::int64_t greatest = digits_of_year_ - digits_of_year_ % open_years_ + open_years_ - 1;
    if (greatest > farthest_year)
      return cursor_.refuse(
          begin_, fmt::format("{} reaches beyond year {}, the farthest that is read", written(), farthest_year));
    return true;
  }

  // ---- months and days

  // The next component after a hyphen, where there is one.
  bool read_two_digits(std::string_view unit) {
    if (count_ == (unit == "month" ? month_part : day_part) && cursor_.take("-")) {
      const int part = count_;
      Component& component = parts_[part];
      if (!read_left_qualifier(part)) return false;
      component.at = cursor_.at;
      component.digits = cursor_.take_digits(true);
      const std::size_t length = component.digits.size();
      if (cursor_.next() == 'x') return cursor_.refuse(cursor_.at, "an unspecified digit is a capital X");
      if (length == 0)
        return cursor_.refuse(cursor_.at, fmt::format("{} where a {} of two digits is due", cursor_.found(), unit));
      if (component.digits == "X") return cursor_.refuse(component.at, fmt::format("an unspecified {} is XX", unit));
      if (length == 1)
        return cursor_.refuse(component.at, fmt::format("{} needs two digits for the {}: {}0{}", written(), unit,
                                                        text_between(begin_, component.at), component.digits));
      if (length > 2) return refuse_long_component(component, unit);
      ++count_;
      return read_right_qualifier(part);
    }
    return true;
  }

  bool refuse_long_component(const Component& component, std::string_view unit) {
    const std::string_view before = text_between(begin_, component.at);
    const std::string_view digits = component.digits;
    if (unit == "month" && digits.size() == 4 && before.size() == 5) {
      const std::string_view year = before.substr(0, 4);
      if (digits.substr(0, 2) >= "01" && digits.substr(0, 2) <= "12")
        return cursor_.refuse(component.at, fmt::format("{} needs a hyphen before the day: {}{}-{}", written(), before,
                                                        digits.substr(0, 2), digits.substr(2)));
      return cursor_.refuse(component.at,
                            fmt::format("{} needs a slash between two years: {}/{}", written(), year, digits));
    }
    if (unit == "month" && digits.size() == 3)
      return cursor_.refuse(component.at,
                            fmt::format("{} has three digits for the month; a day of the year is not read: "
                                        "write month and day",
                                        written()));
    return cursor_.refuse(component.at,
                          fmt::format("{} has {} digits for the {} instead of two", written(), digits.size(), unit));
  }

  [[nodiscard]] bool part_of_year() const {
    return count_ > month_part && !parts_[month_part].unspecified() && parts_[month_part].number() >= 21;
  }

  bool check_month() {
    const Component& month = parts_[month_part];
    if (month.unspecified()) return true;
    const int number = month.number();
    if (number >= 1 && number <= 12) return true;
    if (number == 0) return cursor_.refuse(month.at, "month 00 does not exist; an unspecified month is XX");
    const bool day_follows = count_ > day_part && !parts_[day_part].unspecified();
    const bool swapped =
        day_follows && number <= 31 && parts_[day_part].number() >= 1 && parts_[day_part].number() <= 12;
    if (swapped)
      return cursor_.refuse(month.at, fmt::format("month {} does not exist; are month and day swapped: {}-{}-{}",
                                                  number, text_between(begin_, parts_[year_part].at + 4),
                                                  parts_[day_part].digits, month.digits));
    if (number >= 21 && number <= 41) {
      if (count_ == month_part + 1) return true;
      return cursor_.refuse(parts_[day_part].at,
                            fmt::format("`{}` in place of a month is a season or another part of a year, "
                                        "which has no numbered days",
                                        number));
    }
    return cursor_.refuse(month.at,
                          fmt::format("month {} does not exist; months are 01 to 12, seasons and other parts of "
                                      "a year 21 to 41",
                                      number));
  }

  bool check_day() {
    const Component& day = parts_[day_part];
    if (day.unspecified()) return true;
    const int number = day.number();
    if (number == 0) return cursor_.refuse(day.at, "day 00 does not exist; an unspecified day is XX");
    if (number > 31)
      return cursor_.refuse(day.at, fmt::format("day {} does not exist; months have at most 31 days", number));
    if (parts_[year_part].unspecified() || parts_[month_part].unspecified()) return true;
    const int month = parts_[month_part].number();
    const int length = days_in_month(year_, month);
    if (number <= length) return true;
    if (month == 2 && number == 29)
      return cursor_.refuse(day.at, fmt::format("{} is not a leap year: February has 28 days", year_));
    return cursor_.refuse(day.at, fmt::format("day {} does not exist in {}, which has {} days", number,
                                              month_names.at(static_cast<std::size_t>(month - 1)), length));
  }

  bool find_days() {
    if (long_year_ || significant_) {
      std::int64_t nearest = digits_of_year_ - digits_of_year_ % open_years_;
      std::int64_t farthest = nearest + open_years_ - 1;
      if (negative_) {
        nearest = -std::max<std::int64_t>(nearest, 1);
        farthest = -farthest;
      }
      date_.bounds.first = day_number({std::min(nearest, farthest), 1, 1});
      date_.bounds.last = day_number({std::max(nearest, farthest), 12, 31});
      return true;
    }
    if (count_ > month_part && !check_month()) return false;
    if (count_ > day_part && !check_day()) return false;
    const bool part = part_of_year();
    const auto days = days_that_fit({.negative = negative_,
                                     .year = parts_[year_part].digits,
                                     .month = part ? std::string_view{} : parts_[month_part].digits,
                                     .day = parts_[day_part].digits});
    if (!days) return cursor_.refuse(begin_, fmt::format("no existing day fits {}", written()));
    date_.bounds.first = days->first;
    date_.bounds.last = days->last;
    if (part) {
      const int code = parts_[month_part].number();
      needs_level(code <= 24 ? 1 : 2);
      date_.bounds.first = first_day_of_part(date_of(days->first).year, code);
      date_.bounds.last = last_day_of_part(date_of(days->last).year, code);
    }
    return true;
  }

  // ---- time of day

  static std::optional<int> two_digits(std::string_view digits) {
    if (digits.size() != 2) return std::nullopt;
    return (digits[0] - '0') * 10 + (digits[1] - '0');
  }

  // T23:20:30, then nothing, Z, or a shift such as -04 or +04:30.
  bool read_time() {
    if (count_ != day_part + 1 || date_.level > 0 || parts_[day_part].unspecified())
      return cursor_.refuse(cursor_.at,
                            fmt::format("a time of day needs a whole date without X, sign or qualifier before "
                                        "it; {} is none",
                                        written()));
    cursor_.take("T");
    date_.timed = true;
    const std::size_t where = cursor_.at;
    const auto hour = two_digits(cursor_.take_digits(false));
    const bool colon = cursor_.take(":");
    const auto minute = colon ? two_digits(cursor_.take_digits(false)) : std::nullopt;
    const bool second_colon = minute && cursor_.take(":");
    const auto second = second_colon ? two_digits(cursor_.take_digits(false)) : std::nullopt;
    if (!hour || !minute || !second)
      return cursor_.refuse(where,
                            "a time of day has hours, minutes and seconds of two digits each, such as T23:20:30");
    if (*hour > 23) return cursor_.refuse(where, fmt::format("hour {} does not exist; hours are 00 to 23", *hour));
    if (*minute > 59)
      return cursor_.refuse(where, fmt::format("minute {} does not exist; minutes are 00 to 59", *minute));
    if (*second > 60)
      return cursor_.refuse(where, fmt::format("second {} does not exist; seconds are 00 to 59", *second));
    if (cursor_.next() == '.' || cursor_.next() == ',')
      return cursor_.refuse(cursor_.at, "fractions of a second are not part of a date");
    std::optional<int> shift;
    if (cursor_.take("Z")) {
      shift = 0;
    } else if (cursor_.next() == '+' || cursor_.next() == '-') {
      shift = read_shift();
      if (!shift) return false;
    }
    if (*second == 60 && !leap_second(*hour * 60 + *minute, shift))
      return cursor_.refuse(where, "second 60 exists only as a leap second, at the end of 23:59 UTC");
    if (!cursor_.ended() && std::string_view("?~%").find(cursor_.next()) != std::string_view::npos)
      return cursor_.refuse(cursor_.at, "a date with a time of day takes no qualifier");
    return true;
  }

  // Minutes ahead of UTC. Clocks have been set from 12 hours behind to 14 hours ahead.
  std::optional<int> read_shift() {
    const std::size_t where = cursor_.at;
    const int sign = cursor_.next() == '-' ? -1 : 1;
    ++cursor_.at;
    const auto hours = two_digits(cursor_.take_digits(false));
    const bool colon = cursor_.take(":");
    const auto minutes = colon ? two_digits(cursor_.take_digits(false)) : std::optional<int>(0);
    if (!hours || !minutes || *minutes > 59) {
      cursor_.refuse(where, "a time shift is hours, or hours and minutes with a colon, such as -04 or +04:30");
      return std::nullopt;
    }
    const int shift = sign * (*hours * 60 + *minutes);
    if (sign < 0 && shift == 0) {
      cursor_.refuse(where, "a shift of nothing is written with a plus, +00:00, or as Z");
      return std::nullopt;
    }
    if (shift < -12 * 60 || shift > 14 * 60) {
      cursor_.refuse(where, "no place is that far from UTC: time shifts are -12:00 to +14:00");
      return std::nullopt;
    }
    return shift;
  }

  // Without a shift, any zone may be meant: they differ from UTC by whole quarters of an hour.
  static bool leap_second(int minute_of_day, std::optional<int> shift) {
    constexpr int minutes_in_day = 24 * 60;
    if (!shift) return minute_of_day % 15 == 14;
    return (minute_of_day - *shift + minutes_in_day) % minutes_in_day == minutes_in_day - 1;
  }

  // ---- what the whole says

  // Level 1 has X only from the right: 201X, 20XX, 2004-XX, 1985-04-XX, 1985-XX-XX.
  [[nodiscard]] int level_of_unspecified() const {
    if (!date_.unspecified) return 0;
    const std::string_view year = parts_[year_part].digits;
    const std::string_view month = parts_[month_part].digits;
    const std::string_view day = parts_[day_part].digits;
    const bool year_known = !parts_[year_part].unspecified();
    const bool month_known = !parts_[month_part].unspecified();
    if (count_ == 1) return year.find('X') >= 2 && year.back() == 'X' ? 1 : 2;
    if (count_ == 2) return year_known && month == "XX" ? 1 : 2;
    return year_known && day == "XX" && (month_known || month == "XX") ? 1 : 2;
  }

  [[nodiscard]] Precision precision_of_year() const {
    int open_digits = open_digits_;
    if (const std::size_t first = parts_[year_part].digits.find('X'); first != std::string_view::npos)
      open_digits = static_cast<int>(4 - first);
    if (open_digits == 0) return Precision::year;
    if (open_digits == 1) return Precision::decade;
    return open_digits == 2 ? Precision::century : Precision::coarser;
  }

  // The finest component that is known. Where only a part of the date is approximate, it is the finest component of the
  // coarsest group that is: the year in 2004~-06-11, the month in 2004-06~-11.
  [[nodiscard]] Precision precision() const {
    int finest = count_ - 1;
    const auto approximate = [&](int part) { return parts_[part].qualified.approximate; };
    int coarsest = 0;
    while (coarsest < count_ && !approximate(coarsest)) ++coarsest;
    if (coarsest < count_) {
      finest = coarsest;
      while (finest + 1 < count_ && approximate(finest + 1)) ++finest;
    }
    if (finest == year_part || parts_[year_part].unspecified()) return precision_of_year();
    if (parts_[month_part].unspecified()) return Precision::year;
    if (finest == month_part) return part_of_year() ? Precision::season : Precision::month;
    return parts_[day_part].unspecified() ? Precision::month : Precision::day;
  }

  Cursor& cursor_;
  std::size_t begin_;
  OneDate date_;
  Component parts_[3];
  int count_ = 0; // how many components are written
  bool negative_ = false;
  bool long_year_ = false;          // starts with Y
  bool significant_ = false;        // has S
  std::int64_t year_ = 0;           // where no digit of it is unspecified
  std::int64_t digits_of_year_ = 0; // the same without its sign
  int open_digits_ = 0;             // left open by S
  std::int64_t open_years_ = 1;     // 10 to that power
};

} // namespace

std::optional<OneDate> read_date(Cursor& cursor) { return DateReader(cursor).read(); }

} // namespace coeval
