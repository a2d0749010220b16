// Does a plan put first what should come first, one case each?
#include <catch2/catch.hpp>

#include "stops.hpp"
#include "swap/swap.hpp"

using namespace coeval;

namespace {

constexpr std::nullopt_t loose = std::nullopt;
using Holds = std::vector<std::optional<std::uint32_t>>;

// One kind for each part and slot.
struct Shelf {
  SwapProblem problem;

  std::uint32_t piece(std::int32_t weight = 1) {
    problem.pieces.push_back({weight});
    return static_cast<std::uint32_t>(problem.pieces.size() - 1);
  }
  std::uint32_t slot(std::uint32_t of, bool fixed = false) {
    problem.slots.push_back({of, problem.slot_kinds, fixed});
    return problem.slot_kinds++;
  }
  std::uint32_t part(std::optional<std::uint32_t> in) {
    problem.parts.push_back({problem.part_kinds, in});
    return problem.part_kinds++;
  }
  void right(std::uint32_t part, std::uint32_t slot, std::int32_t strength = 1) {
    problem.fits.push_back({part, slot, strength, true});
  }
  void open(std::uint32_t part, std::uint32_t slot, std::int32_t strength = 1) {
    problem.fits.push_back({part, slot, strength, false});
  }
};

} // namespace

TEST_CASE("nothing to swap is a plan without moves") {
  const SwapProblem problem;
  const SwapPlan plan = best_swap(problem);
  CHECK(plan.holds.empty());
  CHECK(plan.after == SwapScore{});
  CHECK(plan.is_best);
  CHECK(moves_of(problem, plan).empty());
}

TEST_CASE("a piece without slots is never complete") {
  Shelf shelf;
  shelf.piece();
  const std::uint32_t part = shelf.part(loose);
  const SwapPlan plan = best_swap(shelf.problem);
  CHECK(plan.after == SwapScore{});
  CHECK(plan.most_complete == 0);
  CHECK(moves_of(shelf.problem, plan).empty());
  CHECK(part == 0);
}

TEST_CASE("a loose part goes into its one slot") {
  Shelf shelf;
  const auto slot = shelf.slot(shelf.piece(7));
  const auto part = shelf.part(loose);
  shelf.right(part, slot, 3);
  const SwapPlan plan = best_swap(shelf.problem);
  CHECK(plan.holds == Holds{part});
  CHECK(plan.before == SwapScore{});
  CHECK(plan.after == SwapScore{7, 1, 3, 1});
  CHECK(moves_of(shelf.problem, plan) == std::vector<SwapMove>{{part, loose, slot}});
}

TEST_CASE("what is fixed stays, is counted, and nothing else goes there") {
  Shelf shelf;
  const auto piece = shelf.piece();
  const auto filled = shelf.slot(piece, true);
  const auto empty = shelf.slot(shelf.piece(), true);
  const auto inside = shelf.part(filled);
  const auto other = shelf.part(loose);
  shelf.right(inside, filled);
  shelf.right(inside, empty);
  shelf.right(other, filled, 16);
  shelf.right(other, empty, 16);
  const SwapPlan plan = best_swap(shelf.problem);
  CHECK(plan.holds == Holds{inside, {}});
  CHECK(plan.after == SwapScore{1, 1, 1, 0});
  CHECK(plan.after == plan.before);
  CHECK(plan.most_complete == 1);
}

TEST_CASE("a wrong part stays where nothing better goes in") {
  Shelf shelf;
  const auto slot = shelf.slot(shelf.piece());
  const auto wrong = shelf.part(slot);
  CHECK(best_swap(shelf.problem).holds == Holds{wrong});

  SECTION("and gives way to a better one") {
    const auto better = shelf.part(loose);
    shelf.open(better, slot);
    const SwapPlan plan = best_swap(shelf.problem);
    CHECK(plan.holds == Holds{better});
    CHECK(moves_of(shelf.problem, plan) == std::vector<SwapMove>{{wrong, slot, loose}, {better, loose, slot}});
  }
  SECTION("and leaves for a slot where it is right") {
    const auto home = shelf.slot(shelf.piece());
    shelf.right(wrong, home);
    const SwapPlan plan = best_swap(shelf.problem);
    CHECK(plan.holds == Holds{loose, wrong});
    CHECK(plan.after.moved == 1);
  }
}

TEST_CASE("an empty slot takes an open part rather than nothing, and a right one before any open one") {
  Shelf shelf;
  const auto slot = shelf.slot(shelf.piece());
  const auto open = shelf.part(loose);
  shelf.open(open, slot, 16);
  CHECK(best_swap(shelf.problem).holds == Holds{open});
  const auto right = shelf.part(loose);
  shelf.right(right, slot, 1);
  CHECK(best_swap(shelf.problem).holds == Holds{right});
}

