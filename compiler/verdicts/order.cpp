#include "verdicts/order.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace coeval {
namespace {

// The leftover policy as it stands on a basis: too weak a policy is no policy.
std::optional<Day> stock_days(const Leftover* leftover, Basis basis) {
  if (leftover == nullptr || leftover->evidence.basis > basis) return {};
  return most_days(*leftover);
}

void append(std::vector<Reason>& list, std::vector<Reason> more) {
  for (Reason& reason : more) tell_once(list, std::move(reason));
}

Reason policy(const Leftover& leftover) {
  return reason_for(fmt::format("stock was kept for {} at most", in_words(leftover.at_most)), leftover.evidence);
}

} // namespace

std::optional<Day> Distances::upper(Point x, Point y, Basis basis) {
  const Entailment& entailment = chronology_.on(basis);
  if (!kept_.contains(x) && !kept_.contains(y)) return entailment.upper(x, y);
  const auto [known, fresh] = known_.try_emplace({x, y, basis});
  if (fresh) known->second = entailment.upper(x, y);
  return known->second;
}

bool Distances::proves(Point x, Point y, Day limit, Basis basis) {
  const std::optional<Day> most = upper(x, y, basis);
  return most && *most <= limit;
}

OrderAnswer order_of(Distances& distances, TimeSpanIndex from, TimeSpanIndex into, const Leftover* leftover,
                     Basis weakest, bool with_proof) {
  OrderAnswer result;
  const Chronology& chronology = distances.chronology();
  const auto prove = [&](Point x, Point y, Basis basis) {
    if (with_proof) append(result.proof, chronology.tell_all(chronology.on(basis).proof(x, y)));
  };
  for (const Basis basis : all_bases) {
    if (basis > weakest) break;
    // end(into) - start(from) < 0 always: the part came too late.
    if (distances.proves(end_of(into), start_of(from), -1, basis)) {
      result.answer = Answer::no;
      result.basis = basis;
      result.too_late = true;
      result.gap = -distances.upper(end_of(into), start_of(from), basis).value();
      prove(end_of(into), start_of(from), basis);
      return result;
    }
    const auto stock = stock_days(leftover, basis);
    // end(from) - start(into) < -leftover always: it would have been kept too long.
    if (stock && distances.proves(end_of(from), start_of(into), -*stock - 1, basis)) {
      result.answer = Answer::no;
      result.basis = basis;
      result.gap = -distances.upper(end_of(from), start_of(into), basis).value() - *stock;
      prove(end_of(from), start_of(into), basis);
      if (with_proof) append(result.proof, {policy(*leftover)});
      return result;
    }
    result.in_time = distances.proves(start_of(from), end_of(into), 0, basis);
    // With no policy on this basis nothing says how long stock was kept, so the two spans must surely touch.
    result.fresh = distances.proves(start_of(into), end_of(from), stock.value_or(0), basis);
    if (!result.in_time || !result.fresh) continue;
    result.answer = Answer::yes;
    result.basis = basis;
    prove(start_of(from), end_of(into), basis);
    prove(start_of(into), end_of(from), basis);
    if (with_proof && distances.upper(start_of(into), end_of(from), basis).value() > 0)
      append(result.proof, {policy(*leftover)});
    return result;
  }
  return result;
}

} // namespace coeval
