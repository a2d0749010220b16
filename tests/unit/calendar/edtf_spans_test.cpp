// What do an interval and a set say about their first and last day?
#include "reading.hpp"

#include <tuple>

using namespace coeval;

TEST_CASE("an interval runs from its start to its end") {
  const Edtf interval = read("2004-02-01/2005");
  CHECK(interval.shape == EdtfShape::interval);
  CHECK(bounds(interval.start.first, interval.start.last) == "2004-02-01 to 2004-02-01");
  CHECK(bounds(interval.end.first, interval.end.last) == "2005-01-01 to 2005-12-31");
  CHECK(interval.start.precision == Precision::day);
  CHECK(interval.end.precision == Precision::year);
  CHECK(hull("2004-02-01/2005") == "2004-02-01 to 2005-12-31");
}

TEST_CASE("an end of an interval can be unknown or open") {
  for (const auto& [text, start, end, days] :
       {std::tuple{"1985/", EndKind::dated, EndKind::unknown, "1985-01-01 to ..."},
        {"1985/..", EndKind::dated, EndKind::open, "1985-01-01 to ..."},
        {"/1985", EndKind::unknown, EndKind::dated, "... to 1985-12-31"},
        {"../1985", EndKind::open, EndKind::dated, "... to 1985-12-31"}}) {
    INFO(text);
    const Edtf interval = read(text);
    CHECK(interval.shape == EdtfShape::interval);
    CHECK(interval.level == 1);
    CHECK(interval.start_kind == start);
    CHECK(interval.end_kind == end);
    CHECK(hull(text) == days);
  }
}

TEST_CASE("an interval without any date is refused") {
  for (const char* text : {"/", "../..", "/..", "../"})
    CHECK(refusal(text) == "an interval needs a date at one end at least, such as 1979/ or 1979/..");
}

TEST_CASE("an interval that cannot run forwards is refused, one that may is not") {
  CHECK(
      refusal("2004/2003") ==
      "the interval ends before it starts: its end is 2003-12-31 at the latest, its start 2004-01-01 at the earliest");
  CHECK(refusal("2004-06-12/2004-06-11").starts_with("the interval ends before it starts"));
  CHECK(refusal("-1000/-2000").starts_with("the interval ends before it starts"));
  CHECK(hull("2004-06/2004") == "2004-06-01 to 2004-12-31");
  CHECK(hull("2004/2004-01-01") == "2004-01-01 to 2004-01-01");
  CHECK(hull("-2000/-1000") == "-2000-01-01 to -1000-12-31");
}

TEST_CASE("the ends of an interval keep their own qualifiers, and its level is that of its parts") {
  const Edtf interval = read("1984?/2004-06~");
  CHECK(interval.start.uncertain);
  CHECK_FALSE(interval.start.approximate);
  CHECK(interval.end.approximate);
  CHECK_FALSE(interval.end.uncertain);
  CHECK(interval.level == 1);
  CHECK(read("1964/2008").level == 0);
  CHECK(read("2001-21/2003").level == 1);
  CHECK(read("2004-06-~01/2004-06-~20").level == 2);
  CHECK(read("2004-06-XX/2004-07-03").level == 2); // intervals have unspecified digits at level 2 only
  CHECK(read("201X/2020").level == 2);
}

TEST_CASE("what does not belong into an interval is refused") {
  CHECK(refusal("2004-01-01T10:00:00/2005") == "an interval runs between dates: leave out the time of day");
  CHECK(refusal("2004/2005-01-01T10:00:00Z") == "an interval runs between dates: leave out the time of day");
  CHECK(refusal("2004/2005/2006") == "an interval has one slash, between its start and its end");
  CHECK(refusal("..2004-06-01/2004-06-20") == "`..` at an end of an interval stands alone, such as 1979/..");
  CHECK(refusal("2004-06-01/2004-06-20..") == "`..` at an end of an interval stands alone, such as 1979/..");
}

TEST_CASE("a set reaches from its earliest to its latest member") {
  const Edtf set = read("[1667,1668,1670..1672]");
  CHECK(set.shape == EdtfShape::one_of);
  CHECK(set.level == 2);
  CHECK(bounds(set.start.first, set.start.last) == "1667-01-01 to 1667-12-31");
  CHECK(bounds(set.end.first, set.end.last) == "1672-01-01 to 1672-12-31");
  CHECK(read("{1960,1961-12}").shape == EdtfShape::all_of);
  CHECK(hull("[1984..1986]") == "1984-01-01 to 1986-12-31");
  CHECK(hull("{1670,1667,1668}") == "1667-01-01 to 1670-12-31"); // in any order
  CHECK(hull("[1979-03..1980]") == "1979-03-01 to 1980-12-31");
  CHECK(hull("[1984]") == "1984-01-01 to 1984-12-31");
}

TEST_CASE("two dots at the beginning or the end of a set leave it open") {
  const Edtf before = read("[..1760-12-03]");
  CHECK(before.start_kind == EndKind::open);
  CHECK(before.end_kind == EndKind::dated);
  CHECK(bounds(before.start.first, before.start.last) == "... to 1760-12-03");
  CHECK(bounds(before.end.first, before.end.last) == "1760-12-03 to 1760-12-03");
  const Edtf after = read("{1760-01,1760-12..}");
  CHECK(after.start_kind == EndKind::dated);
  CHECK(after.end_kind == EndKind::open);
  CHECK(bounds(after.start.first, after.start.last) == "1760-01-01 to 1760-01-31");
  CHECK(bounds(after.end.first, after.end.last) == "1760-12-01 to ...");
  CHECK(hull("[..1979,1981..]") == "... to ...");
}

TEST_CASE("a doubt about any member of a set is a doubt about both its ends") {
  const Edtf set = read("[1979-12,1980~]");
  CHECK(set.start.approximate);
  CHECK(set.end.approximate);
  CHECK(set.start.precision == Precision::year); // so that widening covers whatever 1980~ can mean
  CHECK(set.end.precision == Precision::year);
  CHECK_FALSE(set.start.uncertain);
  CHECK(read("{1960?,1961-12}").end.uncertain);
  CHECK(read("[1979-12,1980]").start.precision == Precision::month);
}

TEST_CASE("a malformed set is refused") {
  CHECK(refusal("[]") == "a set needs a member, such as [1979,1981]");
  CHECK(refusal("[1999}") == "`}` where a comma or the closing `]` is due");
  CHECK(refusal("{1999]") == "`]` where a comma or the closing `}` is due");
  CHECK(refusal("[1999") == "the end where a comma or the closing `]` is due");
  CHECK(refusal("[1999,]") == "`]` where a year of four digits is due, such as 1979");
  CHECK(refusal("[..]") == "`]` where a year of four digits is due, such as 1979");
  CHECK(refusal("[1984]~") == "a set takes no qualifier: put it behind the dates inside");
  CHECK(refusal("[1984]5") == "`5` behind the end of the set");
  CHECK(refusal("[1980..,1990]") == "`..` without a date behind it belongs at the end of a set");
  CHECK(refusal("[1979,..1980]") == "`..` without a date before it belongs at the beginning of a set");
  CHECK(refusal("{1672..1670}") == "`1672..1670` runs backwards: the earlier date goes first");
  CHECK(refusal("[1979/1980]") ==
        "a set holds no intervals; a range in it is written with two dots, such as 1979..1981");
  CHECK(refusal("[1979.1980]") == "a range in a set is written with two dots between two dates, such as 1979..1981");
  CHECK(refusal("[1979-06-30T10:00:00]") == "a set holds dates: leave out the time of day");
}
