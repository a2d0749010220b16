// The search, level by level, strongest first:
//   1. Let all constraints of the level in. Wherever a negative cycle shows, doubt its weakest statement, take that
//   out,
//      and go on until none is left. This is quick, and takes out more than necessary.
//   2. Put the doubted statements back one by one, the strongest first. One that does not fit closes a cycle with few
//      statements; what is irreducible in that is reported, and its weakest statement set aside for good.
// So what is in the graph is satisfiable from 1 on, and each step of 2 costs a search of the neighbourhood only.
#include "constraints/contradictions.hpp"

#include <algorithm>
#include <set>

#include "constraints/addition.hpp"
#include "constraints/components.hpp"
#include "constraints/irreducible.hpp"
#include "constraints/potential.hpp"
#include "constraints/stop.hpp"

namespace coeval {
namespace {

class ContradictionSearch {
public:
  // `edges` holds every constraint that counts at some level and can be on a cycle.
  ContradictionSearch(const ConstraintGraph& graph, const WeakerThan& weaker, const SortedEdges& edges,
                      const SortedEdges& definitions)
      : graph_(graph), weaker_(weaker), edges_(edges),
        reduction_(graph, definitions), active_{&edges, std::vector<char>(edges.all().size(), 0),
                                                std::vector<std::int64_t>(edges.points(), 0)} {
    for (std::uint32_t e = 0; e < edges.all().size(); ++e)
      if (edges[e].statement != by_definition) edges_by_statement_.emplace_back(edges[e].statement, e);
    std::ranges::sort(edges_by_statement_);
  }

  std::vector<Contradiction> run(int levels) {
    for (level_ = 0; level_ < levels; ++level_) {
      for (std::size_t e = 0; e < active_.active.size(); ++e)
        if (graph_[edges_[e].constraint].level == level_ && !set_aside_.contains(edges_[e].statement))
          active_.active[e] = 1;
      const std::vector<StatementIndex> doubted = doubt_until_satisfiable();
      Additions additions{active_};
      for (const StatementIndex statement : doubted) restore(statement, additions);
    }
    return std::move(found_);
  }

  std::vector<std::optional<Contradiction>> run_for_each(int levels, std::span<const StatementIndex> supposed) {
    std::vector<StatementIndex> apart(supposed.begin(), supposed.end());
    std::ranges::sort(apart);
    std::vector<std::optional<Contradiction>> found(supposed.size());
    for (level_ = 0; level_ < levels; ++level_) {
      for (std::size_t e = 0; e < active_.active.size(); ++e)
        if (graph_[edges_[e].constraint].level == level_ && !std::ranges::binary_search(apart, edges_[e].statement))
          active_.active[e] = 1;
      if (CycleSearch{active_}.next_cycle()) stop("what is not supposed contradicts itself");
      Additions additions{active_};
      for (std::size_t i = 0; i < supposed.size(); ++i)
        if (!found[i]) found[i] = suppose(supposed[i], additions);
    }
    return found;
  }

private:
  // Lets the statement in, sees what it contradicts, and takes it out again.
  std::optional<Contradiction> suppose(StatementIndex statement, Additions& additions) {
    const std::vector<std::uint32_t> numbers = numbers_of(statement);
    std::optional<Contradiction> found;
    for (const std::uint32_t number : numbers) {
      const auto cycle = additions.add(number);
      if (!cycle) continue;
      found = reduced(edges_at(*cycle));
      break;
    }
    for (const std::uint32_t number : numbers) active_.active[number] = 0;
    return found;
  }

  [[nodiscard]] bool is_weaker(StatementIndex one, StatementIndex other) const {
    if (weaker_(one, other)) return true;
    return !weaker_(other, one) && one > other;
  }

  // The statements taken out, the strongest first.
  std::vector<StatementIndex> doubt_until_satisfiable() {
    std::vector<StatementIndex> doubted;
    CycleSearch search{active_};
    while (const auto cycle = search.next_cycle()) {
      doubted.push_back(weakest_of(statements_of(edges_at(*cycle))));
      for (const std::uint32_t edge : numbers_of(doubted.back())) search.deactivate(edge);
    }
    std::ranges::sort(doubted, [&](StatementIndex one, StatementIndex other) { return is_weaker(other, one); });
    return doubted;
  }

  // Lets the statement's constraints in again, each after whatever contradicts it has been set aside.
  void restore(StatementIndex statement, Additions& additions) {
    const std::vector<std::uint32_t> numbers = numbers_of(statement);
    for (std::size_t i = 0; i < numbers.size() && !set_aside_.contains(statement);) {
      if (const auto cycle = additions.add(numbers[i]))
        report(edges_at(*cycle));
      else
        ++i;
    }
  }

  void report(const std::vector<Edge>& cycle) {
    Contradiction contradiction = reduced(cycle);
    for (const std::uint32_t edge : numbers_of(contradiction.weakest)) active_.active[edge] = 0;
    set_aside_.insert(contradiction.weakest);
    found_.push_back(std::move(contradiction));
  }

