// The search, level by level, strongest first:
//   1. Let all constraints of the level in, but for those that say how early something was (edges to the origin).
//      Wherever a negative cycle shows, doubt its weakest statement and take that out, until none is left.
//   2. Now the numbers say how late each point can be. Let the others in one by one; one that has no room closes a
//      cycle with the way that its point hangs from. This is quick, and takes out more than necessary.
//   3. Put the doubted statements back one by one, the strongest first. One that does not fit closes a cycle with few
//      statements; what is irreducible in that is reported, and its weakest statement set aside for good.
// So what is in the graph is satisfiable from 2 on, and each step of 3 costs a search of the neighbourhood only.
#include "constraints/contradictions.hpp"

#include <algorithm>

#include "constraints/addition.hpp"
#include "constraints/irreducible.hpp"
#include "constraints/potential.hpp"
#include "constraints/stop.hpp"

namespace coeval {
namespace {

class ContradictionSearch {
public:
  // `edges` holds every constraint that counts at some level.
  ContradictionSearch(const ConstraintGraph& graph, int levels, const WeakerThan& weaker, const SortedEdges& edges)
      : graph_(graph), weaker_(weaker), levels_(levels), edges_(edges), entering_(edges_), by_statement_(edges_),
        reduction_(graph, edges_, by_statement_), active_{&edges_, std::vector<char>(edges_.size(), 0),
                                                          first_numbers(edges_.points())},
        additions_(active_, entering_, by_statement_), out_(by_statement_.statements(), 0), edge_out_(edges_.size(), 0),
        weaker_edges_(static_cast<std::size_t>(levels)) {
    for (std::uint32_t e = 0; e < edges_.size(); ++e)
      if (edges_.level(e) > 0) weaker_edges_[edges_.level(e)].push_back(e);
  }

  std::vector<Contradiction> run() {
    for (level_ = 0; level_ < levels_; ++level_)
      for (const StatementIndex statement : doubt_until_satisfiable()) restore(statement);
    return std::move(found_);
  }

  std::vector<std::optional<Contradiction>> run_for_each(std::span<const StatementIndex> supposed) {
    for (const StatementIndex statement : supposed) set_out(statement, true);
    std::vector<std::optional<Contradiction>> found(supposed.size());
    for (level_ = 0; level_ < levels_; ++level_) {
      if (!doubt_until_satisfiable().empty()) stop("what is not supposed contradicts itself");
      for (std::size_t i = 0; i < supposed.size(); ++i)
        if (!found[i]) found[i] = suppose(supposed[i]);
    }
    return found;
  }

private:
  // Lets the statement in, sees what it contradicts, and takes it out again.
  std::optional<Contradiction> suppose(StatementIndex statement) {
    const std::vector<std::uint32_t> numbers = numbers_of(statement);
    std::optional<Contradiction> found;
    for (const std::uint32_t number : numbers) {
      const auto cycle = additions_.add(number);
      if (!cycle) continue;
      found = reduced(edges_at(*cycle));
      break;
    }
    additions_.take_out(numbers);
    return found;
  }

  [[nodiscard]] bool is_weaker(StatementIndex one, StatementIndex other) const {
    if (weaker_(one, other)) return true;
    return !weaker_(other, one) && one > other;
  }

  // The statements taken out, the strongest first.
  std::vector<StatementIndex> doubt_until_satisfiable() {
    std::vector<StatementIndex> doubted = settle_without_early_ends();
    doubt_early_ends(entering_.definitions_at(static_cast<std::size_t>(origin)), doubted);
    doubt_early_ends(entering_.stated_at(static_cast<std::size_t>(origin)), doubted);
    for (const StatementIndex statement : doubted) set_out(statement, false);
    std::ranges::sort(doubted, [&](StatementIndex one, StatementIndex other) { return is_weaker(other, one); });
    return doubted;
  }

  // Lets in the edges, which enter the origin and are in ascending order.
  void doubt_early_ends(std::span<const std::uint32_t> entering, std::vector<StatementIndex>& doubted) {
    std::uint32_t point = 0; // that the edge leaves: so near that it need not be looked up
    for (const std::uint32_t edge : entering) {
      while (edges_.leaving(point).last <= edge) ++point;
      doubt_ways_to(point, edge, doubted);
      if (counts(edge)) active_.active[edge] = 1;
    }
  }

