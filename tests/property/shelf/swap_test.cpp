// Do the moves of a swap lead where it promises, one after the other, and does an audit afterwards count the same?
#include <map>
#include <random>

#include <catch2/catch.hpp>

#include "entries/rows.hpp"
#include "random_shelf.hpp"
#include "shelf/apply_swap.hpp"

using namespace coeval;

namespace {

using Place = std::pair<PieceIndex, std::string>;

std::string applied(const drawer::Drawer& drawer, const ShelfSwap& swap) {
  Diagnostics out;
  const auto text = apply_swap(drawer.kb.kb, drawer.sources, drawer.shelf, swap, out);
  INFO(in_memory::shown(drawer.sources, out.sorted()));
  REQUIRE(text);
  return *text;
}

std::size_t complete(const Audit& audit) {
  return static_cast<std::size_t>(std::ranges::count_if(audit.pieces, &PieceAudit::complete));
}

} // namespace

TEST_CASE("moves never need a part before it is free, and end in the promised state") {
  std::size_t moves = 0;
  for (std::uint32_t seed = 1; seed <= 150; ++seed) {
    INFO("seed " << seed);
    std::mt19937 random{seed};
    const int pieces = 1 + static_cast<int>(random() % 9);
    const std::string text = random_shelf(random, pieces, static_cast<int>(random() % 25));
    drawer::Drawer drawer{text};
    REQUIRE_FALSE(drawer.out.has_errors());
    PartJudge judge{drawer.kb.kb, drawer.kb.dates, drawer.shelf, Basis::conjectured};
    const ShelfSwap swap = plan_swap(drawer.kb.kb, drawer.shelf, judge, {});

    std::map<PartIndex, Place> worn;
    std::map<Place, PartIndex> holds;
    for (std::size_t i = 0; i < drawer.shelf.parts.size(); ++i)
      if (const OwnedPart& part = drawer.shelf.parts[i]; part.in) {
        const PartIndex index{static_cast<std::uint32_t>(i)};
        worn[index] = {*part.in, part.slot};
        holds[{*part.in, part.slot}] = index;
      }
    for (const PlannedMove& move : swap.moves) {
      ++moves;
      if (move.from) {
        const Place from{move.from->piece, move.from->slot};
        REQUIRE(holds.contains(from));
        REQUIRE(holds[from] == move.part);
        holds.erase(from);
        worn.erase(move.part);
      }
      REQUIRE_FALSE(worn.contains(move.part));
      if (!move.to) continue;
      const Place to{move.to->piece, move.to->slot};
      REQUIRE_FALSE(holds.contains(to));
      holds[to] = move.part;
      worn[move.part] = to;
    }
    for (std::size_t i = 0; i < drawer.shelf.pieces.size(); ++i) {
      const PieceIndex piece{static_cast<std::uint32_t>(i)};
      for (std::size_t slot = 0; slot < swap.worn[i].size(); ++slot) {
        const auto found = holds.find({piece, judge.slots(*drawer.shelf[piece].issue)[slot].name});
        const auto there = found == holds.end() ? std::nullopt : std::optional{found->second};
        CHECK(there == swap.worn[i][slot]);
      }
    }

    const Audit before = drawer.audit();
    CHECK(before.count(SlotState::right) == swap.before.right);
    CHECK(complete(before) == swap.before.complete);
    drawer::Drawer later{applied(drawer, swap)};
    INFO(in_memory::shown(later.sources, later.out.sorted()));
    REQUIRE_FALSE(later.out.has_errors());
    for (std::size_t i = 0; i < later.shelf.parts.size(); ++i) {
      const OwnedPart& part = later.shelf.parts[i];
      const auto place = worn.find(PartIndex{static_cast<std::uint32_t>(i)});
      CHECK(part.in.has_value() == (place != worn.end()));
      if (place != worn.end()) CHECK(Place{*part.in, part.slot} == place->second);
    }
    // A table of cells takes the same moves.
    const drawer::Drawer table{csv_of(rows_of(drawer.shelf.entries)), Basis::conjectured, "shelf.csv"};
    CHECK(csv_of(rows_of(drawer::Drawer{applied(table, swap), Basis::conjectured, "shelf.csv"}.shelf.entries)) ==
          csv_of(rows_of(later.shelf.entries)));
    const Audit after = later.audit();
    CHECK(after.count(SlotState::right) == swap.after.right);
    CHECK(complete(after) == swap.after.complete);
    CHECK(swap.after.right >= swap.before.right);
  }
  CHECK(moves > 100);
}
