// Do the answers about time agree with trying every placement of every span on the days that its dates allow?
#include <catch2/catch.hpp>

#include <map>

#include "small_world.hpp"
#include "verdicts/judge.hpp"

using namespace coeval;
using small_world::Placement;
using small_world::SmallWorld;

namespace {

// What all placements on one basis say about a run and an issue.
struct Tried {
  int placements = 0;
  int meeting = 0;  // with a day on which the one can have gone into the other
  int too_late = 0; // the run starts after the issue ends
  int touching =
      0; // meeting whatever the policy on stock: the run starts by the issue's end, ends by its start or later
  int least_late = 1000;  // of start(run) - end(issue)
  int least_stale = 1000; // of start(issue) - end(run) - leftover
};

using Table = std::map<std::pair<std::size_t, std::size_t>, std::array<Tried, 4>>;

Table try_all(const SmallWorld& world) {
  Table table;
  for (const std::size_t run : world.runs)
    for (const std::size_t issue : world.issues) table[{run, issue}] = {};
  world.try_all([&](const Placement& at, int failing) {
    for (auto& [pair, tried] : table) {
      const small_world::Days& run = at[pair.first];
      const small_world::Days& issue = at[pair.second];
      const bool meets = SmallWorld::can_meet(run, issue, {});
      const bool meets_in_stock = SmallWorld::can_meet(run, issue, world.leftover);
      for (int basis = 0; basis < failing; ++basis) {
        const bool policy = world.leftover && world.leftover_basis <= basis;
        Tried& it = tried[static_cast<std::size_t>(basis)];
        ++it.placements;
        if (policy ? meets_in_stock : meets) ++it.meeting;
        if (run.start > issue.end) ++it.too_late;
        if (run.start <= issue.end && issue.start <= run.end) ++it.touching;
        it.least_late = std::min(it.least_late, run.start - issue.end);
        it.least_stale = std::min(it.least_stale, issue.start - run.end - world.leftover.value_or(0));
      }
    }
  });
  return table;
}

// The answer that a basis gives, with its gap: "no, anachronistic by 3", "yes", "undecided".
std::string expected(const Tried& tried, bool policy) {
  if (tried.meeting == 0 && tried.too_late == tried.placements)
    return "anachronistic by " + std::to_string(tried.least_late);
  if (tried.meeting == 0) return "stale by " + std::to_string(tried.least_stale);
  // Without a policy nothing says how long parts were kept: surely in time is only what touches.
  if (policy ? tried.meeting == tried.placements : tried.touching == tried.placements) return "yes";
  return "undecided";
}

std::string answered(const Judgement& judgement, std::optional<Day> gap, bool too_late) {
  const Answer answer = judgement.ground(Ground::time).answer;
  if (answer != Answer::no) return std::string{name(answer)};
  return (too_late ? "anachronistic by " : "stale by ") + std::to_string(gap.value());
}

std::string text_of(const SmallWorld& world) {
  std::string text;
  for (const SourceFile& file : world.files()) text += std::string{file.text()} + "\n";
  return text;
}

} // namespace

