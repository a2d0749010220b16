// How do time and memory grow with the knowledge base, and how far from the bounds that are aimed at?
//
//   bench_scale FOLDER [ROUNDS [RUNS...]]
//
// Writes generated knowledge bases into the folder, once, and measures each in processes of its own, toml++ alone and
// the compiler in turn, so that both see the machine in the same mood. Prints medians with the least and the greatest,
// the load of the machine, and the bound beside each; writes FOLDER/scale.svg, time and memory against size. Machines
// are noisy: compare the ratios of one run and nothing else. README.md holds the results that count.
#include <algorithm>
#include <array>
#include <atomic>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <map>
#include <string>
#include <thread>
#include <vector>

#include <sys/resource.h>
#include <unistd.h>

#include <fmt/format.h>
#include <toml++/toml.h>

#include "constraints/edges.hpp"
#include "constraints/potential.hpp"
#include "entries/read.hpp"
#include "files/load.hpp"
#include "generate/folder.hpp"
#include "links/link.hpp"
#include "pipeline.hpp"
#include "rules/rules.hpp"
#include "verdicts/matrix.hpp"

namespace {

using namespace coeval;
using Clock = std::chrono::steady_clock;

// ---- In the measured process: prints one "name value" a line.

double cpu_seconds() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  const auto seconds = [](const timeval& time) {
    return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
  };
  return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

template <class Work> auto timed(const char* name, Work work) {
  const double cpu = cpu_seconds();
  const auto start = Clock::now();
  auto result = work();
  std::printf("%s %.6f\n", name, std::chrono::duration<double>(Clock::now() - start).count());
  std::printf("%s.cpu %.6f\n", name, cpu_seconds() - cpu);
  return result;
}

// The most memory that the process ever held, in bytes.
void print_peak(const char* name) {
  std::ifstream status{"/proc/self/status"};
  for (std::string word; status >> word;)
    if (word == "VmHWM:") {
      status >> word;
      std::printf("%s %s000\n", name, word.c_str());
    }
}

std::size_t bytes_of(const SourceSet& sources) {
  std::size_t bytes = 0;
  for (const SourceFile& file : sources.files) bytes += file.text().size();
  return bytes;
}

void measure_toml(const char* folder) {
  Diagnostics out;
  const LoadResult loaded = load_sources(folder, out);
  timed("toml", [&] {
    std::atomic<std::size_t> next = 0;
    const auto work = [&] {
      const auto& files = loaded.sources.files;
      for (std::size_t i = next++; i < files.size(); i = next++) (void)toml::parse(files[i].text());
    };
    const std::jthread other{work};
    work();
    return 0;
  });
}

void measure_compile(const char* folder) {
  const Compiled compiled = timed("compile", [&] { return compile(folder, Depth::to_answer); });
  std::printf("bytes %zu\nruns %zu\n", bytes_of(compiled.sources), compiled.kb->runs.size());
  print_peak("compile.peak");
  const auto rows = timed("matrix", [&] { return verdict_rows(*compiled.kb, *compiled.dates); });
  std::printf("pairs %zu\n", rows.size());
  print_peak("matrix.peak");
  for (int level = 0; level < 4; ++level) {
    const ConstraintGraph& graph = compiled.dates->graph();
    const SortedEdges edges{graph, [&](ConstraintIndex i) { return graph[i].level <= level; }};
    const bool feasible = timed(("feasible." + std::to_string(level)).c_str(), [&] { return is_satisfiable(edges); });
    if (!feasible || !compiled.diagnostics.empty()) std::printf("unsound 1\n");
  }
}

void measure_stages(const char* folder) {
  Diagnostics out;
  LoadResult loaded = timed("1.load", [&] { return load_sources(folder, out); });
  EntrySet entries = timed("2.entries", [&] { return read_entries(loaded.sources, loaded.broken, out); });
  print_peak("2.entries.peak");
  const LinkedKb kb = timed("3.links", [&] { return link_entries(std::move(entries), true, out); });
  print_peak("3.links.peak");
  const RuleInput input{kb, loaded.sources};
  timed("4.rules", [&] { return check_data(input, out), 0; });
  Statements statements = timed("5.statements", [&] { return state(kb); });
  std::printf("points %u\nconstraints %zu\n", statements.points, statements.constraints.size());
  print_peak("5.statements.peak");
  const Chronology dates = timed("6.solve", [&] { return Chronology{kb, std::move(statements)}; });
  print_peak("6.solve.peak");
  timed("7.consistency", [&] { return check_consistency(input, dates, out), 0; });
  timed("8.answers", [&] { return check_answers(input, dates, out), 0; });
  print_peak("8.answers.peak");
}

void measure_contradictions(const char* folder) {
  Diagnostics out;
  LoadResult loaded = load_sources(folder, out);
  const LinkedKb kb = link_entries(read_entries(loaded.sources, loaded.broken, out), true, out);
  Statements statements = state(kb);
  const ConstraintGraph graph{statements.points, std::move(statements.constraints)};
  const auto weaker = [&](StatementIndex one, StatementIndex other) {
    return is_weaker(*statements.evidence[static_cast<std::size_t>(one)],
                     *statements.evidence[static_cast<std::size_t>(other)]);
  };
  const auto found = timed("contradictions", [&] { return find_contradictions(graph, 4, weaker); });
  std::printf("found %zu\n", found.size());
}

// ---- In the process that measures the others.

using Figures = std::map<std::string, std::vector<double>>; // by name, one for each round

double median(std::vector<double> list) {
  std::ranges::sort(list);
  return list.empty() ? std::nan("") : list[list.size() / 2];
}

std::string with_spread(const std::vector<double>& list, double scale, int digits) {
  const auto [least, greatest] = std::ranges::minmax(list);
  return fmt::format("{:.{}f} ({:.{}f}-{:.{}f})", median(list) * scale, digits, least * scale, digits, greatest * scale,
                     digits);
}

void collect(Figures& figures, const char* self, const char* mode, const std::string& folder) {
  const std::string command = fmt::format("'{}' {} '{}'", self, mode, folder);
  std::FILE* child = popen(command.c_str(), "r");
  std::array<char, 64> name{};
  double value = 0;
  while (child != nullptr && std::fscanf(child, "%63s %lf", name.data(), &value) == 2)
    figures[name.data()].push_back(value);
  if (child == nullptr || pclose(child) != 0) {
    std::fprintf(stderr, "bench_scale: failed: %s\n", command.c_str());
    std::exit(1);
  }
}

std::string knowledge_base(const std::string& scratch, std::uint32_t runs, std::uint32_t contradictions) {
  const std::string folder = fmt::format("{}/{}-runs-{}-contradictions", scratch, runs, contradictions);
  if (!std::filesystem::exists(folder))
    generated::write_folder({.runs = runs, .contradictions = contradictions}, folder);
  return folder;
}

std::string load_of_the_machine() {
  std::array<double, 3> load{};
  if (getloadavg(load.data(), 3) != 3) return "unknown";
  return fmt::format("{:.1f} {:.1f} {:.1f}", load[0], load[1], load[2]);
}

struct Size {
  std::uint32_t runs = 0;
  Figures figures;
};

void print_row(std::string_view what, const std::string& value, std::string_view aim) {
  fmt::print("  {:<46} {:>28}   {}\n", what, value, aim);
  std::fflush(stdout);
}

void print_size(const Size& size) {
  const Figures& f = size.figures;
  const auto figure = [&](const char* name) -> const std::vector<double>& { return f.at(name); };
  std::vector<double> ratio;
  std::vector<double> cpu_ratio;
  std::vector<double> memory;
  std::vector<double> pair;
  std::vector<double> feasible;
  for (std::size_t i = 0; i < figure("toml").size(); ++i) {
    ratio.push_back((figure("compile")[i] + figure("matrix")[i]) / figure("toml")[i]);
    cpu_ratio.push_back((figure("compile.cpu")[i] + figure("matrix.cpu")[i]) / figure("toml.cpu")[i]);
    memory.push_back(figure("matrix.peak")[i] / figure("bytes")[i]);
    pair.push_back(figure("matrix")[i] / figure("pairs")[i]);
    double slowest = 0;
    for (const char* level : {"feasible.0", "feasible.1", "feasible.2", "feasible.3"})
      slowest = std::max(slowest, figure(level)[i]);
    feasible.push_back(slowest);
  }
  fmt::print("{} runs, {:.1f} MB of TOML, {:.0f} pairs; load {}\n", size.runs, median(figure("bytes")) / 1e6,
             median(figure("pairs")), load_of_the_machine());
  print_row("toml++ alone, two threads, s", with_spread(figure("toml"), 1, 3), "");
  print_row("compile, s", with_spread(figure("compile"), 1, 3), "");
  print_row("compile and all verdicts: times toml++", with_spread(ratio, 1, 2), "aim: 1.5 at 100000");
  print_row("the same by processor time", with_spread(cpu_ratio, 1, 2), "");
  print_row("memory at its peak: times the text", with_spread(memory, 1, 2), "aim: 6 at 1000000");
  print_row("verdict matrix, ns a pair", with_spread(pair, 1e9, 0), "aim: 200");
  print_row("feasibility, the slowest basis, ms", with_spread(feasible, 1e3, 1), "aim: 100 at 1000000");
}

// Time and memory against size, both axes logarithmic: what is linear rises by one decade a decade.
void draw(const std::vector<Size>& sizes, const std::string& path) {
  struct Series {
    std::string_view name;
    std::string_view colour;
    double (*value)(const Figures&);
  };
  static constexpr std::array<Series, 3> series{{
      {"toml++ alone (s)", "#666", [](const Figures& f) { return median(f.at("toml")); }},
      {"compile and all verdicts (s)", "#06c",
       [](const Figures& f) { return median(f.at("compile")) + median(f.at("matrix")); }},
      {"memory at its peak (GB)", "#b40", [](const Figures& f) { return median(f.at("matrix.peak")) / 1e9; }},
  }};
  const auto across = [](double runs) { return 60 + 160 * (std::log10(runs) - 3); };
  const auto down = [](double value) { return 420 - 60 * (std::log10(value) + 3); };
  std::string svg =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 700 460\" font-family=\"sans-serif\" font-size=\"12\">\n"
      "<title>Time and memory against the number of runs, both axes logarithmic</title>\n";
  for (int decade = 3; decade <= 6; ++decade)
    svg += fmt::format(
        "<path d=\"M{0} 30V420\" stroke=\"#ddd\"/><text x=\"{0}\" y=\"438\" text-anchor=\"middle\">1e{1} runs</text>\n",
        across(std::pow(10, decade)), decade);
  for (int decade = -3; decade <= 3; ++decade)
    svg += fmt::format(
        "<path d=\"M60 {0}H560\" stroke=\"#ddd\"/><text x=\"54\" y=\"{0}\" text-anchor=\"end\">1e{1}</text>\n",
        down(std::pow(10, decade)), decade);
  double label = 320;
  for (const Series& one : series) {
    std::string points;
    for (const Size& size : sizes)
      points += fmt::format("{:.1f},{:.1f} ", across(size.runs), down(one.value(size.figures)));
    svg += fmt::format("<polyline fill=\"none\" stroke=\"{0}\" stroke-width=\"2\" points=\"{1}\"/><text x=\"400\" "
                       "y=\"{2}\" fill=\"{0}\">{3}</text>\n",
                       one.colour, points, label += 16, one.name);
  }
  std::ofstream{path} << svg << "</svg>\n";
}

int measure_all(const char* self, const std::string& scratch, int rounds, const std::vector<std::uint32_t>& all_runs) {
  std::vector<Size> sizes;
  for (const std::uint32_t runs : all_runs) {
    Size size{runs, {}};
    const std::string folder = knowledge_base(scratch, runs, 0);
    for (int round = 0; round < rounds; ++round) {
      collect(size.figures, self, "--toml", folder);
      collect(size.figures, self, "--compile", folder);
    }
    if (size.figures.contains("unsound")) {
      std::fprintf(stderr, "bench_scale: %s is not what it should be\n", folder.c_str());
      return 1;
    }
    print_size(size);
    for (const std::uint32_t count : {1U, 100U}) {
      if (count > runs / 20) continue;
      Figures figures;
      const std::string faulty = knowledge_base(scratch, runs, count);
      for (int round = 0; round < rounds; ++round) collect(figures, self, "--contradictions", faulty);
      if (median(figures.at("found")) != count) {
        std::fprintf(stderr, "bench_scale: not all contradictions were found in %s\n", faulty.c_str());
        return 1;
      }
      print_row(fmt::format("{} contradiction{} found and shortened, s", count, count == 1 ? "" : "s"),
                with_spread(figures.at("contradictions"), 1, 3),
                count == 1 ? "aim: 2 at 1000000" : "aim: 10 at 1000000");
    }
    if (!sizes.empty()) {
      const auto growth = [&](const char* name) {
        return median(size.figures.at(name)) / median(sizes.back().figures.at(name));
      };
      print_row(fmt::format("compile, processor time: times {} runs", sizes.back().runs),
                fmt::format("{:.1f}", growth("compile.cpu")),
                fmt::format("aim: {:.0f}", 1.2 * runs / sizes.back().runs));
      print_row(fmt::format("verdicts, processor time: times {} runs", sizes.back().runs),
                fmt::format("{:.1f}", growth("matrix.cpu")), "");
    }
    sizes.push_back(std::move(size));
  }
  draw(sizes, scratch + "/scale.svg");
  return 0;
}

} // namespace

int main(int argc, char** argv) {
  const auto is = [&](const char* mode) { return argc == 3 && std::strcmp(argv[1], mode) == 0; };
  if (is("--toml")) return measure_toml(argv[2]), 0;
  if (is("--compile")) return measure_compile(argv[2]), 0;
  if (is("--stages")) return measure_stages(argv[2]), 0;
  if (is("--contradictions")) return measure_contradictions(argv[2]), 0;
  if (argc < 2 || argv[1][0] == '-') {
    std::fprintf(stderr, "usage: bench_scale FOLDER [ROUNDS [RUNS...]]\n");
    return 2;
  }
  const int rounds = argc > 2 ? std::max(1, std::atoi(argv[2])) : 3;
  std::vector<std::uint32_t> sizes{1'000, 10'000, 100'000};
  if (argc > 3) sizes.clear();
  for (int i = 3; i < argc; ++i) sizes.push_back(static_cast<std::uint32_t>(std::max(20, std::atoi(argv[i]))));
  return measure_all(argv[0], argv[1], rounds, sizes);
}
