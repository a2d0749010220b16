// Which differences between days does each kind of statement state, and in which words is it told?
#include <catch2/catch.hpp>

#include "stating.hpp"

using namespace coeval;
using in_memory::Kb;
using stating::Lines;
using stating::period;
using stating::stated;

namespace {

const std::string two_moulds = "[accessory]\nid = \"lantern\"\nname = \"Lantern\"\nslot = \"hand\"\n"
                               "[[mould]]\nid = \"ring\"\n[[mould]]\nid = \"plain\"\n";

Lines timing(const std::string& keys) {
  const Kb kb{period("a") + period("b") + "[[period.timing]]\n" + keys};
  REQUIRE(kb.troubles() == "");
  CHECK(stating::statements(kb) == 1);
  return stated(kb);
}

// The constraints of a relation of b to a, as the orders of ends that OWL-Time defines it by.
Lines relation(const std::string& name) {
  Lines lines = timing("relation = \"" + name + "\"\nspan = \"period/a\"\n");
  for (std::string& line : lines) {
    line = line.substr(0, line.find(", "));
    for (std::size_t at = line.find("period/"); at != std::string::npos; at = line.find("period/")) line.erase(at, 7);
  }
  return lines;
}

} // namespace

TEST_CASE("dates bound both ends of a span in one statement") {
  const Kb kb{period("a", "dates = \"1976-08/1979\"\n")};
  CHECK(stating::statements(kb) == 1);
  CHECK(stated(kb) == Lines{"period/a.start >= 1976-08-01, conjectured: period/a began on 1976-08-01 or later",
                            "period/a.start <= 1976-08-31, conjectured: period/a began on 1976-08-31 or earlier",
                            "period/a.end >= 1979-01-01, conjectured: period/a ended on 1979-01-01 or later",
                            "period/a.end <= 1979-12-31, conjectured: period/a ended on 1979-12-31 or earlier"});
}

TEST_CASE("an end that is not known is not bounded") {
  const Kb kb{period("a", "dates = { end = \"[..1981-07]\" }\n") + period("b")};
  CHECK(stated(kb) == Lines{"period/a.end <= 1981-07-31, conjectured: period/a ended on 1981-07-31 or earlier"});
}

TEST_CASE("an uncertain date makes what it says reported at best, the other end keeps its basis") {
  const std::string dates = "dates = \"1976?/1979\"\n";
  const Kb documented{period("a", dates + "basis = \"documented\"\n")};
  CHECK(stated(documented) == Lines{"period/a.start >= 1976-01-01, reported: period/a began on 1976-01-01 or later",
                                    "period/a.start <= 1976-12-31, reported: period/a began on 1976-12-31 or earlier",
                                    "period/a.end >= 1979-01-01, documented: period/a ended on 1979-01-01 or later",
                                    "period/a.end <= 1979-12-31, documented: period/a ended on 1979-12-31 or earlier"});
  const Kb conjectured{period("a", "dates = \"1976?\"\n")};
  for (const Constraint& c : conjectured.dates.graph().constraints())
    if (c.statement != by_definition) CHECK(c.level == 3); // never stronger than it was
}

TEST_CASE("an approximate date is widened by the allowance for its precision") {
  const auto one_day_of = [](const std::string& date, const std::string& allowance = "") {
    const Kb kb{"[line]\nid = \"patrol\"\nname = \"Patrol\"\n[line.allowance]\n" + allowance +
                period("a", "dates = { start = \"" + date + "\" }\n")};
    REQUIRE(kb.troubles() == "");
    const DayBounds start = kb.dates.bounds(start_of(kb.span("period/a")), Basis::conjectured);
    return stating::day(start.earliest) + ".." + stating::day(start.latest);
  };
  CHECK(one_day_of("1979-06-30") == "1979-06-30..1979-06-30");
  CHECK(one_day_of("1979-06-30~") == "1979-06-23..1979-07-07"); // 7 days
  CHECK(one_day_of("1979-06~") == "1979-05-01..1979-07-31");    // a month: 31 days
  CHECK(one_day_of("1979-33~") == "1978-10-01..1979-07-01");    // first quarter; 3 months: 92 days
  CHECK(one_day_of("1979~") == "1977-12-31..1980-12-31");       // a year: 366 days
  CHECK(one_day_of("197X~") == "1960-01-01..1989-12-31");       // ten years: 3653 days
  CHECK(one_day_of("1979%") == one_day_of("1979~"));
  CHECK(one_day_of("1979?") == "1979-01-01..1979-12-31"); // uncertain is not approximate
  // The line's own policy, at its most days.
  CHECK(one_day_of("1979-06-30~", "day = \"P2D\"\n") == "1979-06-28..1979-07-02");
  CHECK(one_day_of("1979-06~", "month = \"P2M\"\n") == "1979-03-31..1979-08-31"); // 62 days
  CHECK(one_day_of("1979-33~", "season = \"P10D\"\n") == "1978-12-22..1979-04-10");
  CHECK(one_day_of("1979~", "year = \"P6M\"\n") == "1978-07-01..1980-07-02"); // 184 days
  CHECK(one_day_of("197X~", "decade = \"P1Y\"\n") == "1968-12-31..1980-12-31");
  CHECK(one_day_of("1979~", "month = \"P9M\"\n") == one_day_of("1979~")); // another precision's allowance
}

