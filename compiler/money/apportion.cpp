#include "money/apportion.hpp"

#include <algorithm>
#include <numeric>
#include <stdexcept>

#include "money/exact.hpp"

namespace coeval {

std::vector<std::int64_t> apportion(std::int64_t total, std::span<const std::int64_t> weights) {
  Whole weight_sum = 0;
  for (const std::int64_t weight : weights) {
    if (weight < 0) throw std::logic_error("money: a weight below nought");
    weight_sum += weight;
  }
  if (total < 0 || weight_sum == 0) throw std::logic_error("money: nothing to share out, or nothing to share it by");

  std::vector<std::int64_t> shares;
  std::vector<Whole> remainders;
  std::int64_t left = total;
  for (const std::int64_t weight : weights) {
    Whole share;
    Whole remainder;
    divide_qr(Whole(total) * weight, weight_sum, share, remainder);
    shares.push_back(static_cast<std::int64_t>(share)); // no more than the total
    remainders.push_back(std::move(remainder));
    left -= shares.back();
  }
  // The remainders add up to `left` times the sum of the weights, and each is less than it: more of them than `left`
  // are above nought.
  std::vector<std::size_t> order(shares.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order,
                           [&](std::size_t one, std::size_t other) { return remainders[one] > remainders[other]; });
  for (std::size_t place = 0; left > 0; ++place, --left) ++shares[order[place]];
  return shares;
}

} // namespace coeval
