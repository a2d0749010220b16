#include "swap/solve.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <utility>

#include "swap/search.hpp"

namespace coeval {
namespace {

constexpr std::int64_t most_flows = 3000; // in one search

// Measured: the time for a flow grows with the arcs, times the root of the arcs.
std::int64_t work_of_arcs(std::size_t arcs) {
  constexpr double arcs_for_one = 50;
  const auto count = static_cast<double>(arcs);
  return 1 + static_cast<std::int64_t>(count * std::sqrt(count) / arcs_for_one);
}

std::int64_t effort_for(std::int64_t work, const SwapNetwork& network) {
  return std::min(most_flows, work / work_of_arcs(network.arcs.size()));
}

// The same component without regard to what is in the slots, and by group, which group it has become.
struct CoarseComponent {
  SwapComponent component;
  std::vector<std::uint32_t> coarse;
};

CoarseComponent coarsen(const SwapComponent& component) {
  CoarseComponent result{{{}, component.part_kinds}, {}};
  std::map<std::pair<SwapGroup::Kind, std::vector<SwapPlace>>, std::uint32_t> known;
  for (const SwapGroup& group : component.groups) {
    std::vector<SwapPlace> places = group.places;
    for (SwapPlace& place : places) place.held_kind = no_kind;
    auto& groups = result.component.groups;
    const auto [at, fresh] = known.try_emplace({group.kind, places}, static_cast<std::uint32_t>(groups.size()));
    if (fresh) groups.push_back({group.kind, std::move(places), {}});
    auto& slots = groups[at->second].slots;
    slots.insert(slots.end(), group.slots.begin(), group.slots.end());
    result.coarse.push_back(at->second);
  }
  return result;
}

// Which pieces of each group had best be complete, when so many are of each coarse group: those that lack the least.
std::vector<std::int32_t> share_out(std::vector<std::int32_t> complete, const CoarseComponent& coarse,
                                    const SwapComponent& component, const FitTable& fits) {
  std::vector<std::size_t> lacking;
  for (const SwapGroup& group : component.groups)
    lacking.push_back(static_cast<std::size_t>(std::ranges::count_if(group.places, [&](const SwapPlace& place) {
      const SwapFit* fit = place.held_kind == no_kind ? nullptr : fits.find(place.held_kind, place.slot_kind);
      return fit == nullptr || !fit->right;
    })));
  std::vector<std::uint32_t> order(component.groups.size());
  std::iota(order.begin(), order.end(), 0U);
  std::ranges::stable_sort(order, {}, [&](std::uint32_t group) { return lacking[group]; });
  std::vector<std::int32_t> result(component.groups.size(), 0);
  for (const std::uint32_t group : order) {
    std::int32_t& left = complete[coarse.coarse[group]];
    result[group] = std::min(left, static_cast<std::int32_t>(component.groups[group].count()));
    left -= result[group];
  }
  return result;
}

// Every slot for itself: those of pieces that are to be complete, of which all must be right, and the others. Without
// pieces to hold it together, the component falls apart.
std::vector<SwapComponent> single_slots(const SwapComponent& component, const std::vector<std::int32_t>& complete,
                                        const FitTable& fits) {
  std::map<std::pair<SwapGroup::Kind, SwapPlace>, std::uint32_t> known;
  std::vector<SwapGroup> groups;
  for (std::size_t g = 0; g < component.groups.size(); ++g) {
    const SwapGroup& group = component.groups[g];
    const std::size_t width = group.places.size();
    for (std::size_t s = 0; s < group.slots.size(); ++s) {
      const SwapGroup::Kind kind{group.kind.weight, s / width < static_cast<std::size_t>(complete[g])};
      const SwapPlace place = group.places[s % width];
      const auto [at, fresh] = known.try_emplace({kind, place}, static_cast<std::uint32_t>(groups.size()));
      if (fresh) groups.push_back({kind, {place}, {}});
      groups[at->second].slots.push_back(group.slots[s]);
    }
  }
  return components_of(std::move(groups), component.part_kinds, fits);
}

} // namespace

std::int64_t work_of(const SwapComponent& component, const FitTable& fits) {
  std::size_t arcs = component.part_kinds.size();
  std::vector<std::uint32_t> slot_kinds;
  for (const SwapGroup& group : component.groups) {
    arcs += 5 * group.places.size();
    for (const SwapPlace& place : group.places) slot_kinds.push_back(place.slot_kind);
  }
  std::ranges::sort(slot_kinds);
  slot_kinds.erase(std::unique(slot_kinds.begin(), slot_kinds.end()), slot_kinds.end());
  for (const std::uint32_t kind : slot_kinds) arcs += fits.of_slot_kind(kind).size();
  return work_of_arcs(arcs);
}

SolvedComponent solve_component(const SwapComponent& component, const FitTable& fits,
                                const std::vector<PartSupply>& supply, std::int64_t work) {
  constexpr std::int64_t few = 12; // flows, with less than which a search makes no headway
  SolvedComponent result;
  const auto take = [&](const SwapSearch& search, const SwapNetwork& network) {
    result.work += search.solved() * work_of_arcs(network.arcs.size());
  };
  const bool hard = std::ranges::any_of(
      component.groups, [](const SwapGroup& group) { return group.kind.can_complete && group.places.size() > 1; });
  const CoarseComponent coarse = hard ? coarsen(component) : CoarseComponent{};
  const bool coarser = hard && coarse.component.groups.size() < component.groups.size();
  std::vector<std::int32_t> complete;
  if (coarser) {
    const SwapNetwork network = build_network(coarse.component, fits, supply);
    SwapSearch search{coarse.component, network};
    search.find_most_complete(effort_for(work / 2, network));
    take(search, network);
    result.most_complete = search.most_complete();
    complete = share_out(search.complete_by_group(), coarse, component, fits);
  }
  if (!coarser || (work - result.work) / work_of(component, fits) >= few) {
    SolvedFlow solved{component, build_network(component, fits, supply), {}};
    SwapSearch search{component, solved.network};
    if (coarser)
      search.start_from(result.most_complete, complete);
    else
      search.find_most_complete(effort_for(work / 2, solved.network));
    search.find_best(effort_for(work - result.work, solved.network) - search.solved());
    take(search, solved.network);
    solved.flow = search.flow();
    result.most_complete = search.most_complete();
    result.is_best = search.is_best();
    result.flows.push_back(std::move(solved));
    return result;
  }
  for (SwapComponent& part : single_slots(component, complete, fits)) {
    std::vector<std::int32_t> all;
    for (const SwapGroup& group : part.groups)
      all.push_back(group.kind.can_complete ? static_cast<std::int32_t>(group.count()) : 0);
    SolvedFlow solved{std::move(part), {}, {}};
    solved.network = build_network(solved.component, fits, supply);
    SwapSearch search{solved.component, solved.network};
    search.start_from(search.most_complete(), all);
    take(search, solved.network);
    solved.flow = search.flow();
    result.flows.push_back(std::move(solved));
  }
  return result;
}

} // namespace coeval