  // Doubts statements until the edge, which leads from the point to the origin, has room. Where very many refer to what
  // is wrong, each gives a way of its own. Those are broken together, or for each of them the edges of all would be
  // gone through.
  void doubt_ways_to(std::uint32_t point, std::uint32_t edge, std::vector<StatementIndex>& doubted) {
    constexpr int one_by_one = 8;
    for (int round = 0; counts(edge) && active_.room(edge, point) < 0; ++round) {
      std::vector<std::uint32_t> taken_out;
      const auto doubt = [&](const std::vector<std::uint32_t>& cycle) {
        const std::vector<StatementIndex> statements = statements_of(edges_at(cycle));
        if (std::ranges::any_of(statements, [&](StatementIndex each) { return is_out(each); }))
          return; // broken already
        doubted.push_back(weakest_of(statements));
        set_out(doubted.back(), true);
        const std::vector<std::uint32_t> numbers = numbers_of(doubted.back());
        taken_out.insert(taken_out.end(), numbers.begin(), numbers.end());
      };
      if (round < one_by_one) {
        std::vector<std::uint32_t> cycle = additions_.way_from_origin(point);
        cycle.push_back(edge);
        doubt(cycle);
      } else {
        for (const std::vector<std::uint32_t>& cycle : ways_too_short(point, edge)) doubt(cycle);
      }
      additions_.take_out(taken_out);
    }
  }

  // Ways from the origin to the point that are too short for the edge from there to the origin, each with that edge:
  // one through each edge that enters the last point on them at which they part.
  [[nodiscard]] std::vector<std::vector<std::uint32_t>> ways_too_short(std::uint32_t point, std::uint32_t edge) const {
    const std::int64_t missing = -active_.room(edge, point);
    std::vector<std::uint32_t> shared{edge}; // the last first
    std::vector<std::uint32_t> parting;
    while (true) {
      if (point == static_cast<std::uint32_t>(origin)) return {{shared.rbegin(), shared.rend()}};
      parting.clear();
      for (const std::uint32_t e : entering_.at(point))
        if (active_.active[e] != 0 && active_.room(e) < missing) parting.push_back(e);
      if (parting.size() > 1) break;
      shared.push_back(parting.front()); // the one that the point hangs from
      point = edges_.from(parting.front());
    }
    std::vector<std::vector<std::uint32_t>> ways;
    for (const std::uint32_t e : parting) {
      ways.push_back(additions_.way_from_origin(edges_.from(e)));
      ways.back().push_back(e);
      ways.back().insert(ways.back().end(), shared.rbegin(), shared.rend());
    }
    return ways;
  }

  // Of all that counts at this level, lets in what does not enter the origin, and doubts what must be doubted already.
  std::vector<StatementIndex> settle_without_early_ends() {
    std::vector<StatementIndex> doubted;
    std::vector<char> waiting(edges_.points(), 0);
    for (const std::uint32_t edge : entering_.at(static_cast<std::size_t>(origin))) active_.active[edge] = 0;
    const auto let_in = [&](std::size_t edge, std::uint32_t point) {
      if (edges_.level(edge) == level_ && edges_.to(edge) != static_cast<std::uint32_t>(origin) && counts(edge))
        active_.active[edge] = waiting[point] = 1;
    };
    if (level_ == 0) {
      for (std::uint32_t point = 0; point < edges_.points(); ++point)
        for (auto [e, last] = edges_.leaving(point); e < last; ++e) let_in(e, point);
    } else {
      for (const std::uint32_t edge : weaker_edges_[static_cast<std::size_t>(level_)]) let_in(edge, edges_.from(edge));
    }
    if (settle_in_rounds(active_, waiting)) return doubted;
    CycleSearch search{active_};
    while (const auto cycle = search.next_cycle()) {
      doubted.push_back(weakest_of(statements_of(edges_at(*cycle))));
      set_out(doubted.back(), true);
      for (const std::uint32_t edge : numbers_of(doubted.back())) search.deactivate(edge);
    }
    // Numbers lowered along edges that are gone now are too low.
    if (!doubted.empty()) {
      active_.potential = first_numbers(edges_.points());
      std::ranges::fill(waiting, 1);
      if (!settle_in_rounds(active_, waiting)) (void)CycleSearch{active_}.next_cycle();
    }
    return doubted;
  }

