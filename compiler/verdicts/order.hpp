// verdicts/order.hpp: could something from one span have gone into another?
//
// A part of span `from` (made, or carried by a route) on some day m goes into span `into` (packed, or carried on) on
// some day p, with 0 <= p - m <= leftover. That is possible iff start(from) <= end(into) and start(into) - end(from) <=
// leftover: a part can wait in a bin for a figure, a figure cannot wait for a part.
#pragma once

#include <array>
#include <optional>

#include <boost/unordered/unordered_flat_map.hpp>
#include <boost/unordered/unordered_flat_set.hpp>

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
  void keep(Point point) { kept_.insert(static_cast<std::uint32_t>(point)); }
  // The tightest w with x - y <= w on a basis.
  [[nodiscard]] virtual std::optional<Day> upper(Point x, Point y, Basis basis);
  // Is x - y <= limit proven on a basis?
  [[nodiscard]] virtual bool proves(Point x, Point y, Day limit, Basis basis);
  [[nodiscard]] const Chronology& chronology() const { return chronology_; }

private:
  const Chronology& chronology_;
  boost::unordered_flat_set<std::uint32_t> kept_;
  std::array<boost::unordered_flat_map<std::uint64_t, std::optional<Day>>, all_bases.size()> known_; // by both points
};

struct OrderAnswer {
  Answer answer = Answer::undecided;
  std::optional<Basis> basis;
  bool too_late = false;  // for no: start(from) > end(into), else kept too long
  std::optional<Day> gap; // for no: how many days too late, or how many days longer than stock was kept
  bool in_time = false;   // for undecided: start(from) <= end(into) is proven
  bool fresh = false;     // for undecided: the stock condition is proven
};

// How long the policy lets stock be kept, on each basis; nothing where it is too weak for that.
using StockDays = std::array<std::optional<Day>, all_bases.size()>;
[[nodiscard]] StockDays stock_days(const Leftover* leftover);

// What an order hangs on, each a difference of two days.
enum class OrderQuestion : std::uint8_t {
  too_late,      // end(into) - start(from), where below zero
  kept_too_long, // end(from) - start(into), where below minus the leftover
  in_time,       // start(from) - end(into), where at most zero
  fresh,         // start(into) - end(from), where at most the leftover
};

// The answer on one basis. Of `differences` it asks proves(question, limit, basis), whether the difference is at most
// that, and most(question, basis), the tightest bound where there is one.
template <class Differences>
[[nodiscard]] OrderAnswer order_on(Differences& differences, const StockDays& stock_days, Basis basis) {
  OrderAnswer result;
  const std::optional<Day>& stock = stock_days[static_cast<std::size_t>(basis)];
  if (differences.proves(OrderQuestion::too_late, -1, basis)) {
    result.answer = Answer::no;
    result.too_late = true;
    result.gap = -differences.most(OrderQuestion::too_late, basis);
  } else if (stock && differences.proves(OrderQuestion::kept_too_long, -*stock - 1, basis)) {
    result.answer = Answer::no;
    result.gap = -differences.most(OrderQuestion::kept_too_long, basis) - *stock;
  } else {
    result.in_time = differences.proves(OrderQuestion::in_time, 0, basis);
    // With no policy on this basis nothing says how long stock was kept, so the two spans must surely touch.
    result.fresh = differences.proves(OrderQuestion::fresh, stock.value_or(0), basis);
    if (result.in_time && result.fresh) result.answer = Answer::yes;
  }
  if (result.answer != Answer::undecided) result.basis = basis;
  return result;
}

// Asks the bases up to `weakest`, strongest first.
[[nodiscard]] OrderAnswer order_of(Distances& distances, TimeSpanIndex from, TimeSpanIndex into,
                                   const Leftover* leftover, Basis weakest);
// What proves that answer; nothing where it is undecided.
[[nodiscard]] std::vector<Reason> order_proof(Distances& distances, TimeSpanIndex from, TimeSpanIndex into,
                                              const Leftover* leftover, const OrderAnswer& answer);

} // namespace coeval
