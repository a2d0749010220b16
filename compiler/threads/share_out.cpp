#include "threads/share_out.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>
#include <vector>

namespace coeval {

void share_out(std::size_t count, std::size_t worth_a_thread, const std::function<void(std::size_t)>& work) {
  share_among(threads_worth(count, worth_a_thread), count, [&](std::size_t piece, std::size_t) { work(piece); });
}

std::size_t threads_worth(std::size_t count, std::size_t worth_a_thread) {
  const std::size_t worth = count / std::max<std::size_t>(1, worth_a_thread);
  return std::max<std::size_t>(1, std::min<std::size_t>(std::thread::hardware_concurrency(), worth));
}

void share_among(std::size_t threads, std::size_t count, const std::function<void(std::size_t, std::size_t)>& work) {
  std::atomic<std::size_t> next{0};
  std::exception_ptr thrown;
  std::mutex guard; // of what was thrown
  const auto take_part = [&](std::size_t thread) {
    try {
      for (std::size_t piece = next++; piece < count; piece = next++) work(piece, thread);
    } catch (...) {
      const std::scoped_lock lock{guard};
      if (!thrown) thrown = std::current_exception();
      next = count;
    }
  };
  std::vector<std::jthread> helpers;
  try {
    for (std::size_t thread = 1; thread < threads; ++thread) helpers.emplace_back(take_part, thread);
  } catch (const std::system_error&) { // no more threads to be had
  }
  take_part(0);
  helpers.clear(); // joins them
  if (thrown) std::rethrow_exception(thrown);
}

} // namespace coeval
