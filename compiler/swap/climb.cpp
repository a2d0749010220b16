#include "swap/climb.hpp"

#include <algorithm>
#include <limits>
#include <span>
#include <tuple>
#include <utility>

namespace coeval {
namespace {

// The arcs that touch each node.
class Touching {
public:
  explicit Touching(const SwapNetwork& network) : begins_(network.nodes + std::size_t{1}, 0) {
    for (const FlowArc& arc : network.arcs) {
      ++begins_[arc.from];
      ++begins_[arc.to];
    }
    std::uint32_t sum = 0;
    for (std::uint32_t& begin : begins_) sum = begin += sum;
    arcs_.resize(sum);
    for (std::uint32_t a = 0; a < network.arcs.size(); ++a) {
      arcs_[--begins_[network.arcs[a].from]] = a;
      arcs_[--begins_[network.arcs[a].to]] = a;
    }
  }
  std::span<const std::uint32_t> of(std::uint32_t node) const {
    return std::span{arcs_}.subspan(begins_[node], begins_[node + std::size_t{1}] - begins_[node]);
  }

private:
  std::vector<std::uint32_t> begins_, arcs_;
};

class Climb {
public:
  Climb(const SwapComponent& component, const SwapNetwork& network, const std::vector<FixedArc>& fixed,
        std::int64_t most_arcs, std::vector<std::int32_t>& flow)
      : component_(component), network_(network), touching_(network), most_arcs_(most_arcs), flow_(flow),
        least_(network.arcs.size(), 0), most_(network.capacity), seen_(network.nodes, 0), through_(network.nodes, 0) {
    for (std::size_t a = 0; a < fixed.size(); ++a) {
      if (fixed[a] == FixedArc::full) least_[a] = most_[a];
      if (fixed[a] == FixedArc::empty) most_[a] = 0;
    }
  }

  std::int64_t run() {
    struct Turn {
      std::int64_t lacking;
      std::uint32_t group;
    };
    std::vector<Turn> turns;
    for (std::uint32_t g = 0; g < component_.groups.size(); ++g) {
      if (!component_.groups[g].kind.can_complete) continue;
      const std::int32_t complete = complete_in(g);
      std::int64_t lacking = 0;
      for (std::uint32_t p = network_.first_place[g]; p < network_.first_place[g + 1]; ++p) {
        const std::uint32_t arc = network_.places[p].right;
        least_[arc] = std::max(least_[arc], complete);
        if (flow_[arc] == complete) ++lacking;
      }
      turns.push_back({lacking, g});
    }
    std::ranges::sort(turns, {}, [](const Turn& turn) { return std::tuple{turn.lacking, turn.group}; });
    for (const Turn& turn : turns)
      while (looked_ < most_arcs_ && complete_in(turn.group) < count_of(turn.group) && one_more(turn.group)) {
      }
    return looked_;
  }

private:
  std::int32_t count_of(std::uint32_t g) const { return static_cast<std::int32_t>(component_.groups[g].count()); }

  std::int32_t complete_in(std::uint32_t g) const {
    std::int32_t fewest = std::numeric_limits<std::int32_t>::max();
    for (std::uint32_t p = network_.first_place[g]; p < network_.first_place[g + 1]; ++p)
      fewest = std::min(fewest, flow_[network_.places[p].right]);
    return fewest;
  }

  // Makes one more piece of the group complete, or leaves as many complete as there were. What has moved by then may
  // stay so: it is a flow as good as before.
  bool one_more(std::uint32_t g) {
    const std::int32_t due = complete_in(g) + 1;
    const std::uint32_t end = network_.first_place[g + 1];
    std::vector<std::int32_t> before;
    bool possible = true;
    for (std::uint32_t p = network_.first_place[g]; p < end; ++p) {
      const std::uint32_t arc = network_.places[p].right;
      before.push_back(least_[arc]);
      if (possible && flow_[arc] < due) possible = flow_[arc] < most_[arc] && push_round(arc);
      least_[arc] = std::max(least_[arc], std::min(due, flow_[arc]));
    }
    if (possible) return true;
    for (std::uint32_t p = network_.first_place[g]; p < end; ++p)
      least_[network_.places[p].right] = before[p - network_.first_place[g]];
    return false;
  }

  // One more unit on this arc, and round from its end to its beginning. Breadth first, against the direction.
  bool push_round(std::uint32_t arc) {
    const auto [goal, start] = std::pair{network_.arcs[arc].to, network_.arcs[arc].from};
    ++turn_;
    queue_.assign(1, start);
    seen_[start] = turn_;
    for (std::size_t next = 0; next < queue_.size(); ++next) {
      const std::uint32_t node = queue_[next];
      for (const std::uint32_t a : touching_.of(node)) {
        ++looked_;
        const auto [from, to] = network_.arcs[a];
        const bool forward = to == node;
        if (forward ? flow_[a] >= most_[a] : flow_[a] <= least_[a]) continue;
        const std::uint32_t other = forward ? from : to;
        if (seen_[other] == turn_) continue;
        seen_[other] = turn_;
        through_[other] = a;
        queue_.push_back(other);
        if (other != goal) continue;
        ++flow_[arc];
        for (std::uint32_t at = goal; at != start;) {
          const std::uint32_t way = through_[at];
          const bool along = network_.arcs[way].from == at;
          flow_[way] += along ? 1 : -1;
          at = along ? network_.arcs[way].to : network_.arcs[way].from;
        }
        return true;
      }
    }
    return false;
  }

  const SwapComponent& component_;
  const SwapNetwork& network_;
  const Touching touching_;
  const std::int64_t most_arcs_;
  std::int64_t looked_ = 0;
  std::vector<std::int32_t>& flow_;
  std::vector<std::int32_t> least_, most_; // by arc
  std::vector<std::uint32_t> seen_;        // by node: the turn in which it was
  std::vector<std::uint32_t> through_;     // by node: the arc that leads on towards the start
  std::vector<std::uint32_t> queue_;
  std::uint32_t turn_ = 0;
};

} // namespace

std::int64_t climb(const SwapComponent& component, const SwapNetwork& network, const std::vector<FixedArc>& fixed,
                   std::int64_t most_arcs, std::vector<std::int32_t>& flow) {
  return Climb{component, network, fixed, most_arcs, flow}.run();
}

} // namespace coeval
