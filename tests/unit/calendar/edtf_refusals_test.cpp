// Does a reader whose date is refused learn what is wrong, where, and what to write instead?
#include "reading.hpp"

using namespace coeval;

TEST_CASE("days and months that do not exist") {
  CHECK(refusal("1979-13") ==
        "month 13 does not exist; months are 01 to 12, seasons and other parts of a year 21 to 41");
  CHECK(refusal("1979-00") == "month 00 does not exist; an unspecified month is XX");
  CHECK(refusal("1979-06-00") == "day 00 does not exist; an unspecified day is XX");
  CHECK(refusal("1979-06-31") == "day 31 does not exist in June, which has 30 days");
  CHECK(refusal("1979-06-32") == "day 32 does not exist; months have at most 31 days");
  CHECK(refusal("2001-02-29") == "2001 is not a leap year: February has 28 days");
  CHECK(refusal("1900-02-29") == "1900 is not a leap year: February has 28 days");
  CHECK(refusal("2016-02-30") == "day 30 does not exist in February, which has 29 days");
  CHECK(refusal("1979-13-05") == "month 13 does not exist; are month and day swapped: 1979-05-13");
  CHECK(refusal("1979-30-06") == "month 30 does not exist; are month and day swapped: 1979-06-30");
  CHECK(refusal("1979-21-XX") ==
        "`21` in place of a month is a season or another part of a year, which has no numbered days");
}

TEST_CASE("digits too few and too many") {
  CHECK(refusal("") == "empty: a date is written like 1979, 1979-06 or 1979-06-30");
  CHECK(refusal("198") == "`198` is no year of four digits; a decade is written 198X");
  CHECK(refusal("19") == "`19` is no year of four digits; a century is written 19XX");
  CHECK(refusal("12345") == "`12345` has over four digits; such a year starts with a capital Y");
  CHECK(refusal("19850412") == "`19850412` needs hyphens: 1985-04-12");
  CHECK(refusal("198504") == "`198504` needs a hyphen before the month: 1985-04");
  CHECK(refusal("1979-8") == "two digits are due for the month: 1979-08");
  CHECK(refusal("1979-08-3") == "two digits are due for the day: 1979-08-03");
  CHECK(refusal("1979-8-3") == "two digits are due for the month and the day: 1979-08-03");
  CHECK(refusal("1979-8/1980") == "`1979-8` needs two digits for the month: 1979-08");
  CHECK(refusal("1979-X") == "an unspecified month is XX");
  CHECK(refusal("1979-0630") == "`1979-0630` needs a hyphen before the day: 1979-06-30");
  CHECK(refusal("1985-102") ==
        "`1985-102` has three digits for the month; a day of the year is not read: write month and day");
  CHECK(refusal("1979-") == "the end where a month of two digits is due");
}

TEST_CASE("years out of form") {
  CHECK(refusal("-0000") == "year 0 has no sign: 0000");
  CHECK(refusal("+2006") == "a year after year 0 has no sign: leave out the `+`");
  CHECK(refusal("Y1985") == "`Y` is for years beyond four digits: write 1985");
  CHECK(refusal("Y-9999") == "`Y` is for years beyond four digits: write -9999");
  CHECK(refusal("Y17E2") == "`Y` is for years beyond four digits: write 1700");
  CHECK(refusal("Y00001") == "a year after `Y` does not start with 0");
  CHECK(refusal("Y") == "the end where `Y` needs the digits of a year");
  CHECK(refusal("Y17E") == "`E` needs a count of zeros, one at least, such as Y17E7");
  CHECK(refusal("Y17E0") == "`E` needs a count of zeros, one at least, such as Y17E7");
  CHECK(refusal("Y1000000001") == "`Y1000000001` is beyond year 1000000000, the farthest that is read");
  CHECK(refusal("Y1E99999999999999999999") ==
        "`Y1E99999999999999999999` is beyond year 1000000000, the farthest that is read");
  CHECK(refusal("Y1000000000S1") == "`Y1000000000S1` reaches beyond year 1000000000, the farthest that is read");
  CHECK(refusal("Y17000-05") == "`Y17000` is a year alone: no month may follow");
  CHECK(refusal("1950S2-05") == "`1950S2` is a year alone: no month may follow");
  CHECK(refusal("1950S5") == "year 1950 has 4 significant digits, fewer than 5 after `S`");
  CHECK(refusal("1950S0") == "`S` needs a count of digits, one at least, such as 1950S2");
  CHECK(refusal("195XS2") == "`S` and an unspecified digit X exclude each other");
}

TEST_CASE("times of day out of form") {
  const std::string form = "a time of day has hours, minutes and seconds of two digits each, such as T23:20:30";
  CHECK(refusal("1985-04-12T23:20Z") == form);
  CHECK(refusal("1985-04-12T1:10:10") == form);
  CHECK(refusal("1985-04-12T24:00:00") == "hour 24 does not exist; hours are 00 to 23");
  CHECK(refusal("1985-04-12T10:60:00") == "minute 60 does not exist; minutes are 00 to 59");
  CHECK(refusal("1985-04-12T10:00:61") == "second 61 does not exist; seconds are 00 to 59");
  CHECK(refusal("1985-04-12T10:00:00.5") == "fractions of a second are not part of a date");
  CHECK(refusal("1985-04-12T10:00:00-0400") ==
        "a time shift is hours, or hours and minutes with a colon, such as -04 or +04:30");
  CHECK(refusal("1985-04-12T10:00:00-00:00") == "a shift of nothing is written with a plus, +00:00, or as Z");
  CHECK(refusal("1985-04-12T10:00:00+14:01") == "no place is that far from UTC: time shifts are -12:00 to +14:00");
  CHECK(refusal("1985-04-12T10:00:00~") == "a date with a time of day takes no qualifier");
  CHECK(refusal("1985-04T10:00:00").starts_with("a time of day needs a whole date"));
  CHECK(refusal("1985-04-XXT10:00:00").starts_with("a time of day needs a whole date"));
  CHECK(refusal("1985-04-12?T10:00:00").starts_with("a time of day needs a whole date"));
}

