// How long does an identification among a hundred thousand candidates take, once they are compiled, beside the bound
// that is aimed at and beside comparing each candidate's statements one by one?
//
//   identify_bench [CANDIDATES] [ROUNDS]
//
// Prints medians of processor time; machines are noisy, so compare the ratios of one run and nothing else.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <random>
#include <string>
#include <vector>

#include "entries/read.hpp"
#include "examine/examine.hpp"
#include "links/link.hpp"

namespace {

using namespace coeval;
constexpr double aimed_at_ms = 50;
constexpr int moulds = 10;
constexpr int runs = 5; // of each mould; every tenth candidate beside them is a reproduction

// Of the processor, so that what else the machine does counts for little. Nothing here has a second thread.
template <class Work> double median_ms(int rounds, Work work) {
  std::vector<double> times;
  for (int i = 0; i < rounds; ++i) {
    const std::clock_t start = std::clock();
    work();
    times.push_back(1000.0 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
  }
  std::ranges::sort(times);
  return times[times.size() / 2];
}

const std::string features = R"(
[[feature]]
id = "top"
name = "Top"
kind = "choice"
values = ["v0", "v1", "v2", "v3", "v4", "v5"]
[[feature]]
id = "seam"
name = "Seam"
kind = "choice"
values = ["v0", "v1", "v2", "v3"]
[[feature]]
id = "surface"
name = "Surface"
kind = "choice"
values = ["v0", "v1", "v2", "v3"]
[[feature]]
id = "vents"
name = "Vents"
kind = "count"
[[feature]]
id = "pins"
name = "Pins"
kind = "count"
[[feature]]
id = "flash"
name = "Flash"
kind = "present"
[[feature]]
id = "sink"
name = "Sink"
kind = "present"
[[feature]]
id = "height-mm"
name = "Height"
kind = "measure"
unit = "mm"
tolerance = 0.3
by = "measurement"
[[feature]]
id = "weight-g"
name = "Weight"
kind = "measure"
unit = "g"
tolerance = 0.05
by = "measurement"
[[feature]]
id = "stamp"
name = "Stamp"
kind = "text"
[[feature]]
id = "body-colour"
name = "Colour"
kind = "colour"
tolerance = 3
)";

// A knowledge base as one would grow: moulds differ in shape, runs in colour and finish, and not everything is entered.
SourceSet write(int candidates) {
  std::mt19937 random{1976};
  const auto below = [&](unsigned end) { return static_cast<int>(random() % end); };
  const auto number = [](int tenths) { return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10); };
  SourceSet sources;
  const int accessories = candidates / (moulds * runs * 11 / 10) + 1;
  for (int a = 0; a < accessories; ++a) {
    std::string text = "[accessory]\nid = \"a" + std::to_string(a) + "\"\nname = \"A\"\nslot = \"hand\"\n";
    std::string reproductions;
    for (int m = 0; m < moulds; ++m) {
      text += "[[mould]]\nid = \"m" + std::to_string(m) + "\"\nfeatures = { top = \"v" + std::to_string(below(6)) +
              "\", vents = " + std::to_string(below(8)) + ", pins = " + std::to_string(below(5)) +
              ", height-mm = " + number(100 + below(300)) + ", weight-g = " + number(5 + below(60)) + " }\n";
      for (int r = 0; r < runs; ++r) {
        text += "[[mould.run]]\nid = \"r" + std::to_string(r) + "\"\ncolour = { name = \"c\", lab = [" +
                number(200 + below(70) * 10) + ", " + number(below(40) * 10) + ", " + number(below(40) * 10) + "] }\n";
        if (below(2) == 0)
          text += "features = { flash = " + std::string{below(2) == 0 ? "true" : "false"} + ", surface = \"v" +
                  std::to_string(below(4)) + "\" }\n";
      }
      for (int r = 0; r < runs / 10 + (m % 2); ++r)
        reproductions += "[[repro]]\nid = \"p" + std::to_string(m) + "\"\nof = \"m" + std::to_string(m) +
                         "/r0\"\nfeatures = { height-mm = " + number(100 + below(300)) + ", seam = \"v" +
                         std::to_string(below(4)) + "\" }\n";
    }
    char name[32];
    std::snprintf(name, sizeof name, "a%06d.toml", a);
    sources.files.push_back(SourceFile{name, text + reproductions});
  }
  sources.files.push_back(SourceFile{"features.toml", features});
  return sources;
}

