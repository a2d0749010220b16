// Which days can a single date mean, at which level is it written, and how fine is it known?
#include "reading.hpp"

using namespace coeval;

TEST_CASE("a day, a month and a year are themselves") {
  CHECK(hull("1979-06-30") == "1979-06-30 to 1979-06-30");
  CHECK(hull("1979-06") == "1979-06-01 to 1979-06-30");
  CHECK(hull("1979") == "1979-01-01 to 1979-12-31");
  CHECK(hull("2000-02-29") == "2000-02-29 to 2000-02-29");
  CHECK(hull("0000") == "0000-01-01 to 0000-12-31");
  CHECK(read("1979").shape == EdtfShape::date);
  CHECK(read("1979").start == read("1979").end);
}

TEST_CASE("every day of a century reads as itself") {
  int read_otherwise = 0;
  for (Day day = day_number({1900, 1, 1}); day < day_number({2000, 1, 1}); ++day) {
    const EdtfResult result = parse_edtf(iso(day));
    read_otherwise += result.value && result.value->first() == day && result.value->last() == day ? 0 : 1;
  }
  CHECK(read_otherwise == 0);
}

TEST_CASE("a time of day leaves its local calendar day") {
  CHECK(hull("1985-04-12T23:20:30-04") == "1985-04-12 to 1985-04-12");
  CHECK(hull("1985-04-12T00:20:30+14:00") == "1985-04-12 to 1985-04-12");
  CHECK(read("1985-04-12T23:20:30Z").level == 0);
}

TEST_CASE("second 60 is a leap second at the end of 23:59 UTC") {
  CHECK(hull("2016-12-31T23:59:60Z") == "2016-12-31 to 2016-12-31");
  CHECK(hull("2016-12-31T18:59:60-05") == "2016-12-31 to 2016-12-31");
  CHECK(hull("2017-01-01T05:29:60+05:30") == "2017-01-01 to 2017-01-01");
  CHECK(hull("2016-12-31T23:59:60") == "2016-12-31 to 2016-12-31");
  const std::string reason = "second 60 exists only as a leap second, at the end of 23:59 UTC";
  CHECK(refusal("2016-12-31T23:59:60-05") == reason);
  CHECK(refusal("2016-12-31T23:20:60") == reason);
}

TEST_CASE("years beyond four digits, with exponents and before year 0") {
  CHECK(hull("Y170000002") == "+170000002-01-01 to +170000002-12-31");
  CHECK(hull("Y-17E7") == "-170000000-01-01 to -170000000-12-31");
  CHECK(hull("-0044-03-15") == "-0044-03-15 to -0044-03-15");
  CHECK(hull("Y1E9") == "+1000000000-01-01 to +1000000000-12-31");
  CHECK(read("Y170000002").level == 1);
  CHECK(read("Y17E7").level == 2);
  CHECK(read("-0044-03").level == 1);
}

TEST_CASE("significant digits leave the others open") {
  CHECK(hull("1950S1") == "1000-01-01 to 1999-12-31");
  CHECK(hull("1950S2") == "1900-01-01 to 1999-12-31");
  CHECK(hull("1950S3") == "1950-01-01 to 1959-12-31");
  CHECK(hull("1950S4") == "1950-01-01 to 1950-12-31");
  CHECK(hull("-1950S2") == "-1999-01-01 to -1900-12-31");
  CHECK(hull("Y171010000S3") == "+171000000-01-01 to +171999999-12-31");
  CHECK(hull("Y3388E2S3") == "+338000-01-01 to +338999-12-31");
  CHECK(hull("0050S1") == "0050-01-01 to 0059-12-31");
  CHECK(read("1950S3").start.precision == Precision::decade);
  CHECK(read("1950S2").start.precision == Precision::century);
  CHECK(read("1950S1").start.precision == Precision::coarser);
  CHECK(read("1950S2~").start.approximate);
}

