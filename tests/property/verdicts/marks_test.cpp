// Do the answers about marks agree with trying every day on which something can have been made?
#include <catch2/catch.hpp>

#include <set>

#include "chronology/readings.hpp"
#include "small_world.hpp"
#include "verdicts/marks.hpp"

using namespace coeval;
using small_world::Dice;

namespace {

constexpr int last_day = 30; // days 0 .. 30
constexpr Day day_zero = 3000;

std::string written(int day) { return iso(day_zero + day); }

struct Row {
  int from = 0, on = 0;
};

// Whatever a table says, written out: nothing was made before the last row at or below the number.
std::optional<int> first_by_hand(const std::vector<Row>& rows, int number) {
  std::optional<int> first;
  for (const Row& row : rows)
    if (row.from <= number) first = row.on;
  return first;
}
std::optional<int> last_by_hand(const std::vector<Row>& rows, int number) {
  for (const Row& row : rows)
    if (row.from > number) return row.on;
  return {};
}

// Numbers and days that rise, in any order in the file.
std::vector<Row> random_rows(Dice& dice) {
  std::set<int> numbers;
  for (int i = dice.between(1, 8); i > 0; --i) numbers.insert(dice.between(1, 40));
  std::vector<Row> rows;
  int on = 0;
  for (const int number : numbers) rows.push_back({number, on = std::min(last_day, on + dice.below(6))});
  return rows;
}

std::string text_of(const std::vector<Row>& rows, Dice& dice) {
  std::vector<std::string> tables;
  for (const Row& row : rows)
    tables.push_back("[[mark.number]]\nfrom = " + std::to_string(row.from) + "\non = \"" + written(row.on) + "\"\n");
  std::string text;
  while (!tables.empty()) {
    const auto pick = tables.begin() + dice.below(static_cast<int>(tables.size()));
    text += *pick;
    tables.erase(pick);
  }
  return text;
}

// One mark, and on which days something that carries it can have been made.
struct Tried {
  CarriedMark mark;
  std::optional<int> first, last; // last where it binds
  [[nodiscard]] bool allows(int day) const { return (!first || day >= *first) && (!last || day <= *last); }
};

std::optional<Day> shown(std::optional<int> day) { return day ? std::optional{day_zero + *day} : std::nullopt; }

} // namespace

TEST_CASE("every number of every random table has the days that reading the table line by line gives") {
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    INFO("seed " << seed);
    Dice dice{seed};
    const std::vector<Row> rows = random_rows(dice);
    const in_memory::Kb kb{"[[mark]]\nid = \"m\"\nname = \"M\"\nreading = \"number\"\n" + text_of(rows, dice)};
    REQUIRE(kb.troubles() == "");
    for (int number = 1; number <= 42; ++number) {
      INFO("number " << number);
      const ReadingDays days = days_of_reading(kb.kb, MarkIndex{0}, number);
      CHECK(days.first == shown(first_by_hand(rows, number)));
      CHECK(days.last == shown(last_by_hand(rows, number)));
    }
  }
}

TEST_CASE("marks together, and the runs that they rule out, are as trying every day has them") {
  std::size_t clashes = 0, ruled_out = 0, left = 0;
  for (std::uint64_t seed = 1; seed <= 400; ++seed) {
    INFO("seed " << seed);
    Dice dice{seed};
    std::string text;
    std::vector<Tried> tried;
    const int count = dice.between(1, 4);
    for (int i = 0; i < count; ++i) {
      Tried one;
      const int first = dice.below(last_day);
      const int last = dice.between(first, last_day);
      const bool dated = !dice.one_in(4);
      const bool binds = dice.one_in(2);
      text += "[[mark]]\nid = \"m" + std::to_string(i) + "\"\nname = \"M\"\n";
      if (dated) text += "used = \"" + written(first) + "/" + written(last) + "\"\n";
      if (binds) text += "end-binds = true\n";
      if (dated) one.first = first;
      if (dated && binds) one.last = last;
      one.mark.mark = MarkIndex{static_cast<std::uint32_t>(i)};
      if (dice.one_in(2)) {
        const std::vector<Row> rows = random_rows(dice);
        text += "reading = \"number\"\n" + text_of(rows, dice);
        const int number = dice.between(1, 42);
        one.mark.reading = number;
        if (const auto read = first_by_hand(rows, number)) one.first = std::max(one.first.value_or(0), *read);
      }
      tried.push_back(one);
    }
    std::string part = "[accessory]\nid = \"a\"\nname = \"A\"\nslot = \"hand\"\n[[mould]]\nid = \"m\"\n";
    std::vector<std::pair<int, int>> runs;
    for (int i = 0; i < 3; ++i) {
      const int start = dice.below(last_day);
      runs.emplace_back(start, dice.between(start, last_day));
      part += "[[mould.run]]\nid = \"r" + std::to_string(i) + "\"\nmade = \"" + written(runs.back().first) + "/" +
              written(runs.back().second) + "\"\n";
    }
    const in_memory::Kb kb{{SourceFile{"a.toml", part}, SourceFile{"b.toml", text}}};
    REQUIRE(kb.troubles() == "");
    REQUIRE(kb.dates.contradictions().empty());
    std::vector<CarriedMark> marks;
    for (const Tried& one : tried) marks.push_back(one.mark);

    std::vector<int> possible;
    for (int day = -1; day <= last_day + 1; ++day)
      if (std::ranges::all_of(tried, [&](const Tried& one) { return one.allows(day); })) possible.push_back(day);
    const Dating dating = date_by_marks(kb.kb, kb.dates, marks, Basis::conjectured);
    CHECK(dating.clashes.empty() == !possible.empty());
    clashes += dating.clashes.size();
    if (!possible.empty()) {
      const DayBounds& bounds = dating.by_basis.back();
      CHECK(bounds.earliest == (possible.front() < 0 ? std::nullopt : shown(possible.front())));
      CHECK(bounds.latest == (possible.back() > last_day ? std::nullopt : shown(possible.back())));
    }
    const RunsByMarks by_marks{kb.kb, kb.dates, marks, Basis::conjectured};
    for (std::uint32_t run = 0; run < runs.size(); ++run) {
      const bool out = std::ranges::any_of(tried, [&](const Tried& one) {
        for (int day = runs[run].first; day <= runs[run].second; ++day)
          if (one.allows(day)) return false;
        return true;
      });
      CHECK(by_marks.rule_out(RunIndex{run}, false).has_value() == out);
      ++(out ? ruled_out : left);
    }
  }
  // Otherwise the worlds would be too alike to say anything.
  CHECK(clashes > 50);
  CHECK(ruled_out > 100);
  CHECK(left > 100);
}