TEST_CASE("an approximate end may lie before the start as written") {
  const Kb kb{period("a", "dates = { start = \"1979-06\", end = \"1979-05~\" }\n")};
  CHECK(kb.troubles() == "");
  CHECK(kb.dates.contradictions().empty());
  CHECK(stating::bounds(kb, "period/a") == "1979-06-01..1979-06-30 / 1979-06-01..1979-07-01");
}

TEST_CASE("a timing dates one end") {
  CHECK(timing("this = \"start\"\non = \"[1979-03,1980-02]\"\n") ==
        Lines{"period/b.start >= 1979-03-01, conjectured: period/b began on 1979-03-01 or later",
              "period/b.start <= 1980-02-29, conjectured: period/b began on 1980-02-29 or earlier"});
  CHECK(timing("this = \"end\"\non = \"[1981-01-31..]\"\n") ==
        Lines{"period/b.end >= 1981-01-31, conjectured: period/b ended on 1981-01-31 or later"});
}

TEST_CASE("a plain order of two ends means a day or more") {
  CHECK(timing("this = \"start\"\nafter = \"period/a.end\"\n") ==
        Lines{"period/a.end - period/b.start <= -1, conjectured: period/b began after period/a ended"});
  CHECK(timing("this = \"end\"\nbefore = \"period/a.start\"\n") ==
        Lines{"period/b.end - period/a.start <= -1, conjectured: period/b ended before period/a began"});
  CHECK(timing("this = \"start\"\nsame-day-as = \"period/a.end\"\n") ==
        Lines{"period/b.start - period/a.end <= 0, conjectured: period/b began on the day that period/a ended",
              "period/a.end - period/b.start <= 0, conjectured: period/b began on the day that period/a ended"});
}

TEST_CASE("a gap takes the fewest days at least and the most days at most") {
  const std::string after = "this = \"start\"\nafter = \"period/a.end\"\n";
  // Six months have 181 days from 1 February of a common year, 184 from 1 March.
  CHECK(timing(after + "at-least = \"P6M\"\n") ==
        Lines{"period/a.end - period/b.start <= -181, conjectured: period/b began at least 6 months after period/a "
              "ended"});
  CHECK(timing(after + "at-least = \"P1M\"\nat-most = \"P1Y\"\n") ==
        Lines{"period/a.end - period/b.start <= -28, conjectured: period/b began at least 1 month and at most 1 year "
              "after period/a ended",
              "period/b.start - period/a.end <= 366, conjectured: period/b began at least 1 month and at most 1 year "
              "after period/a ended"});
  CHECK(timing(after + "at-most = \"P1M\"\n") ==
        Lines{"period/a.end - period/b.start <= -1, conjectured: period/b began at most 1 month after period/a ended",
              "period/b.start - period/a.end <= 31, conjectured: period/b began at most 1 month after period/a ended"});
  CHECK(timing("this = \"end\"\nbefore = \"period/a.start\"\nat-least = \"P2W\"\nat-most = \"P20D\"\n") ==
        Lines{"period/b.end - period/a.start <= -14, conjectured: period/b ended at least 14 days and at most 20 days "
              "before period/a began",
              "period/a.start - period/b.end <= 20, conjectured: period/b ended at least 14 days and at most 20 days "
              "before period/a began"});
  CHECK(timing(after + "at-least = \"P0D\"\n").at(0).starts_with("period/a.end - period/b.start <= 0,"));
}

TEST_CASE("the thirteen interval relations order the ends as OWL-Time defines them") {
  // W3C, https://www.w3.org/TR/owl-time/#time:TemporalEntity and the definitions of its interval relations; an instant
  // is a day, "before" is a day or more.
  CHECK(relation("before") == Lines{"b.end - a.start <= -1"});
  CHECK(relation("after") == Lines{"a.end - b.start <= -1"});
  CHECK(relation("meets") == Lines{"b.end - a.start <= 0", "a.start - b.end <= 0"});
  CHECK(relation("met-by") == Lines{"b.start - a.end <= 0", "a.end - b.start <= 0"});
  CHECK(relation("overlaps") == Lines{"b.start - a.start <= -1", "a.start - b.end <= -1", "b.end - a.end <= -1"});
  CHECK(relation("overlapped-by") == Lines{"a.start - b.start <= -1", "b.start - a.end <= -1", "a.end - b.end <= -1"});
  CHECK(relation("starts") == Lines{"b.start - a.start <= 0", "a.start - b.start <= 0", "b.end - a.end <= -1"});
  CHECK(relation("started-by") == Lines{"b.start - a.start <= 0", "a.start - b.start <= 0", "a.end - b.end <= -1"});
  CHECK(relation("during") == Lines{"a.start - b.start <= -1", "b.end - a.end <= -1"});
  CHECK(relation("contains") == Lines{"b.start - a.start <= -1", "a.end - b.end <= -1"});
  CHECK(relation("finishes") == Lines{"a.start - b.start <= -1", "b.end - a.end <= 0", "a.end - b.end <= 0"});
  CHECK(relation("finished-by") == Lines{"b.start - a.start <= -1", "b.end - a.end <= 0", "a.end - b.end <= 0"});
  CHECK(relation("equals") ==
        Lines{"b.start - a.start <= 0", "a.start - b.start <= 0", "b.end - a.end <= 0", "a.end - b.end <= 0"});
}

