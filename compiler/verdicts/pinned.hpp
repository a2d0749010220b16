// verdicts/pinned.hpp: how far apart would two points be if one day were known?
//
// To take a day d of a point as known is to add two constraints between it and the origin. A shortest path uses at most
// one of them, so x - y is then bounded by the least of what bounds it now, of a way from y over the origin to the
// point and on to x, and of a way from y to the point and over the origin to x:
//     upper(x, y)   upper(x, point) + d - earliest(y)   latest(x) - d + upper(point, y)
// As the day moves, a question "is x - y <= limit proven?" is answered no on one stretch of days and yes on both sides
// of it. So between two days on which some question changes its answer, whatever follows from the answers stays as it
// is.
#pragma once

#include "verdicts/order.hpp"

namespace coeval {

// Days from `from` to `to`; empty where they cross.
struct PinnedDays {
  Day from = 0;
  Day to = 0;
};
inline constexpr Day never = Day{1} << 59; // beyond every day that can be written, and safe to add

// Answers on one basis only.
class PinnedDistances : public Distances {
public:
  PinnedDistances(const Chronology& chronology, Basis basis) : Distances(chronology), basis_(basis) {}

  // The question x - y <= limit, with what bounds x - y while no day is pinned.
  struct Question {
    Point x{};
    Point y{};
    Day limit = 0;
    std::optional<Day> most;
  };

  // Whose day is to be known. Points that are not near it (see Entailment::nearer_from) do not move with it.
  void choose(Point point);
  void pin(Day day);
  void bound_above(Day day); // only that it was no later
  void bound_below(Day day); // only that it was no earlier
  void unpin() { known_above_ = known_below_ = false; }
  // Everything within reach of the chosen point, itself included.
  [[nodiscard]] const std::vector<Point>& reach() const { return reach_; }
  // The days of the chosen point that leave the question unproven.
  [[nodiscard]] PinnedDays unproven(const Question& question) const;
  // The first day after the pinned one on which a question asked since changes its answer; past `never` where none
  // does.
  [[nodiscard]] Day next_change() const { return next_change_; }
  // The questions that were answered no.
  [[nodiscard]] const std::vector<Question>& refused() const { return refused_; }
  void forget_refused() { refused_.clear(); }

  [[nodiscard]] std::optional<Day> upper(Point x, Point y, Basis basis) override;
  [[nodiscard]] bool proves(Point x, Point y, Day limit, Basis basis) override;

private:
  [[nodiscard]] std::optional<Day> latest(Point point) const { return chronology().bounds(point, basis_).latest; }
  [[nodiscard]] std::optional<Day> earliest(Point point) const { return chronology().bounds(point, basis_).earliest; }

  using Near = boost::unordered_flat_map<std::uint32_t, Day>;
  Basis basis_;
  Near after_;  // of each point near: point - chosen <= …
  Near before_; // chosen - point <= …
  std::vector<Point> reach_;
  bool known_above_ = false; // the chosen point is at most day_
  bool known_below_ = false; // and at least
  Day day_ = 0;
  Day next_change_ = never + 1;
  std::vector<Question> refused_;
};

} // namespace coeval
