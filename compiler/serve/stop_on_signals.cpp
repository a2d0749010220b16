#include <csignal>

#include "serve/preview.hpp"

namespace coeval {
namespace {

// A handler can reach nothing but what lives as long as the program.
std::atomic<bool> stopped = false;
static_assert(std::atomic<bool>::is_always_lock_free);

extern "C" void stop(int) { stopped = true; }

} // namespace

const std::atomic<bool>& stop_on_signals() {
  struct sigaction action {};
  action.sa_handler = stop;
  action.sa_flags = static_cast<int>(SA_RESETHAND); // who asks twice does not want to wait
  sigemptyset(&action.sa_mask);
  sigaction(SIGINT, &action, nullptr);
  sigaction(SIGTERM, &action, nullptr);
  return stopped;
}

} // namespace coeval
