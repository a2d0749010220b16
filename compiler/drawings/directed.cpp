#include "drawings/directed.hpp"

#include <algorithm>
#include <cstdint>
#include <utility>

#include <boost/graph/compressed_sparse_row_graph.hpp>
#include <boost/graph/strong_components.hpp>
#include <boost/property_map/property_map.hpp>

namespace coeval {
namespace {

// A node on the way down a depth-first search, and which of its arcs is next.
struct Step {
  std::size_t node = 0;
  std::size_t next = 0;
};

// Marks the arcs that a way of two or more others stands in for. `arcs` are positions in `all`, the only ones looked
// at. Ends of ways are taken 64 at a time, one bit each.
void mark_implied(std::size_t nodes, const std::vector<Arc>& all, const std::vector<std::size_t>& arcs,
                  std::vector<bool>& implied, bool only_uncertain) {
  std::vector<Arc> here;
  here.reserve(arcs.size());
  for (const std::size_t arc : arcs) here.push_back(all[arc]);
  const std::vector<std::size_t> component = strong_components(nodes, here);
  const std::size_t components = nodes == 0 ? 0 : *std::ranges::max_element(component) + 1;
  std::vector<Arc> between; // components
  std::vector<std::size_t> whose;
  for (std::size_t i = 0; i < here.size(); ++i) {
    const Arc arc{component[here[i].from], component[here[i].to], here[i].certain};
    if (arc.from == arc.to) continue;
    between.push_back(arc);
    whose.push_back(arcs[i]);
  }
  const Outgoing outgoing{components, between};
  std::vector<std::uint64_t> reached(components); // by one arc or more
  for (std::size_t first = 0; first < components; first += 64) {
    std::ranges::fill(reached, 0);
    const auto bit = [first](std::size_t end) {
      return end >= first && end - first < 64 ? std::uint64_t{1} << (end - first) : 0;
    };
    // Arcs lead to lower numbers, so these are done before.
    for (std::size_t node = first; node < components; ++node) {
      std::uint64_t by_two = 0; // or more
      for (const std::size_t* arc = outgoing.begin(node); arc != outgoing.end(node); ++arc)
        by_two |= reached[between[*arc].to];
      std::uint64_t by_one = 0;
      for (const std::size_t* arc = outgoing.begin(node); arc != outgoing.end(node); ++arc) {
        const std::uint64_t end = bit(between[*arc].to);
        by_one |= end;
        if ((by_two & end) != 0 && !(only_uncertain && between[*arc].certain)) implied[whose[*arc]] = true;
      }
      reached[node] = by_one | by_two;
    }
  }
}

} // namespace

Outgoing::Outgoing(std::size_t nodes, const std::vector<Arc>& arcs) : starts_(nodes + 1, 0), order_(arcs.size()) {
  for (const Arc& arc : arcs) ++starts_[arc.from + 1];
  for (std::size_t node = 0; node < nodes; ++node) starts_[node + 1] += starts_[node];
  std::vector<std::size_t> next(starts_.begin(), starts_.end() - 1);
  for (std::size_t arc = 0; arc < arcs.size(); ++arc) order_[next[arcs[arc].from]++] = arc;
}

std::vector<std::size_t> strong_components(std::size_t nodes, const std::vector<Arc>& arcs) {
  using Digraph = boost::compressed_sparse_row_graph<boost::directedS>;
  std::vector<std::pair<std::size_t, std::size_t>> ends;
  ends.reserve(arcs.size());
  for (const Arc& arc : arcs) ends.emplace_back(arc.from, arc.to);
  const Digraph digraph{boost::edges_are_unsorted_multi_pass, ends.begin(), ends.end(), nodes};
  std::vector<std::size_t> component(nodes);
  boost::strong_components(digraph,
                           boost::make_iterator_property_map(component.begin(), get(boost::vertex_index, digraph)));
  return component;
}

std::vector<bool> implied_arcs(std::size_t nodes, const std::vector<Arc>& arcs) {
  std::vector<bool> implied(arcs.size(), false);
  std::vector<std::size_t> certain;
  std::vector<std::size_t> every;
  for (std::size_t arc = 0; arc < arcs.size(); ++arc) {
    every.push_back(arc);
    if (arcs[arc].certain) certain.push_back(arc);
  }
  mark_implied(nodes, arcs, certain, implied, false);
  if (certain.size() < every.size()) mark_implied(nodes, arcs, every, implied, true);
  // A certain arc within a circle that only uncertain ones close is a part of that circle, and stays.
  const std::vector<std::size_t> component = strong_components(nodes, arcs);
  for (std::size_t arc = 0; arc < arcs.size(); ++arc)
    if (component[arcs[arc].from] == component[arcs[arc].to]) implied[arc] = false;
  return implied;
}

std::vector<bool> backward_arcs(std::size_t nodes, const std::vector<Arc>& arcs) {
  const Outgoing outgoing{nodes, arcs};
  std::vector<std::size_t> incoming(nodes, 0);
  for (const Arc& arc : arcs)
    if (arc.from != arc.to) ++incoming[arc.to];
  enum class Mark : std::uint8_t { none, on_path, done };
  std::vector<Mark> marks(nodes, Mark::none);
  std::vector<bool> backward(arcs.size(), false);
  std::vector<Step> path;
  const auto search = [&](std::size_t root) {
    if (marks[root] != Mark::none) return;
    marks[root] = Mark::on_path;
    path.push_back({root, 0});
    while (!path.empty()) {
      Step& step = path.back();
      if (step.next == outgoing.count(step.node)) {
        marks[step.node] = Mark::done;
        path.pop_back();
        continue;
      }
      const std::size_t arc = outgoing.begin(step.node)[step.next++];
      const std::size_t to = arcs[arc].to;
      if (to == step.node) continue;
      if (marks[to] == Mark::on_path) backward[arc] = true;
      if (marks[to] != Mark::none) continue;
      marks[to] = Mark::on_path;
      path.push_back({to, 0});
    }
  };
  for (std::size_t node = 0; node < nodes; ++node)
    if (incoming[node] == 0) search(node);
  for (std::size_t node = 0; node < nodes; ++node) search(node);
  return backward;
}

} // namespace coeval