TEST_CASE("every relation has words of its own") {
  Lines words;
  for (const std::string_view name : spec_of(Kind::timing).find("relation")->choices) {
    const Lines lines = timing("relation = \"" + std::string{name} + "\"\nspan = \"period/a\"\n");
    const std::string sentence = lines.at(0).substr(lines.at(0).find(": ") + 2);
    CHECK(sentence.starts_with("period/b "));
    CHECK(sentence.ends_with(" period/a"));
    words.push_back(sentence);
  }
  REQUIRE(words.size() == 13);
  std::ranges::sort(words);
  CHECK(std::ranges::adjacent_find(words) == words.end());
}

TEST_CASE("what lies within another span starts and ends inside it") {
  const Kb kb{period("a") + period("b", "within = [\"period/a\"]\n")};
  CHECK(stated(kb) == Lines{"period/a.start - period/b.start <= 0, conjectured: period/b lies within period/a",
                            "period/b.end - period/a.end <= 0, conjectured: period/b lies within period/a"});
}

TEST_CASE("a run lies within its mould's use, by definition") {
  const Kb kb{two_moulds + "[[mould.run]]\nid = \"grey\"\n"};
  CHECK(stated(kb).empty());
  const Lines lines = stated(kb, true);
  const std::string words = ": lantern/plain/grey was made while its mould was in the press";
  CHECK(std::ranges::count(lines, "lantern/plain.start - lantern/plain/grey.start <= 0" + words) == 1);
  CHECK(std::ranges::count(lines, "lantern/plain/grey.end - lantern/plain.end <= 0" + words) == 1);
}

TEST_CASE("what replaces something starts after it and ends no earlier") {
  const Kb kb{two_moulds + "replaces = \"ring\"\n"};
  CHECK(stating::statements(kb) == 1);
  const Lines lines = stated(kb);
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].starts_with("lantern/ring.start - lantern/plain.start <= -1, conjectured: lantern/plain "));
  CHECK(lines[1].starts_with("lantern/ring.end - lantern/plain.end <= 0, conjectured: lantern/plain "));
}

TEST_CASE("what cleanly replaces something starts after its end") {
  const Kb kb{two_moulds + "replaces = \"ring\"\nclean = true\n"};
  CHECK(stating::statements(kb) == 1);
  const Lines lines = stated(kb);
  REQUIRE(lines.size() == 3);
  CHECK(lines[2] ==
        "lantern/ring.end - lantern/plain.start <= -1, conjectured: lantern/plain began after lantern/ring had ended");
}

TEST_CASE("a reissue starts after what it puts out again") {
  const Kb kb{"[figure]\nid = \"maren\"\nname = \"Maren\"\n[[issue]]\nid = \"first\"\n"
              "[[issue]]\nid = \"again\"\nreissue-of = \"first\"\n"};
  CHECK(stated(kb) ==
        Lines{"maren/first.start - maren/again.start <= -1, conjectured: maren/again put out maren/first again"});
}

TEST_CASE("nothing carries a mark from before its first day, nor after its last where that binds") {
  const auto marked = [](const std::string& mark_keys) {
    const Kb kb{two_moulds + "marks = [\"roundel\"]\nbasis = \"observed\"\n[[mark]]\nid = \"roundel\"\nname = \"R\"\n" +
                mark_keys};
    return stated(kb);
  };
  CHECK(marked("") == Lines{"mark/roundel.start - lantern/plain.start <= 0, observed: lantern/plain carries "
                            "mark/roundel, so it is no older than the mark"});
  // That the end binds is the mark's statement: where it is the weaker one, its basis counts.
  const Lines bound = marked("end-binds = true\n");
  REQUIRE(bound.size() == 2);
  CHECK(bound[1].starts_with("lantern/plain.end - mark/roundel.end <= 0, conjectured: lantern/plain carries "));
  CHECK(marked("end-binds = true\nbasis = \"documented\"\n")
            .at(1)
            .starts_with("lantern/plain.end - mark/roundel.end <= 0, observed: "));
}