TEST_CASE("time is answered as trying every day answers it, on every basis") {
  std::map<std::string, int> seen; // a test that never sees an answer says nothing about it
  int contradictory = 0;
  int on_weaker_bases = 0;
  for (std::uint64_t seed = 1; seed <= 3000; ++seed) {
    const SmallWorld world{seed};
    INFO("seed " << seed << "\n" << text_of(world));
    const Table table = try_all(world);
    const in_memory::Kb kb{world.files()};
    REQUIRE(kb.troubles() == "");
    const bool possible = table.begin()->second[3].placements > 0;
    REQUIRE(kb.dates.contradictions().empty() == possible);
    if (!possible) {
      ++contradictory;
      continue;
    }
    for (const Basis weakest : all_bases) {
      Judge judge{kb.kb, kb.dates, weakest};
      const auto level = static_cast<std::size_t>(weakest);
      for (const auto& [pair, tried] : table) {
        const RunIndex run = kb.run(world.spans[pair.first].address);
        const IssueIndex issue = kb.issue(world.spans[pair.second].address);
        const Judgement judgement = judge.judge(run, issue, true);
        const GroundAnswer& ground = judgement.ground(Ground::time);
        // The strongest basis that decides is the one that must answer.
        std::size_t deciding = 0;
        const auto says = [&, &levels = tried](std::size_t basis) {
          return expected(levels[basis], world.leftover && world.leftover_basis <= static_cast<int>(basis));
        };
        while (deciding < level && says(deciding) == "undecided") ++deciding;
        INFO(world.spans[pair.first].address << " with " << world.spans[pair.second].address << " on "
                                             << name(weakest));
        const OrderAnswer order = order_of(judge.distances(), kb.kb.runs[at(run)].span, kb.kb.issues[at(issue)].span,
                                           kb.kb.leftover_of(issue), weakest);
        REQUIRE(answered(judgement, order.gap, order.too_late) == says(deciding));
        ++seen[std::string{name(ground.answer)} + (ground.answer == Answer::no && !order.too_late ? ", stale" : "")];
        if (ground.answer == Answer::undecided) {
          REQUIRE_FALSE(ground.basis.has_value());
          REQUIRE(ground.proof.empty());
          continue;
        }
        REQUIRE(ground.basis == static_cast<Basis>(deciding));
        REQUIRE_FALSE(ground.proof.empty());
        // No statement of the proof is weaker than what the answer claims, and where the answer needs a basis weaker
        // than documented, some statement is of just that basis.
        for (const Reason& reason : ground.proof)
          if (!reason.definition) REQUIRE(reason.basis <= *ground.basis);
        if (deciding > 0) {
          ++on_weaker_bases;
          REQUIRE(std::ranges::count(ground.proof, *ground.basis, &Reason::basis) > 0);
        }
        if (judgement.verdict == Verdict::anachronistic || judgement.verdict == Verdict::stale) {
          REQUIRE(judgement.basis == ground.basis);
          REQUIRE(judgement.gap == order.gap);
          REQUIRE((judgement.verdict == Verdict::anachronistic) == order.too_late);
        }
      }
    }
  }
  INFO(contradictory << " contradictory, " << on_weaker_bases << " decided on weaker bases");
  CHECK(contradictory > 500);
  CHECK(contradictory < 2000);
  CHECK(on_weaker_bases > 300);
  CHECK(seen["yes"] > 1000);
  CHECK(seen["no"] > 1000);
  CHECK(seen["no, stale"] > 200);
  CHECK(seen["undecided"] > 1000);
}

TEST_CASE("bounds are the first and last day of any placement, on every basis") {
  for (std::uint64_t seed = 5001; seed <= 6000; ++seed) {
    const SmallWorld world{seed};
    INFO("seed " << seed << "\n" << text_of(world));
    const in_memory::Kb kb{world.files()};
    if (!kb.dates.contradictions().empty()) continue;
    struct Range {
      int least = 1000, most = -1000;
      void take(int day) {
        least = std::min(least, day);
        most = std::max(most, day);
      }
    };
    std::vector<std::array<std::array<Range, 2>, 4>> ranges(world.spans.size());
    world.try_all([&](const Placement& at, int failing) {
      for (std::size_t span = 0; span < at.size(); ++span)
        for (std::size_t basis = 0; basis < static_cast<std::size_t>(failing); ++basis) {
          ranges[span][basis][0].take(at[span].start);
          ranges[span][basis][1].take(at[span].end);
        }
    });
    const Day day_zero = day_number({1979, 3, 1});
    for (std::size_t span = 0; span < world.spans.size(); ++span)
      for (const Basis basis : all_bases)
        for (const std::size_t end : {0U, 1U}) {
          const TimeSpanIndex index = kb.span(world.spans[span].address);
          const DayBounds bounds = kb.dates.bounds(end == 0 ? start_of(index) : end_of(index), basis);
          const Range& range = ranges[span][static_cast<std::size_t>(basis)][end];
          INFO(world.spans[span].address << " on " << name(basis) << (end == 0 ? ", start" : ", end"));
          REQUIRE(bounds.earliest == day_zero + range.least);
          REQUIRE(bounds.latest == day_zero + range.most);
        }
  }
}
