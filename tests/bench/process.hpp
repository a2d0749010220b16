// How long does a whole process take? Means that the benchmarks of commands share.
#pragma once

#include <algorithm>
#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

extern char** environ;

// `rounds` is 1 or more.
template <class Work> double median_ms(int rounds, Work work) {
  using Clock = std::chrono::steady_clock;
  std::vector<double> times;
  for (int i = 0; i < rounds; ++i) {
    const auto start = Clock::now();
    work();
    times.push_back(std::chrono::duration<double, std::milli>(Clock::now() - start).count());
  }
  std::ranges::sort(times);
  return times[times.size() / 2];
}

// Runs the program, which is its first word, to its end; what it prints on standard output goes nowhere. The exit code,
// or nothing where it could not be started or was ended by a signal.
inline std::optional<int> exit_code_of(std::vector<std::string> words) {
  std::vector<char*> arguments;
  for (std::string& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t quiet;
  posix_spawn_file_actions_init(&quiet);
  posix_spawn_file_actions_addopen(&quiet, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  int status = 0;
  const bool started = posix_spawn(&child, arguments.front(), &quiet, nullptr, arguments.data(), environ) == 0;
  posix_spawn_file_actions_destroy(&quiet);
  if (!started || waitpid(child, &status, 0) != child || !WIFEXITED(status)) return {};
  return WEXITSTATUS(status);
}
