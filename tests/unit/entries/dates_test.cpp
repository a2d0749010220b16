// Between which days does a span of time start and end, as it was written?
#include <catch2/catch.hpp>

#include "calendar/day.hpp"
#include "reading.hpp"

using namespace coeval;

namespace {

std::string day(const std::optional<Day>& bound) { return bound ? iso(*bound) : "?"; }

// "earliest start..latest start / earliest end..latest end", a bound that is not known as "?".
std::string span_of(const std::string& value) {
  const reading::Read result = reading::read("[[period]]\nid = \"p\"\nname = \"P\"\ndates = " + value + "\n");
  INFO(result.troubles());
  REQUIRE(result.diagnostics.empty());
  const auto* dates = result.first(Kind::period).get<WrittenDates>("dates");
  REQUIRE(dates != nullptr);
  return day(dates->start.bounds.first) + ".." + day(dates->start.bounds.last) + " / " + day(dates->end.bounds.first) +
         ".." + day(dates->end.bounds.last);
}

const WrittenDates dates_of(const std::string& value) {
  const reading::Read result = reading::read("[[period]]\nid = \"p\"\nname = \"P\"\ndates = " + value + "\n");
  REQUIRE(result.diagnostics.empty());
  return *result.first(Kind::period).get<WrittenDates>("dates");
}

} // namespace

TEST_CASE("an interval starts on some day of one date and ends on some day of the other") {
  CHECK(span_of("\"1976-08/1979\"") == "1976-08-01..1976-08-31 / 1979-01-01..1979-12-31");
  CHECK(span_of("\"1976-08-05/1979-06-30\"") == "1976-08-05..1976-08-05 / 1979-06-30..1979-06-30");
}

TEST_CASE("an end that is open or unknown is not bounded") {
  CHECK(span_of("\"1976/..\"") == "1976-01-01..1976-12-31 / ?..?");
  CHECK(span_of("\"1976/\"") == "1976-01-01..1976-12-31 / ?..?");
  CHECK(span_of("\"../1979\"") == "?..? / 1979-01-01..1979-12-31");
  CHECK(span_of("\"/1979\"") == "?..? / 1979-01-01..1979-12-31");
  CHECK(span_of("{ end = \"1979\" }") == "?..? / 1979-01-01..1979-12-31");
  CHECK(span_of("{ start = \"1979\" }") == "1979-01-01..1979-12-31 / ?..?");
}

TEST_CASE("a single date holds the whole span") {
  CHECK(span_of("\"1979\"") == "1979-01-01..1979-12-31 / 1979-01-01..1979-12-31");
  CHECK(span_of("\"197X\"") == "1970-01-01..1979-12-31 / 1970-01-01..1979-12-31");
}

TEST_CASE("one of several dates holds the whole span") {
  CHECK(span_of("\"[1979-03..1980]\"") == "1979-03-01..1980-12-31 / 1979-03-01..1980-12-31");
  CHECK(span_of("\"[1979-03,1981-02]\"") == "1979-03-01..1981-02-28 / 1979-03-01..1981-02-28");
  CHECK(span_of("\"[..1979-06]\"") == "?..1979-06-30 / ?..1979-06-30");
}

TEST_CASE("a span of all of several dates reaches from the earliest to the latest") {
  CHECK(span_of("\"{1979-03,1980}\"") == "1979-03-01..1979-03-31 / 1980-01-01..1980-12-31");
  CHECK(span_of("\"{1980,1979-03}\"") == "1979-03-01..1979-03-31 / 1980-01-01..1980-12-31");
  CHECK(span_of("\"{1979-03..1980-02}\"") == "1979-03-01..1979-03-31 / 1980-02-01..1980-02-29");
}

TEST_CASE("the two ends may each be one of several dates") {
  CHECK(span_of("{ start = \"[1976-03..1977]\", end = \"1979\" }") ==
        "1976-03-01..1977-12-31 / 1979-01-01..1979-12-31");
  CHECK(span_of("{ start = \"[..1981-07]\", end = \"[1982-05..]\" }") == "?..1981-07-31 / 1982-05-01..?");
}

TEST_CASE("what is approximate or uncertain is kept for each end") {
  const WrittenDates dates = dates_of("\"1976?/1979-06~\"");
  CHECK(dates.start.bounds.uncertain);
  CHECK_FALSE(dates.start.bounds.approximate);
  CHECK(dates.end.bounds.approximate);
  CHECK_FALSE(dates.end.bounds.uncertain);
  CHECK(dates.end.bounds.precision == Precision::month);
  // In a set the doubt about one member is a doubt about the whole.
  CHECK(dates_of("{ start = \"[1976,1977~]\" }").start.bounds.approximate);
  CHECK(dates_of("{ start = \"[1976~,1977]\" }").start.bounds.approximate);
}

TEST_CASE("ends are exchanged only where nothing about them is approximate") {
  const auto codes = [](const std::string& value) {
    return reading::read("[[period]]\nid = \"p\"\nname = \"P\"\ndates = " + value + "\n").codes();
  };
  CHECK(codes("{ start = \"1979\", end = \"1978\" }") == std::vector<std::string>{"impossible-interval"});
  // About 1979 may have been 1978: how far an approximate date reaches is for the chronology to say.
  CHECK(codes("{ start = \"1979~\", end = \"1978\" }").empty());
  CHECK(codes("{ start = \"1979\", end = \"1978~\" }").empty());
  CHECK(codes("{ start = \"1979-06\", end = \"1979\" }").empty());
}