TEST_CASE("a qualifier anywhere makes the date approximate, uncertain or both") {
  struct Case {
    const char* text;
    bool approximate;
    bool uncertain;
    int level;
  };
  for (const Case& c : {Case{"1984", false, false, 0},
                        {"1984?", false, true, 1},
                        {"1984~", true, false, 1},
                        {"1984%", true, true, 1},
                        {"2004-06-11%", true, true, 1},
                        {"2004-06~-11", true, false, 2},
                        {"2004?-06-11", false, true, 2},
                        {"?2004-06-~11", true, true, 2},
                        {"2004-%06-11", true, true, 2},
                        {"?1984", false, true, 2},
                        {"198X~", true, false, 1},
                        {"2001-21?", false, true, 1},
                        {"Y170000002~", true, false, 1},
                        {"-1985?", false, true, 1}}) {
    INFO(c.text);
    const Edtf date = read(c.text);
    CHECK(date.start.approximate == c.approximate);
    CHECK(date.start.uncertain == c.uncertain);
    CHECK(date.level == c.level);
  }
}

TEST_CASE("precision is the finest that is known") {
  struct Case {
    const char* text;
    Precision precision;
  };
  for (const Case& c : {Case{"1979-06-30", Precision::day},
                        {"1979-06-30T10:00:00", Precision::day},
                        {"1979-06", Precision::month},
                        {"1979-06-XX", Precision::month},
                        {"1979-06-1X", Precision::month},
                        {"1979-22", Precision::season},
                        {"1979-34", Precision::season},
                        {"1979", Precision::year},
                        {"1979-XX", Precision::year},
                        {"1979-1X-05", Precision::year},
                        {"1979-XX-XX", Precision::year},
                        {"Y17E7", Precision::year},
                        {"197X", Precision::decade},
                        {"197X-12-25", Precision::decade},
                        {"19XX", Precision::century},
                        {"1XXX-12", Precision::coarser},
                        {"XXXX", Precision::coarser}}) {
    INFO(c.text);
    CHECK(read(c.text).start.precision == c.precision);
  }
}

TEST_CASE("where a part is approximate, precision is that of the part") {
  CHECK(read("2004-06-11~").start.precision == Precision::day);
  CHECK(read("2004-06-~11").start.precision == Precision::day);
  CHECK(read("2004-06~-11").start.precision == Precision::month);
  CHECK(read("2004-~06-11").start.precision == Precision::month);
  CHECK(read("2004-~06-~11").start.precision == Precision::day);
  CHECK(read("2004~-06-11").start.precision == Precision::year);
  CHECK(read("~2004-06-~11").start.precision == Precision::year);
  CHECK(read("2004?-06-11").start.precision == Precision::day);
}

TEST_CASE("seasons take the widest customary reading, other parts of a year are exact") {
  CHECK(hull("1979-21") == "1979-03-01 to 1979-06-22");
  CHECK(hull("1979-22") == "1979-06-01 to 1979-09-24");
  CHECK(hull("1979-23") == "1979-09-01 to 1979-12-23");
  CHECK(hull("1979-24") == "1978-12-01 to 1980-03-21");
  for (int code = 21; code <= 24; ++code) // north is what 21-24 are read as
    CHECK(hull("1979-" + std::to_string(code)) == hull("1979-" + std::to_string(code + 4)));
  CHECK(hull("1979-29") == hull("1979-27"));
  CHECK(hull("1979-30") == hull("1979-28"));
  CHECK(hull("1979-31") == hull("1979-25"));
  CHECK(hull("1979-32") == hull("1979-26"));
  CHECK(hull("1979-33") == "1979-01-01 to 1979-03-31");
  CHECK(hull("1979-34") == "1979-04-01 to 1979-06-30");
  CHECK(hull("1979-35") == "1979-07-01 to 1979-09-30");
  CHECK(hull("1979-36") == "1979-10-01 to 1979-12-31");
  CHECK(hull("1979-37") == "1979-01-01 to 1979-04-30");
  CHECK(hull("1979-38") == "1979-05-01 to 1979-08-31");
  CHECK(hull("1979-39") == "1979-09-01 to 1979-12-31");
  CHECK(hull("1979-40") == "1979-01-01 to 1979-06-30");
  CHECK(hull("1979-41") == "1979-07-01 to 1979-12-31");
  CHECK(hull("197X-41") == "1970-07-01 to 1979-12-31");
  CHECK(read("1979-24").level == 1);
  CHECK(read("1979-25").level == 2);
}