  // Lets the statement's constraints in again, each after whatever contradicts it has been set aside.
  void restore(StatementIndex statement) {
    const std::vector<std::uint32_t> numbers = numbers_of(statement);
    for (std::size_t i = 0; i < numbers.size() && !is_out(statement);) {
      if (const auto cycle = additions_.add(numbers[i]))
        report(edges_at(*cycle));
      else
        ++i;
    }
  }

  void report(const std::vector<Edge>& cycle) {
    Contradiction contradiction = reduced(cycle);
    additions_.take_out(numbers_of(contradiction.weakest));
    set_out(contradiction.weakest, true);
    found_.push_back(std::move(contradiction));
  }

  // The last edge of the cycle is the one that was to be added.
  Contradiction reduced(const std::vector<Edge>& cycle) {
    std::vector<StatementIndex> order = statements_of(cycle);
    std::ranges::sort(order, [&](StatementIndex one, StatementIndex other) { return is_weaker(one, other); });
    Reduction::Conflict conflict =
        reduction_.reduce(cycle, std::move(order), level_, cycle.back().statement, active_.potential);
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
    for (const std::uint32_t number : by_statement_.of(statement))
      if (edges_.level(number) <= level_) numbers.push_back(number);
    return numbers;
  }

  [[nodiscard]] std::vector<Edge> edges_at(const std::vector<std::uint32_t>& numbers) const {
    std::vector<Edge> edges;
    edges.reserve(numbers.size());
    for (const std::uint32_t number : numbers) edges.push_back(edge_of(graph_, edges_.index(number)));
    return edges;
  }

  [[nodiscard]] bool counts(std::size_t number) const {
    return edges_.level(number) <= level_ && edge_out_[number] == 0;
  }
  // Doubted, set aside or apart from the rest.
  [[nodiscard]] bool is_out(StatementIndex statement) const { return out_[static_cast<std::size_t>(statement)] != 0; }
  void set_out(StatementIndex statement, bool out) {
    if (static_cast<std::size_t>(statement) >= out_.size()) return;
    out_[static_cast<std::size_t>(statement)] = out ? 1 : 0;
    for (const std::uint32_t edge : by_statement_.of(statement)) edge_out_[edge] = out ? 1 : 0;
  }

  const ConstraintGraph& graph_;
  const WeakerThan& weaker_;
  int levels_;
  const SortedEdges& edges_;
  EnteringEdges entering_;
  EdgesByStatement by_statement_;
  Reduction reduction_;
  ActiveEdges active_;
  Additions additions_;
  std::vector<char> out_;                                // by statement
  std::vector<char> edge_out_;                           // the same by edge: asked of all edges on every level
  std::vector<std::vector<std::uint32_t>> weaker_edges_; // by level, but for the strongest, which nearly all are of
  std::vector<Contradiction> found_;
  int level_ = 0;
};

SortedEdges edges_below(const ConstraintGraph& graph, int levels) {
  return {graph, [&](ConstraintIndex index) { return graph[index].level < levels; }};
}

} // namespace

std::vector<Contradiction> find_contradictions(const ConstraintGraph& graph, int levels, const WeakerThan& weaker) {
  const SortedEdges edges = edges_below(graph, levels);
  if (is_satisfiable(edges)) return {};
  return ContradictionSearch{graph, levels, weaker, edges}.run();
}

std::vector<std::optional<Contradiction>> find_contradictions_of(const ConstraintGraph& graph, int levels,
                                                                 std::span<const StatementIndex> supposed,
                                                                 const WeakerThan& weaker) {
  if (supposed.empty()) return {};
  const SortedEdges edges = edges_below(graph, levels);
  return ContradictionSearch{graph, levels, weaker, edges}.run_for_each(supposed);
}

} // namespace coeval
