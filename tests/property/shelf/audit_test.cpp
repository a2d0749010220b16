// Does an audit count every slot of every piece once, whatever is on the shelf, and is it quick on a large one?
#include <chrono>
#include <random>
#include <set>

#include <catch2/catch.hpp>

#include "unit/shelf/drawer.hpp"

using namespace coeval;

namespace {

std::string random_shelf(std::mt19937& random, int pieces, int parts) {
  const auto pick = [&](const auto& list) { return std::string{list[random() % std::size(list)]}; };
  constexpr std::string_view figures[]{"issue = \"maren/painted\"", "issue = \"maren/plain\"", "issue = \"maren/bare\"",
                                       "figure = \"maren\""};
  constexpr std::string_view things[]{"run = \"lantern/ring/brass\"",
                                      "run = \"lantern/ring/copper\"",
                                      "run = \"lantern/plain/grey\"",
                                      "run = \"coat/long/yellow\"",
                                      "repro = \"lantern/recast\"",
                                      "mould = \"lantern/ring\"",
                                      "accessory = \"lantern\"",
                                      "accessory = \"cap\"",
                                      "accessory = \"lantern\"\nseen = [\"top=ring\"]",
                                      "accessory = \"lantern\"\nseen = [\"top=plain\", \"seam=none\"]"};
  constexpr std::string_view slots[]{"hand", "body", "head"};
  std::string text = "[[purchase]]\nid = \"come\"\narrived = \"2026-05-02\"\n[[purchase]]\nid = \"offer\"\n"
                     "offered = \"2026-05-02\"\n";
  const auto bought = [&] { return std::string{random() % 5 == 0 ? "purchase = \"come\"\n" : ""}; };
  for (int i = 0; i < pieces; ++i)
    text += "[[piece]]\nid = \"p" + std::to_string(i) + "\"\n" + pick(figures) + "\n" + bought();
  std::set<std::pair<int, std::string>> worn;
  for (int i = 0; i < parts; ++i) {
    text += "[[part]]\nid = \"a" + std::to_string(i) + "\"\n" + pick(things) + "\n" + bought();
    const std::string slot = pick(slots);
    const int piece = pieces == 0 ? 0 : static_cast<int>(random() % static_cast<unsigned>(pieces));
    if (pieces > 0 && random() % 3 != 0 && worn.emplace(piece, slot).second)
      text += "in = \"p" + std::to_string(piece) + "\"\nslot = \"" + slot + "\"\n";
  }
  return text;
}

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

TEST_CASE("an audit of ten thousand parts takes well under a second") {
  std::mt19937 random{7};
  drawer::Drawer drawer{random_shelf(random, 5000, 10000)};
  REQUIRE_FALSE(drawer.out.has_errors());
  const auto begin = std::chrono::steady_clock::now();
  const Audit audit = drawer.audit();
  const auto took = std::chrono::steady_clock::now() - begin;
  CHECK(audit.pieces.size() == 5000);
  CHECK(took <
        std::chrono::seconds{10}); // far off, so that a loaded machine and sanitisers pass; quadratic steps do not
}
