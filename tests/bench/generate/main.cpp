// Writes a knowledge base of a given size into a folder.
//
//   generate_kb FOLDER [--runs N] [--seed N] [--links PERCENT] [--loose PERCENT] [--contradictions N] [--runs-per-line
//   N]
//
// README.md beside this file says what is realistic about it and what is not.
#include <cstdio>
#include <cstdlib>
#include <cstring>

#include "generate/folder.hpp"

namespace {

int usage(const char* what) {
  std::fprintf(stderr,
               "generate_kb: %s\nusage: generate_kb FOLDER [--runs N] [--seed N] [--links PERCENT] [--loose PERCENT]\n"
               "                          [--contradictions N] [--runs-per-line N]\n",
               what);
  return 2;
}

} // namespace

int main(int argc, char** argv) {
  if (argc < 2 || argc % 2 != 0) return usage("a folder, then options with a number each");
  generated::Plan plan;
  for (int i = 2; i + 1 < argc; i += 2) {
    char* end = nullptr;
    const unsigned long long number = std::strtoull(argv[i + 1], &end, 10);
    if (*argv[i + 1] == '\0' || *end != '\0') return usage("an option is not followed by a number");
    const auto is = [&](const char* name) { return std::strcmp(argv[i], name) == 0; };
    const auto small = static_cast<std::uint32_t>(number);
    if (is("--runs"))
      plan.runs = small;
    else if (is("--seed"))
      plan.seed = number;
    else if (is("--links"))
      plan.links = small;
    else if (is("--loose"))
      plan.loose = small;
    else if (is("--contradictions"))
      plan.contradictions = small;
    else if (is("--runs-per-line"))
      plan.runs_per_line = small;
    else
      return usage("there is no such option");
  }
  if (plan.runs < 20 || plan.runs > 10'000'000) return usage("--runs is 20 to 10000000");
  if (plan.links > 50 || plan.loose > 100) return usage("--links is 0 to 50, --loose 0 to 100");
  if (plan.contradictions > plan.runs / 20) return usage("--contradictions is one for each 20 runs at most");
  if (plan.runs_per_line < 20) return usage("--runs-per-line is 20 or more");
  const generated::Written written = generated::write_folder(plan, argv[1]);
  std::printf("%s: %zu files, %zu bytes of TOML, %zu runs\n", argv[1], written.files, written.toml_bytes, written.runs);
}
