#include "verdicts/order.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace coeval {
namespace {

void append(std::vector<Reason>& list, std::vector<Reason> more) {
  for (Reason& reason : more) tell_once(list, std::move(reason));
}

Reason policy(const Leftover& leftover) {
  return reason_for(fmt::format("stock was kept for {} at most", in_words(leftover.at_most)), leftover.evidence);
}

struct Ends {
  Point first{};
  Point second{};
};

// Whose days the question compares.
Ends ends_of(OrderQuestion question, TimeSpanIndex from, TimeSpanIndex into) {
  switch (question) {
  case OrderQuestion::too_late:
    return {end_of(into), start_of(from)};
  case OrderQuestion::kept_too_long:
    return {end_of(from), start_of(into)};
  case OrderQuestion::in_time:
    return {start_of(from), end_of(into)};
  case OrderQuestion::fresh:
    return {start_of(into), end_of(from)};
  }
  return {};
}

struct Asked {
  Distances& distances;
  TimeSpanIndex from;
  TimeSpanIndex into;

  [[nodiscard]] bool proves(OrderQuestion question, Day limit, Basis basis) const {
    const Ends ends = ends_of(question, from, into);
    return distances.proves(ends.first, ends.second, limit, basis);
  }
  [[nodiscard]] Day most(OrderQuestion question, Basis basis) const {
    const Ends ends = ends_of(question, from, into);
    return distances.upper(ends.first, ends.second, basis).value();
  }
};

} // namespace

std::optional<Day> Distances::upper(Point x, Point y, Basis basis) {
  const Entailment& entailment = chronology_.on(basis);
  const auto first = static_cast<std::uint32_t>(x);
  const auto second = static_cast<std::uint32_t>(y);
  if (!kept_.contains(first) && !kept_.contains(second)) return entailment.upper(x, y);
  const auto [known, fresh] = known_[static_cast<std::size_t>(basis)].try_emplace(std::uint64_t{first} << 32U | second);
  if (fresh) known->second = entailment.upper(x, y);
  return known->second;
}

bool Distances::proves(Point x, Point y, Day limit, Basis basis) {
  const std::optional<Day> most = upper(x, y, basis);
  return most && *most <= limit;
}

StockDays stock_days(const Leftover* leftover) {
  StockDays days;
  if (leftover == nullptr) return days;
  for (const Basis basis : all_bases) // too weak a policy is no policy
    if (leftover->evidence.basis <= basis) days[static_cast<std::size_t>(basis)] = most_days(*leftover);
  return days;
}

OrderAnswer order_of(Distances& distances, TimeSpanIndex from, TimeSpanIndex into, const Leftover* leftover,
                     Basis weakest) {
  Asked asked{distances, from, into};
  const StockDays stock = stock_days(leftover);
  OrderAnswer result;
  for (const Basis basis : all_bases) {
    if (basis > weakest) break;
    result = order_on(asked, stock, basis);
    if (result.answer != Answer::undecided) break;
  }
  return result;
}

std::vector<Reason> order_proof(Distances& distances, TimeSpanIndex from, TimeSpanIndex into, const Leftover* leftover,
                                const OrderAnswer& answer) {
  std::vector<Reason> proof;
  if (!answer.basis) return proof;
  const Chronology& chronology = distances.chronology();
  const auto prove = [&](OrderQuestion question) {
    const Ends ends = ends_of(question, from, into);
    append(proof, chronology.tell_all(chronology.on(*answer.basis).proof(ends.first, ends.second)));
  };
  bool by_policy = false;
  if (answer.answer == Answer::yes) {
    prove(OrderQuestion::in_time);
    prove(OrderQuestion::fresh);
    by_policy = Asked{distances, from, into}.most(OrderQuestion::fresh, *answer.basis) > 0;
  } else {
    prove(answer.too_late ? OrderQuestion::too_late : OrderQuestion::kept_too_long);
    by_policy = !answer.too_late;
  }
  if (by_policy) append(proof, {policy(*leftover)});
  return proof;
}

} // namespace coeval
