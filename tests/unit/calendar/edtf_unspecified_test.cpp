// Which existing days fit a date with unspecified digits?
#include "reading.hpp"

#include <algorithm>
#include <vector>

using namespace coeval;

namespace {

bool fits(std::string_view written, std::string_view pattern) {
  for (std::size_t index = 0; index < pattern.size(); ++index)
    if (pattern[index] != 'X' && pattern[index] != written[index]) return false;
  return true;
}

// Every text of two characters out of 0-9 and X.
std::vector<std::string> two_digit_patterns() {
  std::vector<std::string> patterns;
  for (const char tens : std::string_view("0123456789X"))
    for (const char ones : std::string_view("0123456789X")) patterns.push_back({tens, ones});
  return patterns;
}

} // namespace

TEST_CASE("only existing days count") {
  CHECK(hull("1985-04-XX") == "1985-04-01 to 1985-04-30");
  CHECK(hull("1985-XX-31") == "1985-01-31 to 1985-12-31");
  CHECK(hull("1985-0X-31") == "1985-01-31 to 1985-08-31");
  CHECK(hull("1985-X2") == "1985-02-01 to 1985-12-31");
  CHECK(hull("1985-1X-0X") == "1985-10-01 to 1985-12-09");
  CHECK(hull("1985-02-2X") == "1985-02-20 to 1985-02-28");
  CHECK(hull("1984-02-2X") == "1984-02-20 to 1984-02-29");
  CHECK(hull("19XX-02-29") == "1904-02-29 to 1996-02-29");
  CHECK(hull("190X-02-29") == "1904-02-29 to 1908-02-29");
  CHECK(hull("XXXX-12-XX") == "0000-12-01 to 9999-12-31");
  CHECK(hull("1XX3") == "1003-01-01 to 1993-12-31");
  CHECK(hull("-201X") == "-2019-01-01 to -2010-12-31");
  CHECK(hull("-000X") == "-0009-01-01 to -0001-12-31");
  for (const char* text :
       {"1985-02-3X", "156X-09-31", "15XX-02-3X", "15XX-2X-25", "1985-4X", "1985-XX-4X", "XXX1-02-29", "1985-X4-31"})
    CHECK(refusal(text) == "no existing day fits `" + std::string(text) + "`");
}

TEST_CASE("the bounds are the first and the last of all days that fit, for every pattern of month and day") {
  for (const std::string& year : {std::string("1984"), std::string("1985"), std::string("198X")}) {
    std::vector<std::string> days; // as written
    const int least = year.back() == 'X' ? 1980 : std::stoi(year);
    const int greatest = year.back() == 'X' ? 1989 : std::stoi(year);
    for (Day day = day_number({least, 1, 1}); day <= day_number({greatest, 12, 31}); ++day) days.push_back(iso(day));
    int compared = 0;
    int refused = 0;
    int differing = 0;
    for (const std::string& month : two_digit_patterns()) {
      const bool specified = month.find('X') == std::string::npos;
      if (specified && month >= "21" && month <= "41") continue; // parts of a year
      for (const std::string& day : two_digit_patterns()) {
        const std::string text = year + "-" + month + "-" + day;
        const auto matching = [&](const std::string& written) { return fits(written, text); };
        const auto first = std::find_if(days.begin(), days.end(), matching);
        const EdtfResult result = parse_edtf(text);
        ++compared;
        if (first == days.end()) {
          ++refused;
          differing += result.value ? 1 : 0;
          continue;
        }
        const auto last = std::find_if(days.rbegin(), days.rend(), matching);
        const bool same = result.value && iso(*result.value->first()) == *first && iso(*result.value->last()) == *last;
        differing += same ? 0 : 1;
      }
    }
    INFO(year);
    CHECK(compared == (121 - 21) * 121);
    CHECK(refused > 0);
    CHECK(refused < compared);
    CHECK(differing == 0);
  }
}

TEST_CASE("level 1 has unspecified digits from the right only") {
  for (const char* text : {"201X", "20XX", "2004-XX", "1985-04-XX", "1985-XX-XX", "-201X"}) {
    INFO(text);
    CHECK(read(text).level == 1);
  }
  for (const char* text : {"XXXX", "2XXX", "20X1", "156X-12-25", "1984-1X", "1XXX-XX", "201X-XX", "1985-04-1X",
                           "1985-XX-01", "1985-1X-XX"}) {
    INFO(text);
    CHECK(read(text).level == 2);
  }
}
