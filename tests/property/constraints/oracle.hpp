// What must hold of every answer about every constraint graph? Each check computes it afresh, by means that share
// nothing with the compiler: Floyd and Warshall's all-pairs tables. A check returns what is wrong, or an empty text.
// Header only, so that the fuzz target can use it too.
#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>
#include <set>
#include <sstream>
#include <string>
#include <tuple>
#include <vector>

#include "constraints/contradictions.hpp"
#include "constraints/entail.hpp"

namespace oracle {

using namespace coeval;

// The best chain between two points: its length, how many constraints are not by definition, how many there are.
struct Chain {
  std::int64_t length = 0;
  std::int64_t stated = 0;
  std::int64_t all = 0;
  friend auto operator<=>(const Chain&, const Chain&) = default;
};
using Table = std::vector<std::vector<std::optional<Chain>>>; // [from][to]

// Nothing where a cycle is negative.
inline std::optional<Table> all_pairs(std::uint32_t points, const std::vector<Constraint>& constraints) {
  Table best(points, std::vector<std::optional<Chain>>(points));
  const auto improve = [](std::optional<Chain>& chain, const Chain& other) {
    if (!chain || other < *chain) chain = other;
  };
  for (std::uint32_t p = 0; p < points; ++p) best[p][p] = Chain{};
  for (const Constraint& c : constraints)
    improve(best[static_cast<std::size_t>(c.y)][static_cast<std::size_t>(c.x)],
            {c.most, c.statement == by_definition ? 0 : 1, 1});
  for (std::uint32_t via = 0; via < points; ++via) {
    for (std::uint32_t from = 0; from < points; ++from) {
      for (std::uint32_t to = 0; to < points; ++to) {
        const auto& one = best[from][via];
        const auto& two = best[via][to];
        if (one && two)
          improve(best[from][to], {one->length + two->length, one->stated + two->stated, one->all + two->all});
      }
      if (best[from][from]->length < 0) return {};
    }
  }
  return best;
}

// The constraints up to a level of those statements that `keep` keeps, and of definitions.
template <typename Keep> std::vector<Constraint> part_of(const ConstraintGraph& graph, int level, const Keep& keep) {
  std::vector<Constraint> part;
  for (const Constraint& c : graph.constraints())
    if (c.level <= level && (c.statement == by_definition || keep(c.statement))) part.push_back(c);
  return part;
}

inline std::string describe(const ConstraintGraph& graph) {
  std::ostringstream out;
  out << graph.points() << " points;";
  for (const Constraint& c : graph.constraints()) {
    out << " p" << static_cast<std::uint32_t>(c.x) << "-p" << static_cast<std::uint32_t>(c.y) << "<=" << c.most;
    if (c.statement == by_definition)
      out << " (definition";
    else
      out << " (s" << static_cast<std::uint32_t>(c.statement);
    out << ", level " << static_cast<int>(c.level) << ");";
  }
  return out.str();
}

inline std::string fault_in_proof(const ConstraintGraph& graph, int level, const std::vector<ConstraintIndex>& proof,
                                  Point x, Point y, const std::optional<Chain>& best) {
  if (x == y || !best) return proof.empty() ? "" : "a proof where nothing is to prove";
  Chain chain;
  Point end = y;
  for (const ConstraintIndex index : proof) {
    const Constraint& c = graph[index];
    if (c.y != end) return "the proof is not a chain";
    if (c.level > level) return "the proof uses a weaker level";
    end = c.x;
    chain.length += c.most;
    chain.stated += c.statement == by_definition ? 0 : 1;
    ++chain.all;
  }
  if (end != x) return "the proof ends at the wrong point";
  if (chain.length != best->length) return "the proof's lengths do not add up to the bound";
  if (chain.stated != best->stated) return "the proof has more stated constraints than needed";
  if (chain.all != best->all) return "the proof has more constraints than needed";
  return "";
}

inline std::string fault_in_entailment(const ConstraintGraph& graph, int level,
                                       const std::vector<StatementIndex>& left_out) {
  const auto kept = [&](StatementIndex s) { return std::find(left_out.begin(), left_out.end(), s) == left_out.end(); };
  const std::vector<Constraint> part = part_of(graph, level, kept);
  const auto table = all_pairs(graph.points(), part);
  const auto entailment = Entailment::build(graph, level, left_out);
  if (table.has_value() != entailment.has_value()) return "wrong about whether the graph is satisfiable";
  if (!table) return "";
  for (std::uint32_t from = 0; from < graph.points(); ++from) {
    const BoundRow row = entailment->upper_from(Point{from});
    const BoundRow column = entailment->upper_to(Point{from});
    for (std::uint32_t to = 0; to < graph.points(); ++to) {
      const std::optional<Chain>& best = (*table)[from][to];
      const auto bound = best ? std::optional{best->length} : std::nullopt;
      if (entailment->upper(Point{to}, Point{from}) != bound) return "upper() gives a wrong bound";
      if (row[to] != bound) return "upper_from() gives a wrong bound";
      const std::optional<Chain>& back = (*table)[to][from];
      if (column[to] != (back ? std::optional{back->length} : std::nullopt)) return "upper_to() gives a wrong bound";
      const auto proof = entailment->proof(Point{to}, Point{from});
      if (auto fault = fault_in_proof(graph, level, proof, Point{to}, Point{from}, best); !fault.empty()) return fault;
      for (const ConstraintIndex index : proof)
        if (graph[index].statement != by_definition && !kept(graph[index].statement))
          return "the proof uses a statement that was left out";
      // p_from - p_to <= most closes a cycle with the best chain from -> to.
      const std::int64_t limit = best ? -best->length : -1000;
      for (const std::int64_t most : {std::int64_t{-3}, limit, limit - 1}) {
        std::vector<Constraint> more = part;
        more.push_back({Point{from}, Point{to}, most});
        if (entailment->allows(Point{from}, Point{to}, most) != all_pairs(graph.points(), more).has_value())
          return "allows() is wrong";
      }
    }
  }
  return "";
}

inline std::string fault_in_contradiction(const ConstraintGraph& graph, const Contradiction& contradiction,
                                          const std::set<StatementIndex>& set_aside) {
  const std::set<StatementIndex> members(contradiction.statements.begin(), contradiction.statements.end());
  if (members.empty() || members.size() != contradiction.statements.size()) return "statements are missing or repeated";
  if (contradiction.statements.front() != *members.begin()) return "the first statement is not the lowest";
  for (const StatementIndex s : members)
    if (set_aside.count(s) != 0) return "a statement that was set aside is back";
  const auto holds = [&](const auto& keep) {
    return all_pairs(graph.points(), part_of(graph, contradiction.level, keep)).has_value();
  };
  if (holds([&](StatementIndex s) { return members.count(s) != 0; })) return "its statements do not contradict";
  for (const StatementIndex dropped : members)
    if (!holds([&](StatementIndex s) { return s != dropped && members.count(s) != 0; })) return "it is not irreducible";

  std::vector<StatementIndex> order;
  std::int64_t length = 0;
  for (std::size_t i = 0; i < contradiction.cycle.size(); ++i) {
    const Constraint& c = graph[contradiction.cycle[i]];
    const Constraint& next = graph[contradiction.cycle[(i + 1) % contradiction.cycle.size()]];
    if (c.x != next.y) return "the cycle is not closed";
    if (c.level > contradiction.level) return "the cycle uses a weaker level";
    length += c.most;
    if (c.statement != by_definition && std::find(order.begin(), order.end(), c.statement) == order.end())
      order.push_back(c.statement);
  }
  if (order != contradiction.statements) return "the statements are not those of the cycle, in its order";
  if (graph[contradiction.cycle.front()].statement != order.front()) return "the cycle begins elsewhere";
  if (length >= 0 || contradiction.excess != -length) return "the excess is not what the cycle's length lacks";
  return "";
}

// `weaker` must be what find_contradictions() was given.
inline std::string fault_in_contradictions(const ConstraintGraph& graph, int levels, const WeakerThan& weaker) {
  const std::vector<Contradiction> found = find_contradictions(graph, levels, weaker);
  std::set<StatementIndex> set_aside;
  const auto left = [&](StatementIndex s) { return set_aside.count(s) == 0; };
  const auto satisfiable = [&](int level) {
    return all_pairs(graph.points(), part_of(graph, level, left)).has_value();
  };
  int level = 0;
  for (const Contradiction& contradiction : found) {
    if (contradiction.level < level || contradiction.level >= levels) return "the levels are out of order";
    level = contradiction.level;
    if (auto fault = fault_in_contradiction(graph, contradiction, set_aside); !fault.empty()) return fault;
    for (const StatementIndex s : contradiction.statements) {
      if (weaker(s, contradiction.weakest)) return "the weakest is not the weakest";
      if (!weaker(contradiction.weakest, s) && s > contradiction.weakest)
        return "of equals the higher index is weakest";
    }
    if (satisfiable(level)) return "reported though the statements set aside before mend it";
    set_aside.insert(contradiction.weakest);
    // What is shown at a level must not be contradictory at a stronger one already.
    const std::set<StatementIndex> members(contradiction.statements.begin(), contradiction.statements.end());
    const auto member = [&](StatementIndex s) { return members.count(s) != 0; };
    if (level > 0 && !all_pairs(graph.points(), part_of(graph, level - 1, member)))
      return "a stronger level has the contradiction already";
  }
  for (int each = 0; each < levels; ++each)
    if (!satisfiable(each)) return "still unsatisfiable with all the weakest set aside";
  const std::vector<Contradiction> again = find_contradictions(graph, levels, weaker);
  const auto same = [](const Contradiction& a, const Contradiction& b) {
    return std::tie(a.statements, a.cycle, a.excess, a.level, a.weakest) ==
           std::tie(b.statements, b.cycle, b.excess, b.level, b.weakest);
  };
  if (!std::equal(found.begin(), found.end(), again.begin(), again.end(), same)) return "not the same a second time";
  return "";
}

} // namespace oracle