TEST_CASE("dates by another custom, with what to write here") {
  struct Case {
    const char* text;
    const char* reason;
  };
  for (const Case& c : {
           Case{"12/1979", "the year comes first: 1979-12"},
           {"6.1979", "the year comes first: 1979-06"},
           {"30/06/1979", "the order is year, month, day: 1979-06-30"},
           {"6-30-1979", "the order is year, month, day: 1979-06-30"},
           {"05.06.1979", "the order is year, month, day: 1979-06-05 or 1979-05-06"},
           {"05/05/1979", "the order is year, month, day: 1979-05-05"},
           {"1979/06/30", "hyphens go between year, month and day: 1979-06-30"},
           {"1979.6", "hyphens go between year, month and day: 1979-06"},
           {"June 1979", "months and seasons are written in digits: 1979-06"},
           {"30 June 1979", "months and seasons are written in digits: 1979-06-30"},
           {"Sept. 3rd, 1979", "months and seasons are written in digits: 1979-09-03"},
           {"fall 1979", "months and seasons are written in digits: 1979-23"},
           {"circa 1979", "an approximate date ends with `~` instead of words: 1979~"},
           {"c. 1979", "an approximate date ends with `~` instead of words: 1979~"},
           {"about 1979-08", "an approximate date ends with `~` instead of words: 1979-08~"},
           {"probably 1979", "an uncertain date ends with `?` instead of words: 1979?"},
           {"before 1979", "that date or an earlier one is written in brackets: [..1979]"},
           {"1979 or earlier", "that date or an earlier one is written in brackets: [..1979]"},
           {"since 1979-06", "that date or a later one is written in brackets: [1979-06..]"},
           {"1979 or later", "that date or a later one is written in brackets: [1979..]"},
           {"late 1979", "`late` is not read, write the months that are meant: [1979-09..1979-12]"},
           {"1970s", "a decade is written with a capital X: 197X"},
           {"the 1970's", "a decade is written with a capital X: 197X"},
           {"1900s", "a century is written 19XX, a decade 190X"},
           {"197?", "an unspecified digit is a capital X: 197X"},
           {"19??", "an unspecified digit is a capital X: 19XX"},
           {"1979-1981", "from one year to another is written with a slash: 1979/1981"},
           {"1979 \u2013 1981", "from one year to another is written with a slash: 1979/1981"},
           {"from 1979 to 1981", "from one year to another is written with a slash: 1979/1981"},
           {"1979-01/03", "both ends of an interval are written in full: 1979-01/1979-03"},
           {"1979..1981", "a range with two dots stands in brackets: [1979..1981]"},
           {"1979..", "a range with two dots stands in brackets: [1979..]"},
           {"1979\u201308", "a date has plain hyphens: 1979-08"},
           {" 1979-08", "a date has no spaces: 1979-08"},
           {"[1667, 1668]", "a date has no spaces: [1667,1668]"},
           {"197x", "the letters of a date are capitals: 197X"},
           {"y17000", "the letters of a date are capitals: Y17000"},
           {"198u", "these signs are of an older draft; today it is: 198X"},
           {"1979/open", "these signs are of an older draft; today it is: 1979/.."},
           {"1984?~", "these signs are of an older draft; today it is: 1984%"},
       }) {
    CHECK(refusal(c.text) == c.reason);
  }
}

TEST_CASE("advice proposes nothing that would be refused in turn") {
  for (const char* text :
       {"31/06/1979", "31 June 1979", "1979/13/40", "40-1979", "circa nothing", "early 1979-06-30"}) {
    INFO(text);
    CHECK(refusal(text).find(": 1979") == std::string::npos);
  }
}

TEST_CASE("a refusal points at the byte where the trouble begins") {
  CHECK(parse_edtf("1979-13").offset == 5);
  CHECK(parse_edtf("1979-06-31").offset == 8);
  CHECK(parse_edtf("1979-06/1979-13").offset == 13);
  CHECK(parse_edtf("[1979,198]").offset == 6);
  CHECK(parse_edtf("1979-06x").offset == 7);
  CHECK(parse_edtf("1979-06-30!").offset == 10);
  CHECK(parse_edtf("1979").offset == 0);
}

TEST_CASE("bytes that are no text are named, never copied") {
  CHECK(refusal("\xFF") == "byte 0xFF where a year of four digits is due, such as 1979");
  CHECK(refusal(std::string_view("1979\0", 5)) == "byte 0x00 behind the end of the date");
  CHECK(refusal("1979\xC3\x28") == "byte 0xC3 behind the end of the date");
  CHECK(refusal("1979\u00E9") == "`\u00E9` behind the end of the date");
}

TEST_CASE("long texts are refused in a short sentence") {
  CHECK(refusal(std::string(1'000'000, '9')).size() < 200);
  CHECK(refusal("Y" + std::string(1'000'000, '9')).size() < 200);
  CHECK(refusal(std::string(1'000'000, '[')).size() < 200);
  std::string members = "[1979";
  for (int count = 0; count < 100'000; ++count) members += ",1979-XX-31";
  CHECK(hull(members + "]") == "1979-01-01 to 1979-12-31");
  CHECK(refusal(members).size() < 200);
}
