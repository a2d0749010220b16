#include "swap/network.hpp"

#include <algorithm>
#include <unordered_map>
#include <utility>

namespace coeval {
namespace {

constexpr std::uint32_t outside = 0;

class Builder {
public:
  Builder(const SwapComponent& component, const FitTable& fits, const std::vector<PartSupply>& supply)
      : component_(component), fits_(fits), supply_(supply) {}

  SwapNetwork build() {
    net_.nodes = 1;
    for (const std::uint32_t kind : component_.part_kinds) {
      const auto [held, loose] = supply_[kind];
      part_node_.emplace(kind, net_.nodes);
      if (held > 0) add(outside, net_.nodes, held, {});
      if (loose > 0) add(outside, net_.nodes, loose, {.right = 0, .strength = 0, .moved = 1});
      net_.held += held;
      ++net_.nodes;
    }
    for (const SwapGroup& group : component_.groups)
      for (const SwapPlace& place : group.places) ++slot_kinds_[place.slot_kind].places;
    for (std::uint32_t g = 0; g < component_.groups.size(); ++g) {
      net_.first_place.push_back(static_cast<std::uint32_t>(net_.places.size()));
      for (std::uint32_t p = 0; p < component_.groups[g].places.size(); ++p) add_place(g, p);
    }
    net_.first_place.push_back(static_cast<std::uint32_t>(net_.places.size()));
    return std::move(net_);
  }

private:
  struct SlotKind {
    std::uint32_t places = 0;
    bool seen = false;
    std::uint32_t right = 0; // nodes; 0: nothing comes in that way
    std::uint32_t open = 0;
  };

  std::uint32_t add(std::uint32_t from, std::uint32_t to, std::int32_t capacity, SwapWorth worth) {
    net_.arcs.push_back({from, to});
    net_.capacity.push_back(capacity);
    net_.worth.push_back(worth);
    return static_cast<std::uint32_t>(net_.arcs.size() - 1);
  }

  void add_place(std::uint32_t g, std::uint32_t p) {
    const SwapGroup& group = component_.groups[g];
    const SwapPlace& place = group.places[p];
    const auto count = static_cast<std::int32_t>(group.count());
    SlotKind& kind = slot_kinds_[place.slot_kind];
    PlaceArcs arcs{.group = g, .place = p};
    net_.slots += count;

    const SwapFit* stays = place.held_kind == no_kind ? nullptr : fits_.find(place.held_kind, place.slot_kind);
    arcs.stay_is_right = stays != nullptr && stays->right;
    const auto offered = [&](bool right) {
      return std::ranges::any_of(fits_.of_slot_kind(place.slot_kind), [&](const SwapFit& fit) {
        return fit.right == right && part_node_.contains(fit.part_kind);
      });
    };
    if (!kind.seen) {
      // A kind with one place needs no node of its own: parts flow straight into the place.
      const bool right = offered(true);
      const bool open = offered(false);
      if (right) kind.right = net_.nodes++;
      if (open) kind.open = net_.nodes++;
      kind.seen = true;
      add_fits(place.slot_kind, kind);
    }
    const bool other = kind.open != 0 || (place.held_kind != no_kind && !arcs.stay_is_right);
    std::uint32_t entry = 0;
    std::uint32_t room = outside;
    if (kind.places == 1) {
      entry = kind.right != 0 ? kind.right : net_.nodes++;
      if (other) room = kind.open != 0 ? kind.open : net_.nodes++;
    } else {
      entry = net_.nodes++;
      if (other) room = net_.nodes++;
      if (kind.right != 0) add(kind.right, entry, count, {});
      if (kind.open != 0) arcs.open_in = add(kind.open, room, count, {});
    }
    arcs.right = add(entry, room, count, {.right = group.kind.weight, .strength = 0, .moved = 0});
    if (other) add(room, outside, count, {});
    if (place.held_kind != no_kind)
      arcs.stay = add(part_node_.at(place.held_kind), arcs.stay_is_right ? entry : room, count,
                      {.right = 0, .strength = stays == nullptr ? 0 : stays->strength, .moved = -1});
    net_.places.push_back(arcs);
  }

  void add_fits(std::uint32_t slot_kind, const SlotKind& kind) {
    for (const SwapFit& fit : fits_.of_slot_kind(slot_kind)) {
      const auto part = part_node_.find(fit.part_kind);
      if (part == part_node_.end()) continue;
      const auto [held, loose] = supply_[fit.part_kind];
      const std::uint32_t arc = add(part->second, fit.right ? kind.right : kind.open, held + loose,
                                    {.right = 0, .strength = fit.strength, .moved = 0});
      net_.fits.push_back({arc, fit.part_kind, slot_kind, fit.right});
    }
  }

  const SwapComponent& component_;
  const FitTable& fits_;
  const std::vector<PartSupply>& supply_;
  SwapNetwork net_;
  std::unordered_map<std::uint32_t, std::uint32_t> part_node_;
  std::unordered_map<std::uint32_t, SlotKind> slot_kinds_;
};

} // namespace

SwapNetwork build_network(const SwapComponent& component, const FitTable& fits, const std::vector<PartSupply>& supply) {
  return Builder{component, fits, supply}.build();
}

} // namespace coeval
