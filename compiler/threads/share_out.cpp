#include "threads/share_out.hpp"

#include <algorithm>
#include <atomic>
#include <system_error>
#include <thread>
#include <vector>

namespace coeval {

void share_out(std::size_t count, std::size_t worth_a_thread, const std::function<void(std::size_t)>& work) {
  std::atomic<std::size_t> next{0};
  const auto take_part = [&] {
    for (std::size_t piece = next++; piece < count; piece = next++) work(piece);
  };
  const std::size_t threads =
      std::min<std::size_t>(std::thread::hardware_concurrency(), count / std::max<std::size_t>(1, worth_a_thread));
  std::vector<std::jthread> helpers; // joined when they go out of scope
  try {
    while (helpers.size() + 1 < threads) helpers.emplace_back(take_part);
  } catch (const std::system_error&) { // no more threads to be had
  }
  take_part();
}

} // namespace coeval
