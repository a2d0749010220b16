#include "verdicts/pinned.hpp"

#include <algorithm>

namespace coeval {

void PinnedDistances::choose(Point point) {
  unpin();
  after_.clear();
  before_.clear();
  reach_.clear();
  const Entailment& entailment = chronology().on(basis_);
  const auto take = [this](Near& near, const std::vector<NearPoint>& found) {
    for (const NearPoint& other : found) {
      near.emplace(static_cast<std::uint32_t>(other.point), other.most);
      reach_.push_back(other.point);
    }
  };
  take(after_, entailment.nearer_from(point));
  take(before_, entailment.nearer_to(point));
  std::ranges::sort(reach_);
  reach_.erase(std::unique(reach_.begin(), reach_.end()), reach_.end());
}

void PinnedDistances::pin(Day day) {
  known_above_ = known_below_ = true;
  day_ = day;
  next_change_ = never + 1;
  refused_.clear();
}

void PinnedDistances::bound_above(Day day) {
  pin(day);
  known_below_ = false;
}

void PinnedDistances::bound_below(Day day) {
  pin(day);
  known_above_ = false;
}

PinnedDays PinnedDistances::unproven(const Question& question) const {
  if (question.most && *question.most <= question.limit) return {1, 0};
  PinnedDays days{-never, never};
  const auto after = after_.find(static_cast<std::uint32_t>(question.x));
  if (const auto first = earliest(question.y); after != after_.end() && first)
    days.from = question.limit - after->second + *first + 1;
  const auto before = before_.find(static_cast<std::uint32_t>(question.y));
  if (const auto last = latest(question.x); before != before_.end() && last)
    days.to = before->second + *last - question.limit - 1;
  return days;
}

std::optional<Day> PinnedDistances::upper(Point x, Point y, Basis basis) {
  if (basis != basis_) return {};
  std::optional<Day> most = Distances::upper(x, y, basis);
  const auto tighten = [&most](Day other) { most = most ? std::min(*most, other) : other; };
  const auto after = after_.find(static_cast<std::uint32_t>(x));
  if (const auto first = earliest(y); known_above_ && after != after_.end() && first)
    tighten(after->second + day_ - *first);
  const auto before = before_.find(static_cast<std::uint32_t>(y));
  if (const auto last = latest(x); known_below_ && before != before_.end() && last)
    tighten(*last - day_ + before->second);
  return most;
}

bool PinnedDistances::proves(Point x, Point y, Day limit, Basis basis) {
  if (basis != basis_) return false; // what a stronger basis proves, this one does
  const Question question{x, y, limit, Distances::upper(x, y, basis)};
  if (question.most && *question.most <= limit) return true;
  const PinnedDays open = unproven(question);
  const bool by_last = known_above_ && day_ < open.from;
  const bool by_first = known_below_ && day_ > open.to;
  if (open.from <= open.to) {
    if (by_last) next_change_ = std::min(next_change_, open.from);
    if (!by_last && !by_first) next_change_ = std::min(next_change_, open.to + 1);
  }
  if (!by_last && !by_first) refused_.push_back(question);
  return by_last || by_first;
}

} // namespace coeval
