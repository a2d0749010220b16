#include "shelf/swap_plan.hpp"

#include <algorithm>

namespace coeval {
namespace {

// The slots of a shelf in one row, and which part is in each.
class Wardrobe {
public:
  Wardrobe(const LinkedKb& kb, const LinkedShelf& shelf, PartJudge& judge, const SwapWishes& wishes)
      : kb_(kb), shelf_(shelf), judge_(judge), wishes_(wishes) {
    for (std::size_t i = 0; i < shelf.pieces.size(); ++i) add_piece(PieceIndex{static_cast<std::uint32_t>(i)});
    for (std::size_t i = 0; i < shelf.parts.size(); ++i) add_part(PartIndex{static_cast<std::uint32_t>(i)});
    add_fits();
  }

  [[nodiscard]] const SwapProblem& problem() const { return problem_; }
  [[nodiscard]] PartIndex part(std::uint32_t of_problem) const { return parts_[of_problem]; }
  [[nodiscard]] const WornPlace& place(std::uint32_t slot) const { return places_[slot]; }
  [[nodiscard]] const std::map<PieceIndex, std::uint32_t>& first_slots() const { return first_slot_; }

  // A part is rightly worn in a slot of the row.
  [[nodiscard]] bool right(PartIndex part, std::uint32_t slot) const {
    const PieceIndex piece = places_[slot].piece;
    const PartFit& fit = judge_.fit(part, *shelf_[piece].issue);
    return fit.state == FitState::right && fit.takes(slot - first_slot_.at(piece));
  }

private:
  [[nodiscard]] bool at_hand(const Received& received) const {
    return wishes_.with_parcels ? owned(shelf_, received) : in_hand(shelf_, received);
  }
  [[nodiscard]] bool stays(PieceIndex index) const {
    const OwnedPiece& piece = shelf_[index];
    return piece.keep || wishes_.keep.contains(index) || !at_hand(piece.received);
  }

  void add_piece(PieceIndex index) {
    const OwnedPiece& piece = shelf_[index];
    if (!piece.issue || !owned(shelf_, piece.received)) return;
    const std::vector<IssueSlot>& slots = judge_.slots(*piece.issue);
    if (slots.empty()) return;
    first_slot_.emplace(index, static_cast<std::uint32_t>(problem_.slots.size()));
    const auto row = static_cast<std::uint32_t>(problem_.pieces.size());
    problem_.pieces.push_back({static_cast<std::int32_t>(piece.priority)});
    for (std::size_t i = 0; i < slots.size(); ++i) {
      const auto [kind, fresh] = slot_kinds_.try_emplace({*piece.issue, i}, problem_.slot_kinds);
      if (fresh) ++problem_.slot_kinds;
      const bool other = wishes_.only_slot && slots[i].name != *wishes_.only_slot;
      problem_.slots.push_back({row, kind->second, stays(index) || other});
      places_.push_back({index, slots[i].name});
    }
  }

  // The slot of the row that a worn part is in; nothing where its piece has no such slot, and so nothing in the way.
  [[nodiscard]] std::optional<std::uint32_t> slot_of(const OwnedPart& part) const {
    if (!part.in) return {};
    const auto first = first_slot_.find(*part.in);
    if (first == first_slot_.end()) return {};
    for (std::uint32_t slot = first->second; slot < places_.size() && places_[slot].piece == *part.in; ++slot)
      if (places_[slot].slot == part.slot) return slot;
    return {};
  }

  void add_part(PartIndex index) {
    const OwnedPart& part = shelf_[index];
    const std::optional<std::uint32_t> slot = slot_of(part);
    const bool lies_fixed = slot && problem_.slots[*slot].fixed;
    if (!slot && part.in && (!first_slot_.contains(*part.in) || stays(*part.in))) return; // and it stays there
    if (!at_hand(part.received) && !lies_fixed) {
      if (!slot) return;
      problem_.slots[*slot].fixed = true; // said to be worn, and not here: leave both alone
    }
    problem_.parts.push_back({static_cast<std::uint32_t>(judge_.kind(index)), slot});
    parts_.push_back(index);
  }

  // A part of a kind can only go where an accessory that it can be is taken, so only those pairs are judged.
  void add_fits() {
    problem_.part_kinds = static_cast<std::uint32_t>(judge_.kind_count());
    std::map<AccessoryIndex, std::vector<std::pair<IssueIndex, std::size_t>>> takers;
    for (const auto& [slot, kind] : slot_kinds_)
      for (const AccessoryIndex accessory : judge_.slots(slot.first)[slot.second].accessories)
        takers[accessory].push_back(slot);
    std::set<std::uint32_t> kinds;
    for (const SwapPart& part : problem_.parts) kinds.insert(part.kind);
    for (const std::uint32_t kind : kinds) {
      std::set<std::pair<IssueIndex, std::size_t>> seen;
      for (const PartIdentity& identity : judge_.could_be(PartKindIndex{kind})) {
        const auto* run = std::get_if<RunIndex>(&identity);
        const auto takes = run == nullptr ? takers.end() : takers.find(kb_.runs[at(*run)].accessory);
        if (takes == takers.end()) continue;
        for (const auto& slot : takes->second) {
          if (!seen.insert(slot).second) continue;
          const PartFit& fit = judge_.fit(PartKindIndex{kind}, slot.first);
          if (fit.strength > 0 && fit.takes(slot.second))
            problem_.fits.push_back({kind, slot_kinds_.at(slot), fit.strength, fit.state == FitState::right});
        }
      }
    }
  }

