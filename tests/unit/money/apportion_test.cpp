// Do shares add up to what is shared, each next to its exact part?
#include <catch2/catch.hpp>

#include <limits>
#include <numeric>
#include <random>

#include "money/apportion.hpp"

using namespace coeval;

namespace {

using Shares = std::vector<std::int64_t>;

Shares shared(std::int64_t total, const Shares& weights) { return apportion(total, weights); }

} // namespace

TEST_CASE("what is left over goes to the largest remainders, of equal ones to the first") {
  CHECK(shared(100, {1, 1, 1}) == Shares{34, 33, 33});
  CHECK(shared(101, {1, 1, 1}) == Shares{34, 34, 33});
  CHECK(shared(100, {1, 2}) == Shares{33, 67}); // 33.3, 66.7
  CHECK(shared(1, {1, 3}) == Shares{0, 1});
  CHECK(shared(0, {5, 5}) == Shares{0, 0});
  CHECK(shared(7, {0, 1}) == Shares{0, 7});
}

TEST_CASE("the greatest sums and weights do not overflow") {
  constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max();
  CHECK(shared(most, {most, most}) == Shares{most / 2 + 1, most / 2});
  CHECK_THROWS_AS(shared(-1, {1}), std::logic_error);
  CHECK_THROWS_AS(shared(1, {0}), std::logic_error);
  CHECK_THROWS_AS(shared(1, {}), std::logic_error);
  CHECK_THROWS_AS(shared(1, {2, -1}), std::logic_error);
}

TEST_CASE("random shares add up, and lie less than a unit from their exact part") {
  std::mt19937_64 random(1792);
  for (int round = 0; round < 2000; ++round) {
    INFO("seed 1792, round " << round);
    Shares weights(1 + random() % 12);
    for (std::int64_t& weight : weights) weight = static_cast<std::int64_t>(random() % 1000);
    weights.front() += 1;
    const auto total = static_cast<std::int64_t>(random() % 1'000'000);
    const Shares shares = apportion(total, weights);
    const std::int64_t sum = std::accumulate(weights.begin(), weights.end(), std::int64_t{0});
    REQUIRE(std::accumulate(shares.begin(), shares.end(), std::int64_t{0}) == total);
    for (std::size_t i = 0; i < shares.size(); ++i) REQUIRE(std::abs(shares[i] * sum - total * weights[i]) < sum);
  }
}
