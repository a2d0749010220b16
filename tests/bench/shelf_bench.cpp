// How long does a question about a shelf take, from its file to the printed answer, beside what toml++ alone needs to
// parse that file?
//
//   shelf_bench PROGRAM KB [ROUNDS]
//
// The shelves are invented from the issues and runs of KB: each piece wears some of what its issue takes, some of it of
// a run that does not belong, a seventh of the parts lies loose, and every ten pieces came with one purchase. Prints
// medians of whole processes, those of the knowledge base included; machines are noisy, so compare the ratios of one
// run and nothing else.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <random>
#include <string>
#include <vector>

#include <unistd.h>

#include <toml++/toml.h>

#include "pipeline.hpp"

#include "process.hpp"

namespace {

using namespace coeval;

std::string shelf_of(const LinkedKb& kb, std::size_t parts) {
  std::mt19937_64 dice{parts};
  const auto below = [&](std::size_t limit) { return static_cast<std::size_t>(dice() % limit); };
  std::vector<std::vector<std::string>> runs(kb.accessories.size());
  for (const Run& run : kb.runs) runs[static_cast<std::size_t>(run.accessory)].emplace_back(run.address);
  std::string toml = "[shelf]\nname = \"Invented\"\nhome = \"GBP\"\n\n[[rate]]\none = \"EUR\"\nis = \"0.8512\"\n"
                     "of = \"GBP\"\non = \"2026-01-02\"\nsource = \"invented\"\n";
  for (std::size_t written = 0, piece = 0; written < parts; ++piece) {
    const Issue& issue = kb.issues[below(kb.issues.size())];
    const std::string purchase = "lot-" + std::to_string(piece / 10);
    if (piece % 10 == 0)
      toml += "\n[[purchase]]\nid = \"" + purchase + "\"\nseller = \"s" + std::to_string(below(40)) +
              "\"\npaid = \"2026-0" + std::to_string(1 + below(9)) + "-1" + std::to_string(below(10)) +
              "\"\narrived = \"2026-10-20\"\nprice = \"" + std::to_string(5 + below(90)) + ".50 " +
              (below(2) == 0 ? "GBP" : "EUR") + "\"\n";
    const std::string id = "p" + std::to_string(piece);
    toml += "\n[[piece]]\nid = \"" + id + "\"\nissue = \"" + std::string{kb.address(issue.entry)} +
            "\"\npurchase = \"" + purchase + "\"\n";
    std::vector<std::string> filled;
    for (const Takes& takes : issue.takes) {
      const auto& of_accessory = runs[static_cast<std::size_t>(takes.accessory)];
      if (written == parts || of_accessory.empty() || std::ranges::find(filled, takes.slot) != filled.end()) continue;
      filled.push_back(takes.slot);
      if (below(5) == 0) continue;
      toml += "\n[[part]]\nid = \"a" + std::to_string(written++) + "\"\nrun = \"" +
              of_accessory[below(of_accessory.size())] + "\"\n";
      if (below(7) != 0) toml += "in = \"" + id + "\"\nslot = \"" + takes.slot + "\"\n";
    }
  }
  return toml;
}

// What it says goes nowhere. 0 and 1 and 3 are answers: all is well, something is wrong, something is open.
void ask(const std::string& program, const std::vector<std::string>& question) {
  std::vector<std::string> words{program};
  words.insert(words.end(), question.begin(), question.end());
  const std::optional<int> code = exit_code_of(std::move(words));
  if (code != 0 && code != 1 && code != 3) {
    std::fprintf(stderr, "`%s` gave no answer\n", question.front().c_str());
    std::exit(1);
  }
}

} // namespace

int main(int argc, char** argv) {
  if (argc < 3) {
    std::fprintf(stderr, "usage: shelf_bench PROGRAM KB [ROUNDS]\n");
    return 2;
  }
  const int rounds = argc > 3 ? std::max(1, std::atoi(argv[3])) : 7;
  const Compiled compiled = compile(argv[2], Depth::to_answer);
  if (compiled.has_errors) {
    std::fprintf(stderr, "the knowledge base has errors\n");
    return 1;
  }
  const std::filesystem::path file =
      std::filesystem::temp_directory_path() / ("shelf-bench-" + std::to_string(getpid()) + ".toml");
  std::printf("%7s %9s %11s  %s\n", "parts", "file KB", "toml++ ms", "ms of a whole process, and times toml++ alone");
  for (const std::size_t parts : {std::size_t{1000}, std::size_t{10'000}, std::size_t{30'000}}) {
    const std::string toml = shelf_of(*compiled.kb, parts);
    std::ofstream{file} << toml;
    const double alone = median_ms(rounds, [&] { (void)toml::parse(toml); });
    std::printf("%7zu %9zu %11.1f ", parts, toml.size() / 1024, alone);
    for (const char* command : {"swap", "audit", "wants", "ledger"}) {
      const double ms = median_ms(rounds, [&] { ask(argv[1], {command, "--kb", argv[2], "--shelf", file.string()}); });
      std::printf(" %s %.0f (%.1fx)", command, ms, ms / alone);
    }
    // As a table of cells: written, and asked.
    const std::string table = std::filesystem::path{file}.replace_extension(".csv").string();
    const double written = median_ms(rounds, [&] { ask(argv[1], {"convert", file.string(), table, "--replace"}); });
    const double read = median_ms(rounds, [&] { ask(argv[1], {"ledger", "--kb", argv[2], "--shelf", table}); });
    std::printf(" convert %.0f (%.1fx) ledger of the table %.0f (%.1fx)\n", written, written / alone, read,
                read / alone);
    std::filesystem::remove(table);
  }
  std::printf("aimed at: swap of 10000 parts in 500 ms\n");
  std::filesystem::remove(file);
}
