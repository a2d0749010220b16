#include <array>

#include "calendar/edtf_date.hpp"

// calendar/edtf_parts.cpp: when does a season, a quarter, a third or a half of a year begin and end?

namespace coeval {

namespace {

struct MonthDay {
  int month;
  int day;
};

struct PartOfYear {
  MonthDay first;
  MonthDay last;
  bool over_the_turn = false; // begins in the year before and ends in the year after
};

constexpr PartOfYear march_to_june = {{3, 1}, {6, 22}};
constexpr PartOfYear june_to_september = {{6, 1}, {9, 24}};
constexpr PartOfYear september_to_december = {{9, 1}, {12, 23}};
constexpr PartOfYear december_to_march = {{12, 1}, {3, 21}, true};

constexpr int first_code = 21;
constexpr std::array<PartOfYear, 21> parts = {{
    march_to_june,         june_to_september,  september_to_december, december_to_march, // 21-24
    march_to_june,         june_to_september,  september_to_december, december_to_march, // 25-28, north
    september_to_december, december_to_march,  march_to_june,         june_to_september, // 29-32, south
    {{1, 1}, {3, 31}},                                                                   // 33-36, quarters
    {{4, 1}, {6, 30}},     {{7, 1}, {9, 30}},  {{10, 1}, {12, 31}},   {{1, 1}, {4, 30}}, // 37-39, quadrimesters
    {{5, 1}, {8, 31}},     {{9, 1}, {12, 31}}, {{1, 1}, {6, 30}},                        // 40-41, semestrals
    {{7, 1}, {12, 31}},
}};

const PartOfYear& part(int code) { return parts.at(static_cast<std::size_t>(code - first_code)); }

} // namespace

Day first_day_of_part(std::int64_t year, int code) {
  return day_number({part(code).over_the_turn ? year - 1 : year, part(code).first.month, part(code).first.day});
}

Day last_day_of_part(std::int64_t year, int code) {
  return day_number({part(code).over_the_turn ? year + 1 : year, part(code).last.month, part(code).last.day});
}

} // namespace coeval
