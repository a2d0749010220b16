#include "links/readings.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace coeval {
namespace {

constexpr std::size_t most_digits = 15;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// The digits without their commas; empty where anything else stands there, or a group is not of three.
std::string digits_of(std::string_view written) {
  std::string digits;
  const bool grouped = written.find(',') != std::string_view::npos;
  if (grouped && written.size() % 4 == 0) return {}; // the first group has none, or more than three
  for (std::size_t i = 0; i < written.size(); ++i) {
    const bool comma_due = grouped && i > 0 && (written.size() - i) % 4 == 0;
    if (comma_due ? written[i] != ',' : !is_digit(written[i])) return {};
    if (!comma_due) digits += written[i];
  }
  return digits;
}

} // namespace

WrittenMark split_mark(std::string_view written) {
  const std::size_t equals = written.find('=');
  if (equals == std::string_view::npos) return {written, {}};
  return {written.substr(0, equals), written.substr(equals + 1)};
}

std::optional<std::int64_t> parse_reading(ReadingKind kind, std::string_view written) {
  const std::string digits = kind == ReadingKind::year ? std::string{written} : digits_of(written);
  if (digits.empty() || digits.size() > most_digits || !std::ranges::all_of(digits, is_digit)) return {};
  if (kind == ReadingKind::year && (digits.size() != 4 || digits.front() == '0')) return {};
  const std::int64_t reading = std::stoll(digits);
  if (reading == 0) return {};
  return reading;
}

std::string reading_text(ReadingKind kind, std::int64_t reading) {
  std::string text = fmt::format("{}", reading);
  if (kind == ReadingKind::number)
    for (std::size_t i = text.size(); i > 3; i -= 3) text.insert(i - 3, ",");
  return text;
}

MarkReading read_mark(const LinkedKb& kb, MarkIndex mark, std::optional<std::string_view> written) {
  const Mark& it = kb.marks[at(mark)];
  const std::string_view address = kb.address(it.entry);
  const std::string& id = kb.entries[it.entry].id;
  if (!it.reading) {
    if (!written || kb.entries[it.entry].broken) return {};
    return {{},
            ReadingTrouble{
                Code::unwanted_reading,
                fmt::format("`{}` is not a mark that is read, and `{}` is given as what it reads", address, *written),
                fmt::format("write `{}` alone, or give the mark a `reading`", id)}};
  }
  const bool year = *it.reading == ReadingKind::year;
  const std::string_view example = year ? "1977" : "3858241";
  if (!written)
    return {{},
            ReadingTrouble{Code::missing_reading,
                           fmt::format("`{}` dates what carries it by the {} that it reads, and none is given", address,
                                       name(*it.reading)),
                           fmt::format("write what it reads: `{}={}`", id, example)}};
  const auto reading = parse_reading(*it.reading, *written);
  if (reading) return {reading, {}};
  return {{},
          ReadingTrouble{Code::broken_reading,
                         written->empty()
                             ? fmt::format("nothing stands here after the equals sign, and `{}` reads a {}", address,
                                           name(*it.reading))
                             : fmt::format("`{}` reads a {}, and `{}` is none", address, name(*it.reading), *written),
                         year ? "a year has four digits: `1977`"
                              : fmt::format("a number has only digits, at most {}, in groups of three where commas "
                                            "part them: `3858241` or `3,858,241`",
                                            most_digits)}};
}

RowsAround rows_around(const Mark& mark, std::int64_t number) {
  const auto next = std::ranges::upper_bound(mark.numbers, number, {}, &NumberRow::from);
  return {next == mark.numbers.begin() ? nullptr : &*std::prev(next), next == mark.numbers.end() ? nullptr : &*next};
}

} // namespace coeval
