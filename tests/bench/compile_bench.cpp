// How long does the demo take to compile, and to answer one question as a whole process, beside what toml++ alone needs
// for the same files and beside the bounds that are aimed at?
//
//   compile_bench PROGRAM KB [ROUNDS]
//
// Prints medians; machines are noisy, so compare the ratios of one run and nothing else.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <toml++/toml.h>

#include "files/load.hpp"
#include "pipeline.hpp"

extern char** environ;

namespace {

using Clock = std::chrono::steady_clock;

template <class Work> double median_ms(int rounds, Work work) {
  std::vector<double> times;
  for (int i = 0; i < rounds; ++i) {
    const auto start = Clock::now();
    work();
    times.push_back(std::chrono::duration<double, std::milli>(Clock::now() - start).count());
  }
  std::ranges::sort(times);
  return times[times.size() / 2];
}

void ask(const char* program, const char* kb) {
  std::vector<std::string> words{
      program, "belongs", "--kb", kb, "signal-lantern/plain-top/grey", "keeper-maren/painted-buttons"};
  std::vector<char*> arguments;
  for (std::string& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t quiet;
  posix_spawn_file_actions_init(&quiet);
  posix_spawn_file_actions_addopen(&quiet, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  int status = 0;
  const bool started = posix_spawn(&child, program, &quiet, nullptr, arguments.data(), environ) == 0;
  posix_spawn_file_actions_destroy(&quiet);
  if (!started || waitpid(child, &status, 0) != child || !WIFEXITED(status) || WEXITSTATUS(status) != 1) {
    std::fprintf(stderr, "the question was not answered with the no that the demo holds\n");
    std::exit(1);
  }
}

} // namespace

int main(int argc, char** argv) {
  if (argc < 3) {
    std::fprintf(stderr, "usage: compile_bench PROGRAM KB [ROUNDS]\n");
    return 2;
  }
  const int rounds = argc > 3 ? std::max(1, std::atoi(argv[3])) : 21;
  coeval::Diagnostics out;
  const coeval::LoadResult loaded = coeval::load_sources(argv[2], out);
  const double toml = median_ms(rounds, [&] {
    for (const coeval::SourceFile& file : loaded.sources.files) (void)toml::parse(file.text());
  });
  const double to_answer = median_ms(rounds, [&] { (void)coeval::compile(argv[2], coeval::Depth::to_answer); });
  const double in_full = median_ms(rounds, [&] { (void)coeval::compile(argv[2], coeval::Depth::in_full); });
  const double process = median_ms(rounds, [&] { ask(argv[1], argv[2]); });
  std::printf("toml++ alone, one thread      %7.1f ms\n", toml);
  std::printf("compile for a question        %7.1f ms   toml++ would be %3.0f %% of it, on one thread\n", to_answer,
              100 * toml / to_answer);
  std::printf("compile in full               %7.1f ms   %.2f of the 100 ms aimed at\n", in_full, in_full / 100);
  std::printf("belongs, whole process        %7.1f ms   %.2f of the 100 ms aimed at\n", process, process / 100);
}
