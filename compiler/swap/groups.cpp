#include "swap/groups.hpp"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <numeric>
#include <optional>
#include <tuple>
#include <utility>

#include <boost/pending/disjoint_sets.hpp>

namespace coeval {

void stop_swap(const char* bug) {
  std::fprintf(stderr, "coeval: bug in the use of swap: %s\n", bug);
  std::abort();
}

FitTable::FitTable(const SwapProblem& problem) : fits_(problem.fits) {
  std::ranges::sort(fits_, {}, [](const SwapFit& fit) {
    return std::tuple{fit.slot_kind, fit.part_kind, !fit.right, -fit.strength};
  });
  const auto same = [](const SwapFit& one, const SwapFit& other) {
    return one.slot_kind == other.slot_kind && one.part_kind == other.part_kind;
  };
  fits_.erase(std::unique(fits_.begin(), fits_.end(), same), fits_.end());
  begins_.assign(problem.slot_kinds + std::size_t{1}, 0);
  for (const SwapFit& fit : fits_) ++begins_[fit.slot_kind + std::size_t{1}];
  std::partial_sum(begins_.begin(), begins_.end(), begins_.begin());
}

std::span<const SwapFit> FitTable::of_slot_kind(std::uint32_t kind) const {
  return std::span{fits_}.subspan(begins_[kind], begins_[kind + std::size_t{1}] - begins_[kind]);
}

const SwapFit* FitTable::find(std::uint32_t part_kind, std::uint32_t slot_kind) const {
  const auto fits = of_slot_kind(slot_kind);
  const auto found = std::ranges::lower_bound(fits, part_kind, {}, &SwapFit::part_kind);
  return found != fits.end() && found->part_kind == part_kind ? &*found : nullptr;
}

void check_problem(const SwapProblem& problem) {
  constexpr std::int32_t greatest_weight = 1000;
  constexpr std::int32_t greatest_strength = 16;
  if (problem.slots.size() > most_swapped || problem.parts.size() > most_swapped ||
      problem.fits.size() > most_swap_fits)
    stop_swap("there is too much to swap");
  for (const SwapPiece& piece : problem.pieces)
    if (piece.weight < 1 || piece.weight > greatest_weight) stop_swap("a weight is not from 1 to 1000");
  for (const SwapSlot& slot : problem.slots) {
    if (slot.piece >= problem.pieces.size()) stop_swap("a slot names a piece that is not there");
    if (slot.kind >= problem.slot_kinds) stop_swap("a slot names a kind that is not there");
  }
  std::vector<char> taken(problem.slots.size(), 0);
  for (const SwapPart& part : problem.parts) {
    if (part.kind >= problem.part_kinds) stop_swap("a part names a kind that is not there");
    if (!part.in) continue;
    if (*part.in >= problem.slots.size()) stop_swap("a part is in a slot that is not there");
    if (std::exchange(taken[*part.in], 1) != 0) stop_swap("two parts are in one slot");
  }
  for (const SwapFit& fit : problem.fits) {
    if (fit.part_kind >= problem.part_kinds || fit.slot_kind >= problem.slot_kinds)
      stop_swap("a fit names a kind that is not there");
    if (fit.strength < 1 || fit.strength > greatest_strength) stop_swap("a strength is not from 1 to 16");
  }
}

namespace {

// A piece, or a slot of a piece that cannot be complete, before it is known which are alike.
struct Single {
  std::int32_t weight;
  bool can_complete;
  std::uint32_t begin, end; // into the places and slots of all
};

struct Singles {
  std::int64_t always_complete = 0;
  std::vector<Single> all;
  std::vector<SwapPlace> places;
  std::vector<std::uint32_t> slots;
};

Singles take_apart(const SwapProblem& problem, const FitTable& fits, const std::vector<std::uint32_t>& held,
                   const std::vector<char>& available) {
  std::vector<char> fillable(problem.slot_kinds, 0); // by slot kind: is there a right part that could go in?
  for (std::uint32_t kind = 0; kind < problem.slot_kinds; ++kind)
    fillable[kind] = std::ranges::any_of(
        fits.of_slot_kind(kind), [&](const SwapFit& fit) { return fit.right && available[fit.part_kind] != 0; });
  std::vector<char> can_complete(problem.pieces.size(), 0);
  std::vector<char> has_free(problem.pieces.size(), 0);
  for (const SwapSlot& slot : problem.slots) {
    can_complete[slot.piece] = 1; // where nothing below speaks against it
    if (!slot.fixed) has_free[slot.piece] = 1;
  }
  for (std::uint32_t slot = 0; slot < problem.slots.size(); ++slot) {
    const auto [piece, kind, fixed] = problem.slots[slot];
    if (!fixed && fillable[kind] == 0) can_complete[piece] = 0;
    if (!fixed) continue;
    const SwapFit* fit = held[slot] == no_part ? nullptr : fits.find(problem.parts[held[slot]].kind, kind);
    if (fit == nullptr || !fit->right) can_complete[piece] = 0;
  }
  struct Free {
    std::uint32_t piece;
    SwapPlace place;
    std::uint32_t slot;
    auto operator<=>(const Free&) const = default;
  };
  std::vector<Free> free;
  for (std::uint32_t slot = 0; slot < problem.slots.size(); ++slot)
    if (!problem.slots[slot].fixed)
      free.push_back({problem.slots[slot].piece,
                      {problem.slots[slot].kind, held[slot] == no_part ? no_kind : problem.parts[held[slot]].kind},
                      slot});
  std::ranges::sort(free);

  Singles singles;
  for (std::size_t piece = 0; piece < problem.pieces.size(); ++piece)
    if (can_complete[piece] != 0 && has_free[piece] == 0) ++singles.always_complete;
  for (std::uint32_t at = 0; at < free.size(); ++at) {
    const std::uint32_t piece = free[at].piece;
    singles.places.push_back(free[at].place);
    singles.slots.push_back(free[at].slot);
    if (at > 0 && free[at - 1].piece == piece && can_complete[piece] != 0)
      ++singles.all.back().end;
    else
      singles.all.push_back({problem.pieces[piece].weight, can_complete[piece] != 0, at, at + 1});
  }
  return singles;
}

std::vector<SwapGroup> group_alike(const Singles& singles) {
  const auto places = [&](const Single& single) {
    return std::span{singles.places}.subspan(single.begin, single.end - single.begin);
  };
  const auto before = [&](const Single& one, const Single& other) {
    const auto head = [](const Single& single) {
      return std::tuple{single.end - single.begin, single.can_complete, single.weight};
    };
    if (head(one) != head(other)) return head(one) < head(other);
    return std::ranges::lexicographical_compare(places(one), places(other));
  };
  std::vector<Single> sorted = singles.all;
  std::ranges::stable_sort(sorted, before);
  std::vector<SwapGroup> groups;
  for (std::size_t at = 0; at < sorted.size(); ++at) {
    const Single& single = sorted[at];
    if (at == 0 || before(sorted[at - 1], single))
      groups.push_back({{single.weight, single.can_complete}, {places(single).begin(), places(single).end()}, {}});
    auto& slots = groups.back().slots;
    slots.insert(slots.end(), singles.slots.begin() + single.begin, singles.slots.begin() + single.end);
  }
  return groups;
}

} // namespace

std::vector<SwapComponent> components_of(std::vector<SwapGroup> groups, const std::vector<std::uint32_t>& part_kinds,
                                         const FitTable& fits) {
  std::vector<std::uint32_t> slot_kinds;
  for (const SwapGroup& group : groups)
    for (const SwapPlace& place : group.places) slot_kinds.push_back(place.slot_kind);
  std::ranges::sort(slot_kinds);
  slot_kinds.erase(std::unique(slot_kinds.begin(), slot_kinds.end()), slot_kinds.end());

  // In the sets, part kinds come first, then slot kinds.
  const auto part_kind = [&](std::uint32_t kind) -> std::optional<std::uint32_t> {
    const auto at = std::ranges::lower_bound(part_kinds, kind);
    if (at == part_kinds.end() || *at != kind) return {};
    return static_cast<std::uint32_t>(at - part_kinds.begin());
  };
  const auto slot_kind = [&](std::uint32_t kind) {
    return static_cast<std::uint32_t>(part_kinds.size()) +
           static_cast<std::uint32_t>(std::ranges::lower_bound(slot_kinds, kind) - slot_kinds.begin());
  };
  boost::disjoint_sets_with_storage<> sets{part_kinds.size() + slot_kinds.size()};
  for (const std::uint32_t kind : slot_kinds)
    for (const SwapFit& fit : fits.of_slot_kind(kind))
      if (const auto part = part_kind(fit.part_kind)) sets.union_set(*part, slot_kind(kind));
  for (const SwapGroup& group : groups) {
    const std::uint32_t first = slot_kind(group.places.front().slot_kind);
    for (const SwapPlace& place : group.places) {
      sets.union_set(slot_kind(place.slot_kind), first);
      if (place.held_kind != no_kind) sets.union_set(part_kind(place.held_kind).value(), first);
    }
  }

  std::vector<SwapComponent> components;
  std::vector<std::uint32_t> number(part_kinds.size() + slot_kinds.size(), no_kind);
  for (SwapGroup& group : groups) {
    std::uint32_t& at = number[sets.find_set(slot_kind(group.places.front().slot_kind))];
    if (at == no_kind) {
      at = static_cast<std::uint32_t>(components.size());
      components.emplace_back();
    }
    components[at].groups.push_back(std::move(group));
  }
  for (std::uint32_t part = 0; part < part_kinds.size(); ++part)
    if (const std::uint32_t at = number[sets.find_set(part)]; at != no_kind)
      components[at].part_kinds.push_back(part_kinds[part]);
  return components;
}

SwapLayout lay_out(const SwapProblem& problem, const FitTable& fits) {
  SwapLayout layout{std::vector<std::uint32_t>(problem.slots.size(), no_part), {}, 0};
  std::vector<char> available(problem.part_kinds, 0); // by part kind: is there a part that can move?
  for (std::uint32_t part = 0; part < problem.parts.size(); ++part) {
    const auto [kind, in] = problem.parts[part];
    if (in) layout.held[*in] = part;
    if (!in || !problem.slots[*in].fixed) available[kind] = 1;
  }
  const Singles singles = take_apart(problem, fits, layout.held, available);
  layout.always_complete = singles.always_complete;
  std::vector<std::uint32_t> part_kinds;
  for (std::uint32_t kind = 0; kind < problem.part_kinds; ++kind)
    if (available[kind] != 0) part_kinds.push_back(kind);
  layout.components = components_of(group_alike(singles), part_kinds, fits);
  return layout;
}

} // namespace coeval