TEST_CASE("the heavier piece is filled first") {
  Shelf shelf;
  const auto light = shelf.slot(shelf.piece(1));
  const auto heavy = shelf.slot(shelf.piece(1000));
  const auto part = shelf.part(light);
  shelf.right(part, light, 16);
  shelf.right(part, heavy, 1);
  CHECK(best_swap(shelf.problem).holds == Holds{loose, part});
}

TEST_CASE("one whole piece is better than two halves, and strength does not outweigh it") {
  Shelf shelf;
  const auto first = shelf.piece();
  const auto second = shelf.piece();
  const auto a = shelf.slot(first);
  const auto b = shelf.slot(first);
  const auto c = shelf.slot(second);
  const auto d = shelf.slot(second);
  const auto hat = shelf.part(a);
  const auto rope = shelf.part(d);
  shelf.right(hat, a, 16);
  shelf.right(hat, c, 1);
  shelf.right(rope, b, 1);
  shelf.right(rope, d, 16);
  const SwapPlan plan = best_swap(shelf.problem);
  CHECK(plan.before == SwapScore{2, 0, 32, 0});
  CHECK(plan.after == SwapScore{2, 1, 17, 1});
}

TEST_CASE("a whole piece is not bought with the slot of a heavier one") {
  Shelf shelf;
  const auto heavy = shelf.piece(2);
  const auto half = shelf.slot(heavy);
  shelf.slot(heavy);
  const auto whole = shelf.slot(shelf.piece(1));
  const auto part = shelf.part(whole);
  shelf.right(part, half, 1);
  shelf.right(part, whole, 16);
  const SwapPlan plan = best_swap(shelf.problem);
  CHECK(plan.before == SwapScore{1, 1, 16, 0});
  CHECK(plan.after == SwapScore{2, 0, 1, 1});
  CHECK(plan.most_complete == 0);
}

TEST_CASE("a whole piece is made of two halves even where there is no time for a search") {
  SwapProblem problem;
  problem.part_kinds = problem.slot_kinds = 2;
  problem.pieces.resize(2);
  problem.slots = {{0, 0, false}, {0, 1, false}, {1, 0, false}, {1, 1, false}};
  problem.parts = {{0, 0}, {1, 3}};
  problem.fits = {{0, 0, 1, true}, {1, 1, 1, true}};
  const SwapPlan plan = best_swap(problem, 0);
  CHECK(plan.after == SwapScore{2, 1, 2, 1});
  CHECK(plan.most_complete == 1);
}

TEST_CASE("of several rows for the same two kinds the best counts") {
  Shelf shelf;
  const auto slot = shelf.slot(shelf.piece());
  const auto part = shelf.part(loose);
  shelf.open(part, slot, 16);
  shelf.right(part, slot, 2);
  shelf.right(part, slot, 5);
  shelf.right(part, slot, 4);
  CHECK(best_swap(shelf.problem).after == SwapScore{1, 1, 5, 1});
}

TEST_CASE("two parts that change places are moved over an empty hand") {
  Shelf shelf;
  const auto first = shelf.slot(shelf.piece());
  const auto second = shelf.slot(shelf.piece());
  const auto one = shelf.part(first);
  const auto other = shelf.part(second);
  shelf.right(one, second);
  shelf.right(other, first);
  const SwapPlan plan = best_swap(shelf.problem);
  CHECK(plan.after.moved == 2);
  CHECK(moves_of(shelf.problem, plan) ==
        std::vector<SwapMove>{{other, second, loose}, {one, first, second}, {other, loose, first}});
}

TEST_CASE("a row of parts is moved from its free end") {
  Shelf shelf;
  const auto first = shelf.slot(shelf.piece());
  const auto second = shelf.slot(shelf.piece());
  const auto third = shelf.slot(shelf.piece());
  const auto a = shelf.part(first);
  const auto b = shelf.part(second);
  const auto c = shelf.part(loose);
  shelf.right(a, second);
  shelf.right(b, third);
  shelf.right(c, first);
  const SwapPlan plan = best_swap(shelf.problem);
  CHECK(moves_of(shelf.problem, plan) ==
        std::vector<SwapMove>{{b, second, third}, {a, first, second}, {c, loose, first}});
}

