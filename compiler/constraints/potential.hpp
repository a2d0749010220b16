// constraints/potential.hpp: can all these constraints hold at once, and if so, for which numbers?
//
// A potential gives every point a number such that every edge has room: potential[to] <= potential[from] + length. One
// exists iff no cycle is negative (Bellman 1958, Ford 1956). Rounds over the points that wait settle most graphs in a
// few passes; what has not settled then is left to a queue of points, which notices a negative cycle as soon as it
// closes (R. E. Tarjan's subtree disassembly, as described in B. V. Cherkassky and A. V. Goldberg, "Negative-cycle
// detection algorithms", Mathematical Programming 85, 1999).
//
// The origin begins with a number so low that whatever can be reached from it is told apart by that from what cannot.
// Most constraints are dates, edges to and from the origin: so it is settled from the beginning, and where a number is
// found for it that is lower still, the way there and back is a negative cycle.
//
// Boost.Graph's bellman_ford_shortest_paths is not used: it runs to the last round before it says no, does not say
// which edges form the cycle, and its predecessors are points, which loses which of two parallel edges mattered.
#pragma once

#include <cstdint>
#include <deque>
#include <optional>
#include <vector>

#include "constraints/edges.hpp"

namespace coeval {

// Some of the edges, and a number for every point. Whether the numbers are a potential depends on who handed it over.
struct ActiveEdges {
  const SortedEdges* edges;            // by the point that they leave
  std::vector<char> active;            // by edge number
  std::vector<std::int64_t> potential; // by point

  // What is left of the edge's length between the numbers of its ends: never negative where they are a potential.
  [[nodiscard]] std::int64_t room(std::size_t number) const { return room(number, edges->from(number)); }
  // The same where the point that the edge leaves is at hand, which saves looking it up.
  [[nodiscard]] std::int64_t room(std::size_t number, std::size_t from) const {
    return potential[from] + edges->length(number) - potential[edges->to(number)];
  }
};

// The origin's number. All lengths add up to 2^56 at most, so that numbers on ways from the origin and others, which
// begin at zero, stay far apart.
inline constexpr std::int64_t origin_number = -(std::int64_t{1} << 58U);
[[nodiscard]] inline bool hangs_from_origin(std::int64_t number) { return number < origin_number / 2; }

// Zero for every point but the origin.
[[nodiscard]] std::vector<std::int64_t> first_numbers(std::uint32_t points);

// Lowers graph.potential over the active edges that leave the points `waiting` and those lowered in turn, until every
// edge has room: true when it got there within a few rounds. If not, `waiting` holds the points whose edges may have
// none.
bool settle_in_rounds(ActiveEdges& graph, std::vector<char>& waiting);

// Lowers numbers that are a potential of the edges with a level below `first` until they are one of those up to `last`.
// Where they are lowered from first_numbers(), those that hang from the origin tell the distance from there. False
// where a cycle is negative.
bool settle_levels(const SortedEdges& edges, int first, int last, std::vector<std::int64_t>& numbers);

// Is there a potential of all the edges? Numbers of 32 bits say so where the days are few enough, in an eighth less
// time at 14 million edges.
bool is_satisfiable(const SortedEdges& edges);

// Lowers graph.potential until every active edge has room, and stops at every negative cycle on the way. Any numbers
// will do to begin with; the closer to a potential, the less is left to do.
class CycleSearch {
public:
  explicit CycleSearch(ActiveEdges& graph);

  // The numbers of the edges of a negative cycle, each continuing where the last ended and passing no point twice; or
  // nothing once graph.potential is a potential. Asked again without deactivating an edge of it, finds one again.
  std::optional<std::vector<std::uint32_t>> next_cycle();
  void deactivate(std::uint32_t edge);

private:
  enum class Turn : char {
    none,           // its edges have been followed since it was last lowered
    queued,         // waits in the queue
    passed_over,    // still in the queue, but its turn is skipped: a point it hangs from was lowered since
    passed_and_out, // the same, and the queue has moved past it
  };
  static constexpr std::uint32_t nothing = 0xffffffffU;

  void begin();
  void enqueue(std::uint32_t point);
  std::optional<std::vector<std::uint32_t>> follow_edges_of(std::uint32_t point);
  [[nodiscard]] bool hangs_below(std::uint32_t point, std::uint32_t lookout);
  void take_apart_below();
  void raise(std::uint32_t point);
  void hang(std::uint32_t point, std::uint32_t edge, std::uint32_t parent);
  void cut(std::uint32_t point);
  [[nodiscard]] std::vector<std::uint32_t> cycle_through(std::uint32_t closing_edge) const;

  ActiveEdges& graph_;
  std::deque<std::uint32_t> queue_;
  std::vector<Turn> turns_;
  std::vector<std::uint32_t> passed_; // points that may be passed_and_out
  // The forest of who was lowered from whom: a point's number equals its parent's plus the length of the edge between.
  std::vector<std::uint32_t> parent_edge_; // edge number, or nothing
  std::vector<std::uint32_t> parent_;      // the point that it leaves
  std::vector<std::uint32_t> first_child_;
  std::vector<std::uint32_t> next_sibling_;
  std::vector<std::uint32_t> previous_sibling_;
  std::vector<std::uint32_t> below_;      // a point and what hangs below it; kept to save allocations
  std::optional<EnteringEdges> entering_; // once needed
  std::int64_t lowest_ = 0;               // of all numbers so far
};

} // namespace coeval
