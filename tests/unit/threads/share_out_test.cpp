// Every piece of work is done, once, before the call returns: however few pieces there are, and on however many
// threads.
#include "threads/share_out.hpp"

#include <algorithm>
#include <atomic>
#include <stdexcept>
#include <thread>
#include <vector>

#include <catch2/catch.hpp>

namespace {

TEST_CASE("every piece is done once") {
  for (const std::size_t count : {0U, 1U, 2U, 7U, 1000U})
    for (const std::size_t worth_a_thread : {0U, 1U, 5U, 5000U}) {
      std::vector<std::atomic<int>> done(count);
      coeval::share_out(count, worth_a_thread, [&](std::size_t piece) { ++done[piece]; });
      for (const std::atomic<int>& times : done) CHECK(times == 1);
    }
}

TEST_CASE("little work stays on the thread that asks for it") {
  const std::thread::id self = std::this_thread::get_id();
  coeval::share_out(9, 5, [&](std::size_t) { CHECK(std::this_thread::get_id() == self); });
}

TEST_CASE("what a piece throws comes out when all have stopped, and the rest is not begun") {
  for (const std::size_t threads : {1U, 2U}) {
    std::atomic<std::size_t> begun = 0;
    const auto work = [&](std::size_t piece, std::size_t) {
      ++begun;
      if (piece == 3) throw std::runtime_error{"no"};
    };
    CHECK_THROWS_AS(coeval::share_among(threads, 100'000'000, work), std::runtime_error);
    CHECK(begun < 100'000'000);
  }
}

TEST_CASE("a thread keeps what it gathers apart from the others") {
  for (const std::size_t threads : {1U, 2U, 6U}) {
    std::vector<std::vector<std::size_t>> gathered(threads);
    coeval::share_among(threads, 1000,
                        [&](std::size_t piece, std::size_t thread) { gathered.at(thread).push_back(piece); });
    std::vector<std::size_t> all;
    for (const std::vector<std::size_t>& own : gathered) {
      CHECK(std::ranges::is_sorted(own));
      all.insert(all.end(), own.begin(), own.end());
    }
    std::ranges::sort(all);
    REQUIRE(all.size() == 1000);
    for (std::size_t i = 0; i < all.size(); ++i) CHECK(all[i] == i);
  }
}

} // namespace