  const LinkedKb& kb_;
  const LinkedShelf& shelf_;
  PartJudge& judge_;
  const SwapWishes& wishes_;
  SwapProblem problem_;
  std::vector<PartIndex> parts_;  // of the problem
  std::vector<WornPlace> places_; // of the problem's slots
  std::map<PieceIndex, std::uint32_t> first_slot_;
  std::map<std::pair<IssueIndex, std::size_t>, std::uint32_t> slot_kinds_;
};

// Counts a state of all slots, and follows it move by move.
class Tally {
public:
  Tally(const Wardrobe& wardrobe)
      : wardrobe_(wardrobe), holds_(wardrobe.problem().slots.size()), missing_(wardrobe.problem().pieces.size(), 0) {
    for (const SwapSlot& slot : wardrobe.problem().slots) ++missing_[slot.piece];
  }

  void put(std::uint32_t slot, std::optional<std::uint32_t> part) {
    const std::uint32_t piece = wardrobe_.problem().slots[slot].piece;
    if (is_right(slot)) {
      --counts_.right;
      counts_.weight -= wardrobe_.problem().pieces[piece].weight;
      if (missing_[piece]++ == 0) --counts_.complete;
    }
    holds_[slot] = part;
    if (is_right(slot)) {
      ++counts_.right;
      counts_.weight += wardrobe_.problem().pieces[piece].weight;
      if (--missing_[piece] == 0) ++counts_.complete;
    }
  }
  [[nodiscard]] const SwapCounts& counts() const { return counts_; }

private:
  [[nodiscard]] bool is_right(std::uint32_t slot) const {
    return holds_[slot] && wardrobe_.right(wardrobe_.part(*holds_[slot]), slot);
  }

  const Wardrobe& wardrobe_;
  std::vector<std::optional<std::uint32_t>> holds_;
  std::vector<std::size_t> missing_; // by piece: slots without a right part
  SwapCounts counts_;
};

} // namespace

bool in_hand(const LinkedShelf& shelf, const Received& received) {
  if (!received.purchase) return true;
  const auto state = shelf[*received.purchase].state();
  return !state || *state == ParcelState::arrived;
}

bool owned(const LinkedShelf& shelf, const Received& received) {
  return !received.purchase || shelf[*received.purchase].counts();
}

ShelfSwap plan_swap(const LinkedKb& kb, const LinkedShelf& shelf, PartJudge& judge, const SwapWishes& wishes) {
  const Wardrobe wardrobe{kb, shelf, judge, wishes};
  const SwapProblem& problem = wardrobe.problem();
  const SwapPlan plan = best_swap(problem);
  ShelfSwap swap;
  swap.slots = problem.slots.size();
  swap.pieces = problem.pieces.size();
  swap.most_complete = plan.most_complete;
  swap.is_best = plan.is_best;
  swap.worn.resize(shelf.pieces.size());
  for (const auto& [piece, first] : wardrobe.first_slots()) {
    auto& worn = swap.worn[at(piece)];
    for (std::uint32_t slot = first; slot < problem.slots.size() && wardrobe.place(slot).piece == piece; ++slot)
      worn.push_back(plan.holds[slot] ? std::optional{wardrobe.part(*plan.holds[slot])} : std::nullopt);
  }

  Tally tally{wardrobe};
  for (std::uint32_t part = 0; part < problem.parts.size(); ++part)
    if (problem.parts[part].in) tally.put(*problem.parts[part].in, part);
  swap.before = tally.counts();
  for (const SwapMove& move : moves_of(problem, plan)) {
    PlannedMove planned;
    planned.part = wardrobe.part(move.part);
    const OwnedPart& part = shelf[planned.part];
    if (move.from) {
      planned.from = wardrobe.place(*move.from);
      tally.put(*move.from, {});
    } else if (part.in && !problem.parts[move.part].in) {
      planned.from = WornPlace{*part.in, part.slot}; // in a slot that its piece does not have
    }
    if (move.to) {
      const std::size_t complete = tally.counts().complete;
      planned.to = wardrobe.place(*move.to);
      planned.fit = &judge.fit(planned.part, *shelf[planned.to->piece].issue);
      tally.put(*move.to, move.part);
      planned.completes = tally.counts().complete > complete;
    }
    swap.moves.push_back(std::move(planned));
  }
  swap.after = tally.counts();
  return swap;
}

} // namespace coeval