TEST_CASE("what completes a piece is moved first, the heaviest piece before others") {
  Shelf shelf;
  const auto half = shelf.piece(5);
  const auto half_filled = shelf.slot(half);
  shelf.slot(half);
  const auto light = shelf.slot(shelf.piece(1));
  const auto heavy = shelf.slot(shelf.piece(2));
  const auto a = shelf.part(loose);
  const auto b = shelf.part(loose);
  const auto c = shelf.part(loose);
  shelf.right(a, half_filled);
  shelf.right(b, light);
  shelf.right(c, heavy);
  CHECK(moves_of(shelf.problem, best_swap(shelf.problem)) ==
        std::vector<SwapMove>{{c, loose, heavy}, {b, loose, light}, {a, loose, half_filled}});
}

TEST_CASE("thousands of alike parts and slots are one row") {
  constexpr std::uint32_t many = 3000;
  SwapProblem problem;
  problem.part_kinds = 2;
  problem.slot_kinds = 1;
  problem.fits = {{0, 0, 2, true}, {1, 0, 1, true}};
  for (std::uint32_t n = 0; n < many; ++n) {
    problem.pieces.push_back({1});
    problem.slots.push_back({n, 0, false});
    problem.parts.push_back({1, n});
    problem.parts.push_back({0, {}});
  }
  const SwapPlan plan = best_swap(problem);
  CHECK(plan.before == SwapScore{many, many, many, 0});
  CHECK(plan.after == SwapScore{many, many, 2 * many, 2 * many});
  CHECK(plan.is_best);
  CHECK(moves_of(problem, plan).size() == std::size_t{2} * many);
}

TEST_CASE("the same problem has the same plan") {
  SwapProblem problem;
  problem.part_kinds = 1;
  problem.slot_kinds = 1;
  problem.fits = {{0, 0, 1, true}};
  for (std::uint32_t n = 0; n < 20; ++n) {
    problem.pieces.push_back({1});
    problem.slots.push_back({n, 0, false});
    if (n % 2 == 0) problem.parts.push_back({0, {}});
  }
  const SwapPlan plan = best_swap(problem);
  CHECK(plan.after.complete == 10);
  for (int again = 0; again < 3; ++again) CHECK(best_swap(problem).holds == plan.holds);
}

TEST_CASE("a caller who breaks the contract is stopped") {
  Shelf shelf;
  const auto slot = shelf.slot(shelf.piece());
  const auto part = shelf.part(slot);
  shelf.right(part, slot);
  const SwapProblem good = shelf.problem;
  CHECK_FALSE(stops([&] { best_swap(good); }));
  const auto stops_with = [&](const auto& change) {
    SwapProblem bad = good;
    change(bad);
    return stops([&] { best_swap(bad); });
  };
  CHECK(stops_with([](SwapProblem& p) { p.pieces[0].weight = 0; }));
  CHECK(stops_with([](SwapProblem& p) { p.pieces[0].weight = 1001; }));
  CHECK(stops_with([](SwapProblem& p) { p.slots[0].piece = 1; }));
  CHECK(stops_with([](SwapProblem& p) { p.slots[0].kind = 1; }));
  CHECK(stops_with([](SwapProblem& p) { p.parts[0].kind = 1; }));
  CHECK(stops_with([](SwapProblem& p) { p.parts[0].in = 1; }));
  CHECK(stops_with([](SwapProblem& p) { p.parts.push_back(p.parts[0]); }));
  CHECK(stops_with([](SwapProblem& p) { p.fits[0].part_kind = 1; }));
  CHECK(stops_with([](SwapProblem& p) { p.fits[0].slot_kind = 1; }));
  CHECK(stops_with([](SwapProblem& p) { p.fits[0].strength = 0; }));
  CHECK(stops_with([](SwapProblem& p) { p.fits[0].strength = 17; }));
  CHECK(stops_with([](SwapProblem& p) { p.parts.resize(most_swapped + std::size_t{1}); }));
}

TEST_CASE("a plan that is not of the problem is not carried out") {
  Shelf shelf;
  const auto slot = shelf.slot(shelf.piece());
  shelf.right(shelf.part(slot), slot);
  SwapPlan plan = best_swap(shelf.problem);
  CHECK_FALSE(stops([&] { moves_of(shelf.problem, plan); }));
  plan.holds[0] = 1;
  CHECK(stops([&] { moves_of(shelf.problem, plan); }));
  plan.holds.clear();
  CHECK(stops([&] { moves_of(shelf.problem, plan); }));
  shelf.problem.slots[0].fixed = true;
  plan.holds.assign(1, std::nullopt);
  CHECK(stops([&] { moves_of(shelf.problem, plan); }));
}
