// verdicts/order.hpp: could something from one span have gone into another?
//
// A part of span `from` (made, or carried by a route) on some day m goes into span `into` (packed, or carried on) on
// some day p, with 0 <= p - m <= leftover. That is possible iff start(from) <= end(into) and start(into) - end(from) <=
// leftover: a part can wait in a bin for a figure, a figure cannot wait for a part.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <tuple>

#include "chronology/chronology.hpp"
#include "verdicts/verdict.hpp"

namespace coeval {

// How far apart two points are. Answers about points that are asked about again and again are remembered.
class Distances {
public:
  explicit Distances(const Chronology& chronology) : chronology_(chronology) {}
  virtual ~Distances() = default;
  Distances(const Distances&) = default;
  Distances(Distances&&) = default;
  Distances& operator=(const Distances&) = delete;
  Distances& operator=(Distances&&) = delete;

  // Remember answers about this point.
  void keep(Point point) { kept_.insert(point); }
  // The tightest w with x - y <= w on a basis.
  [[nodiscard]] virtual std::optional<Day> upper(Point x, Point y, Basis basis);
  // Is x - y <= limit proven on a basis?
  [[nodiscard]] virtual bool proves(Point x, Point y, Day limit, Basis basis);
  [[nodiscard]] const Chronology& chronology() const { return chronology_; }

private:
  const Chronology& chronology_;
  std::set<Point> kept_;
  std::map<std::tuple<Point, Point, Basis>, std::optional<Day>> known_;
};

struct OrderAnswer {
  Answer answer = Answer::undecided;
  std::optional<Basis> basis;
  bool too_late = false;  // for no: start(from) > end(into), else kept too long
  std::optional<Day> gap; // for no: how many days too late, or how many days longer than stock was kept
  std::vector<Reason> proof;
  bool in_time = false; // for undecided: start(from) <= end(into) is proven
  bool fresh = false;   // for undecided: the stock condition is proven
};

// How long the policy lets stock be kept, on each basis; nothing where it is too weak for that.
using StockDays = std::array<std::optional<Day>, all_bases.size()>;
[[nodiscard]] StockDays stock_days(const Leftover* leftover);

// The answer without its proof, on the bases up to `weakest`, strongest first. `days` knows how far the ends of the two
// spans are apart: each of its four functions takes a basis and gives the tightest known bound, as a Day or an
// std::optional<Day>, of the difference it is named for, and proves(bound, limit) says whether one is at most that.
template <class Days> [[nodiscard]] OrderAnswer decide_order(Days&& days, const StockDays& stock_by_basis, Basis weakest);

// Asks the bases up to `weakest`, strongest first.
[[nodiscard]] OrderAnswer order_of(Distances& distances, TimeSpanIndex from, TimeSpanIndex into,
                                   const Leftover* leftover, Basis weakest, bool with_proof);

} // namespace coeval
