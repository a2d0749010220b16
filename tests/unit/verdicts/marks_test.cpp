// When can something with these marks have been made, and which runs do they rule out?
#include <catch2/catch.hpp>

#include "in_memory_kb.hpp"
#include "verdicts/marks.hpp"

using namespace coeval;
using in_memory::Kb;

namespace {

const std::string list = "[[source]]\nid = \"log\"\ntitle = \"L\"\nkind = \"book\"\n";

std::string mark(const std::string& id, const std::string& keys, const std::string& basis = "documented") {
  return "[[mark]]\nid = \"" + id + "\"\nname = \"M\"\n" + keys + "basis = \"" + basis + "\"\nsource = [\"log\"]\n";
}

const std::string numbers =
    "[[mark.number]]\nfrom = 100\non = \"1975\"\n[[mark.number]]\nfrom = 200\non = \"1976-05\"\n"
    "basis = \"reported\"\nsource = [\"log\"]\n";

const std::string marks = list + mark("early", "used = \"1970-01-01/1979-12-31\"\nend-binds = true\n") +
                          mark("soft", "used = \"1970-01-01/1979-12-31\"\n") +
                          mark("late", "used = { start = \"[1988-05-03..1990-01-01]\" }\n", "observed") +
                          mark("copyright", "reading = \"year\"\n") + mark("patent", "reading = \"number\"\n") +
                          numbers + mark("undated", "");

std::string day(const std::optional<Day>& bound) { return bound ? iso(*bound) : "?"; }

struct Asked {
  Kb kb{marks};
  [[nodiscard]] CarriedMark carried(const std::string& id, std::optional<std::int64_t> reading = {}) const {
    return {MarkIndex{kb.kb.position[at(kb.entry("mark/" + id))]}, reading, {}};
  }
  [[nodiscard]] Dating dated(const std::vector<CarriedMark>& list_of_marks, Basis weakest = Basis::conjectured) const {
    return date_by_marks(kb.kb, kb.dates, list_of_marks, weakest);
  }
  // "earliest..latest" on a basis
  [[nodiscard]] static std::string bounds(const Dating& dating, Basis basis) {
    const DayBounds& on = dating.by_basis[static_cast<std::size_t>(basis)];
    return day(on.earliest) + ".." + day(on.latest);
  }
};

} // namespace

TEST_CASE("the latest first day and the earliest last day that binds decide") {
  const Asked asked;
  REQUIRE(asked.kb.troubles() == "");
  const Dating dating = asked.dated(
      {asked.carried("undated"), asked.carried("copyright", 1977), asked.carried("early"), asked.carried("soft")});
  CHECK(Asked::bounds(dating, Basis::documented) == "1977-01-01..1979-12-31");
  CHECK(dating.earliest == std::size_t{1});
  CHECK(dating.latest == std::size_t{2});
  CHECK(dating.clashes.empty());
  CHECK_FALSE(dating.marks[0].earliest.day);
  CHECK_FALSE(dating.marks[3].latest.day); // its end does not bind
  CHECK(day(dating.marks[3].last_use) == "1979-12-31");
  REQUIRE(dating.marks[2].latest.proof.size() == 2);
  CHECK(dating.marks[2].latest.proof[1].statement == "nothing carries mark/early from after its last day");
}

TEST_CASE("only what is known on the basis asked for counts") {
  const Asked asked;
  const std::vector<CarriedMark> both{asked.carried("late"), asked.carried("patent", 250)};
  CHECK(Asked::bounds(asked.dated(both), Basis::documented) == "?..?");
  CHECK(Asked::bounds(asked.dated(both), Basis::observed) == "1988-05-03..?");
  const Dating weak = asked.dated({asked.carried("patent", 250)}, Basis::observed);
  CHECK_FALSE(weak.earliest);
  CHECK(day(weak.marks[0].read_first) == "1976-05-01"); // told, though it does not count
  CHECK(Asked::bounds(asked.dated({asked.carried("patent", 150)}), Basis::documented) == "1975-01-01..?");
}

TEST_CASE("a number below the first row dates nothing, and says so") {
  const Asked asked;
  const Dating dating = asked.dated({asked.carried("patent", 99)});
  CHECK(dating.marks[0].below_first_number);
  CHECK_FALSE(dating.earliest);
  CHECK_FALSE(asked.dated({asked.carried("patent", 100)}).marks[0].below_first_number);
}

