// Does an audit count every slot of every piece once, whatever is on the shelf?
#include <random>
#include <set>

#include <catch2/catch.hpp>

#include "random_shelf.hpp"

using namespace coeval;

namespace {

void check_counts(drawer::Drawer& drawer) {
  const Audit audit = drawer.audit();
  REQUIRE(audit.pieces.size() + audit.offered.size() == drawer.shelf.pieces.size());
  std::size_t slots = 0;
  for (const PieceAudit& piece : audit.pieces) {
    const auto issue = drawer.shelf[piece.piece].issue;
    const std::size_t expected = issue ? slots_of(drawer.kb.kb.issues[at(*issue)]).size() : 0;
    REQUIRE(piece.slots.size() == expected);
    std::size_t counted = 0;
    for (std::size_t state = 0; state < slot_state_count; ++state)
      counted += piece.count(SlotState{static_cast<std::uint8_t>(state)});
    REQUIRE(counted == expected);
    slots += counted;
    std::set<PartIndex> seen;
    for (const SlotAudit& slot : piece.slots) {
      REQUIRE((slot.state == SlotState::empty) == !slot.part.has_value());
      if (!slot.part) continue;
      REQUIRE(seen.insert(*slot.part).second);
      REQUIRE(drawer.shelf[*slot.part].in == piece.piece);
      if (slot.state == SlotState::right) REQUIRE(slot.fit->state == FitState::right);
    }
    REQUIRE(std::ranges::is_sorted(piece.findings, {}, &Finding::trouble));
  }
  std::size_t all = 0;
  for (std::size_t state = 0; state < slot_state_count; ++state)
    all += audit.count(SlotState{static_cast<std::uint8_t>(state)});
  REQUIRE(all == slots);
  for (const LooseAudit& loose : audit.loose) REQUIRE(loose.helped <= loose.takers);
}

} // namespace

TEST_CASE("every slot of a random shelf is exactly one of right, open, wrong, a reproduction or empty") {
  for (std::uint32_t seed = 1; seed <= 60; ++seed) {
    INFO("seed " << seed);
    std::mt19937 random{seed};
    const int pieces = static_cast<int>(random() % 12);
    const int parts = static_cast<int>(random() % 30);
    drawer::Drawer drawer{random_shelf(random, pieces, parts)};
    INFO(in_memory::shown(drawer.sources, drawer.out.sorted()));
    REQUIRE_FALSE(drawer.out.has_errors());
    check_counts(drawer);
  }
}