  Contradiction reduced(const std::vector<Edge>& cycle) {
    std::vector<StatementIndex> order = statements_of(cycle);
    std::ranges::sort(order, [&](StatementIndex one, StatementIndex other) { return is_weaker(one, other); });
    const auto constraints_of = [&](StatementIndex statement) { return edges_at(numbers_of(statement)); };
    Reduction::Conflict conflict =
        reduction_.reduce(cycle, std::move(order), level_, constraints_of, active_.potential);
    return told(conflict);
  }

  // Turns the cycle so that it begins in the statement with the lowest index, and there in its lowest constraint.
  [[nodiscard]] Contradiction told(Reduction::Conflict& conflict) const {
    const auto by_statement = [](const Edge& edge) { return std::pair{edge.statement, edge.constraint}; };
    const auto first = std::ranges::min_element(conflict.cycle, {}, by_statement);
    std::rotate(conflict.cycle.begin(), first, conflict.cycle.end());
    Contradiction contradiction;
    contradiction.level = level_;
    contradiction.weakest = weakest_of(conflict.statements);
    for (const Edge& edge : conflict.cycle) {
      contradiction.cycle.push_back(edge.constraint);
      contradiction.excess -= edge.length;
      const auto& known = contradiction.statements;
      const bool fresh = edge.statement != by_definition && std::ranges::find(known, edge.statement) == known.end();
      if (fresh) contradiction.statements.push_back(edge.statement);
    }
    return contradiction;
  }

  [[nodiscard]] StatementIndex weakest_of(const std::vector<StatementIndex>& statements) const {
    if (statements.empty()) stop("what holds by definition contradicts itself");
    return *std::ranges::min_element(statements,
                                     [&](StatementIndex one, StatementIndex other) { return is_weaker(one, other); });
  }

  // The numbers of the statement's edges that count at this level.
  [[nodiscard]] std::vector<std::uint32_t> numbers_of(StatementIndex statement) const {
    std::vector<std::uint32_t> numbers;
    const auto first = std::ranges::lower_bound(edges_by_statement_, std::pair{statement, std::uint32_t{0}});
    for (auto it = first; it != edges_by_statement_.end() && it->first == statement; ++it)
      if (graph_[edges_[it->second].constraint].level <= level_) numbers.push_back(it->second);
    return numbers;
  }

  [[nodiscard]] std::vector<Edge> edges_at(const std::vector<std::uint32_t>& numbers) const {
    std::vector<Edge> edges;
    edges.reserve(numbers.size());
    for (const std::uint32_t number : numbers) edges.push_back(edges_[number]);
    return edges;
  }

  const ConstraintGraph& graph_;
  const WeakerThan& weaker_;
  const SortedEdges& edges_;
  Reduction reduction_;
  ActiveEdges active_;
  std::vector<std::pair<StatementIndex, std::uint32_t>> edges_by_statement_;
  std::set<StatementIndex> set_aside_;
  std::vector<Contradiction> found_;
  int level_ = 0;
};

// The edges that count and can be on a cycle, and those of them that hold by definition.
struct CyclicEdges {
  CyclicEdges(const ConstraintGraph& graph, int levels) : CyclicEdges(graph, levels, components_of(graph)) {}

  SortedEdges all;
  SortedEdges definitions;

private:
  CyclicEdges(const ConstraintGraph& graph, int levels, const std::vector<std::uint32_t>& components)
      : all(of(graph, levels, components, false)), definitions(of(graph, levels, components, true)) {}

  static SortedEdges of(const ConstraintGraph& graph, int levels, const std::vector<std::uint32_t>& components,
                        bool definitions_alone) {
    return {graph.points(), edges_of(graph, [&](ConstraintIndex index) {
              const Constraint& constraint = graph[index];
              return constraint.level < levels && (!definitions_alone || constraint.statement == by_definition) &&
                     components[static_cast<std::size_t>(constraint.x)] ==
                         components[static_cast<std::size_t>(constraint.y)];
            })};
  }
};

} // namespace

std::vector<Contradiction> find_contradictions(const ConstraintGraph& graph, int levels, const WeakerThan& weaker) {
  const auto counts = [&](ConstraintIndex index) { return graph[index].level < levels; };
  if (find_potential(SortedEdges{graph.points(), edges_of(graph, counts)})) return {};
  const CyclicEdges edges{graph, levels};
  return ContradictionSearch{graph, weaker, edges.all, edges.definitions}.run(levels);
}

std::vector<std::optional<Contradiction>> find_contradictions_of(const ConstraintGraph& graph, int levels,
                                                                 std::span<const StatementIndex> supposed,
                                                                 const WeakerThan& weaker) {
  if (supposed.empty()) return {};
  const CyclicEdges edges{graph, levels};
  return ContradictionSearch{graph, weaker, edges.all, edges.definitions}.run_for_each(levels, supposed);
}

} // namespace coeval