Observation read(const LinkedKb& kb, const std::string& text) {
  auto seen = read_observation(kb, text);
  if (const auto* misread = std::get_if<Misread>(&seen)) {
    std::fprintf(stderr, "%s\n", misread->message.c_str());
    std::exit(1);
  }
  return std::get<Observation>(std::move(seen));
}

// What the columns save: each candidate compared by itself.
std::size_t left_one_by_one(const LinkedKb& kb, const std::vector<Candidate>& candidates,
                            const std::vector<Observation>& seen) {
  std::size_t left = 0;
  for (const Candidate& candidate : candidates) {
    const FeatureTable alone = tabulate(kb, std::span{&candidate, 1});
    left += examine(alone, seen, {.most_next = 0}).left.size();
  }
  return left;
}

} // namespace

int main(int argc, char** argv) {
  const int wanted = argc > 1 ? std::atoi(argv[1]) : 100'000;
  const int rounds = argc > 2 ? std::atoi(argv[2]) : 15;
  Diagnostics out;
  const SourceSet sources = write(wanted);
  LinkedKb kb;
  const double compiling = median_ms(1, [&] { kb = link_entries(read_entries(sources, {}, out), true, out); });
  if (out.has_errors()) {
    std::fprintf(stderr, "the knowledge base of the benchmark is not sound: %s\n",
                 out.sorted().front().message.c_str());
    return 1;
  }
  std::vector<Candidate> candidates;
  FeatureTable table;
  const double gathering = median_ms(rounds, [&] { candidates = candidates_of(kb, {}); });
  const double tabulating = median_ms(rounds, [&] { table = tabulate(kb, candidates); });
  std::printf("%zu candidates, %zu features, medians of %d rounds\n", candidates.size(), kb.features.size(), rounds);
  std::printf("  reading and linking        %8.0f ms\n", compiling);
  std::printf("  gathering what is stated   %8.2f ms, %.3f of that\n", gathering, gathering / compiling);
  std::printf("  columns                    %8.2f ms, %.3f of that\n", tabulating, tabulating / compiling);

  const std::vector<std::vector<std::string>> questions{
      {},
      {"top=v1"},
      {"top=v1", "height-mm=21.4±0.1", "vents=!3"},
      {"top=v1,v2", "height-mm=21.4±0.1", "body-colour=lab(60,20,20)±1", "flash=yes"}};
  bool in_time = true;
  for (const auto& texts : questions) {
    std::vector<Observation> seen;
    for (const std::string& text : texts) seen.push_back(read(kb, text));
    Outcome outcome;
    const double asking = median_ms(rounds, [&] { outcome = examine(table, seen); });
    std::printf(
        "  %zu observations: %8.2f ms, %.2f of the %.0f ms aimed at (with gathering and columns %.2f); %zu left, "
        "%zu next looks\n",
        seen.size(), asking, asking / aimed_at_ms, aimed_at_ms, (gathering + tabulating + asking) / aimed_at_ms,
        outcome.left.size(), outcome.next.size());
    in_time = in_time && asking <= aimed_at_ms;
    if (seen.size() != 3) continue;
    std::size_t left = 0;
    const double one_by_one = median_ms(1, [&] { left = left_one_by_one(kb, candidates, seen); });
    std::printf("    one by one: %.0f ms, %.0f times as long as columns and question; %s left\n", one_by_one,
                one_by_one / (tabulating + asking), left == outcome.left.size() ? "as many" : "NOT AS MANY");
  }
  std::printf("%s\n", in_time ? "every question is within what is aimed at" : "slower than what is aimed at");
  return 0;
}
