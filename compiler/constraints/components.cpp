#include "constraints/components.hpp"

#include <utility>

#include <boost/graph/compressed_sparse_row_graph.hpp>
#include <boost/graph/strong_components.hpp>
#include <boost/property_map/property_map.hpp>

namespace coeval {

std::vector<std::uint32_t> components_of(const ConstraintGraph& graph) {
  using Digraph = boost::compressed_sparse_row_graph<boost::directedS, boost::no_property, boost::no_property,
                                                     boost::no_property, std::uint32_t, std::uint32_t>;
  std::vector<std::pair<std::uint32_t, std::uint32_t>> pairs;
  pairs.reserve(graph.constraints().size());
  for (const Constraint& constraint : graph.constraints())
    pairs.emplace_back(static_cast<std::uint32_t>(constraint.y), static_cast<std::uint32_t>(constraint.x));
  const Digraph digraph{boost::edges_are_unsorted_multi_pass, pairs.begin(), pairs.end(), graph.points()};
  std::vector<std::uint32_t> components(graph.points());
  // Tarjan 1972. Boost walks depth first with a stack of its own, so a long chain does not exhaust the program's.
  boost::strong_components(digraph,
                           boost::make_iterator_property_map(components.begin(), get(boost::vertex_index, digraph)));
  return components;
}

} // namespace coeval
