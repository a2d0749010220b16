// How long does the demo take to compile, and to answer one question as a whole process, beside what toml++ alone needs
// for the same files and beside the bounds that are aimed at?
//
//   compile_bench PROGRAM KB [ROUNDS]
//
// Prints medians; machines are noisy, so compare the ratios of one run and nothing else.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include <toml++/toml.h>

#include "files/load.hpp"
#include "pipeline.hpp"

#include "process.hpp"

namespace {

void ask(const char* program, const char* kb) {
  if (exit_code_of({program, "belongs", "--kb", kb, "signal-lantern/plain-top/grey", "keeper-maren/painted-buttons"}) !=
      1) {
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