TEST_CASE("two marks contradict each other where the end of the one binds and the other came up after it") {
  const Asked asked;
  const Dating by_days = asked.dated({asked.carried("late"), asked.carried("early")});
  REQUIRE(by_days.clashes.size() == 1);
  CHECK(by_days.clashes[0].early == 1);
  CHECK(by_days.clashes[0].late == 0);
  CHECK(by_days.clashes[0].basis == Basis::observed);
  CHECK(by_days.clashes[0].gap == day_number({1988, 5, 3}) - day_number({1979, 12, 31}));
  CHECK(asked.dated({asked.carried("late"), asked.carried("early")}, Basis::documented).clashes.empty());
  CHECK(asked.dated({asked.carried("late"), asked.carried("soft")}).clashes.empty());
  const Dating by_reading = asked.dated({asked.carried("early"), asked.carried("copyright", 1980)});
  REQUIRE(by_reading.clashes.size() == 1);
  CHECK(by_reading.clashes[0].gap == 1);
  CHECK(by_reading.clashes[0].basis == Basis::documented);
  CHECK(asked.dated({asked.carried("early"), asked.carried("copyright", 1979)}).clashes.empty());
}

TEST_CASE("that an end binds is no stronger than the mark's own entry") {
  const Kb kb{list + mark("roundel", "end-binds = true\n", "observed") +
              "[[mark.timing]]\nthis = \"end\"\non = \"1979-12-31\"\nbasis = \"documented\"\nsource = [\"log\"]\n"};
  REQUIRE(kb.troubles() == "");
  const std::vector<CarriedMark> one{{MarkIndex{0}, {}, {}}};
  const Dating dating = date_by_marks(kb.kb, kb.dates, one, Basis::conjectured);
  CHECK(day(dating.by_basis[0].latest) == "?");
  CHECK(day(dating.by_basis[1].latest) == "1979-12-31");
  CHECK(dating.marks[0].latest.basis == Basis::observed);
  CHECK_FALSE(date_by_marks(kb.kb, kb.dates, one, Basis::documented).latest);
}

TEST_CASE("an order without dates is enough for a contradiction") {
  const Kb kb{list + mark("old", "end-binds = true\n") + mark("new", "") +
              "[[mark.timing]]\nthis = \"start\"\nafter = \"mark/old.end\"\nat-least = \"P10D\"\n"
              "basis = \"reported\"\nsource = [\"log\"]\n"};
  REQUIRE(kb.troubles() == "");
  const Dating dating = date_by_marks(
      kb.kb, kb.dates, std::vector<CarriedMark>{{MarkIndex{0}, {}, {}}, {MarkIndex{1}, {}, {}}}, Basis::conjectured);
  REQUIRE(dating.clashes.size() == 1);
  CHECK(dating.clashes[0].gap == 10);
  CHECK(dating.clashes[0].basis == Basis::reported);
}

TEST_CASE("a run is ruled out by a mark that came up after it had ended, or had gone before it began") {
  const Kb kb{
      {SourceFile{"a.toml", "[accessory]\nid = \"lantern\"\nname = \"L\"\nslot = \"hand\"\n[[mould]]\nid = \"ring\"\n"
                            "basis = \"documented\"\nsource = [\"log\"]\n"
                            "[[mould.run]]\nid = \"brass\"\nmade = \"1980-05-01/1981-12-31\"\n"
                            "[[mould.run]]\nid = \"grey\"\n"},
       SourceFile{"b.toml", marks}}};
  REQUIRE(kb.troubles() == "");
  const auto carried = [&](const std::string& id, std::optional<std::int64_t> reading = {}) {
    return CarriedMark{MarkIndex{kb.kb.position[at(kb.entry("mark/" + id))]}, reading, {}};
  };
  const auto ruling = [&](const std::string& run, const CarriedMark& mark_of_it, Basis weakest = Basis::conjectured) {
    return RunsByMarks{kb.kb, kb.dates, std::span{&mark_of_it, 1}, weakest}.rule_out(kb.run(run), true);
  };
  const auto late = ruling("lantern/ring/brass", carried("late"));
  REQUIRE(late);
  CHECK(late->too_early);
  CHECK(late->basis == Basis::observed);
  CHECK(late->gap == day_number({1988, 5, 3}) - day_number({1981, 12, 31}));
  CHECK(ruling_words(kb.kb, *late) == "made at least 6 years and 4 months before mark/late");
  REQUIRE(late->proof.size() == 2);
  CHECK(late->proof[0].statement.find("1988-05-03") != std::string::npos);
  CHECK_FALSE(ruling("lantern/ring/brass", carried("late"), Basis::documented));
  CHECK_FALSE(ruling("lantern/ring/brass", carried("soft")));
  const auto early = ruling("lantern/ring/brass", carried("early"));
  REQUIRE(early);
  CHECK_FALSE(early->too_early);
  CHECK(ruling_words(kb.kb, *early) == "made at least 3 months after mark/early had ended");
  CHECK_FALSE(ruling("lantern/ring/brass", carried("copyright", 1981)));
  const auto year = ruling("lantern/ring/brass", carried("copyright", 1982));
  REQUIRE(year);
  CHECK(year->gap == 1);
  CHECK(ruling_words(kb.kb, *year) == "made at least 1 day before mark/copyright=1982");
  for (const std::string id : {"late", "early", "soft", "undated"})
    CHECK_FALSE(ruling("lantern/ring/grey", carried(id)));
}
