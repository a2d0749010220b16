// Would an index of distances between any two points be worth its room?
//
//   bench_labels [RUNS [LINKS]]
//
// Builds pruned landmark labels (distance_labels.hpp) for the weakest basis of a generated knowledge base, LINKS
// percent of whose moulds are dated by one of another family, and asks them and Entailment the same questions: pairs of
// points at random, and pairs that are nearer than through the origin. Beside it, what the verdicts do in place of it:
// all points that are nearer to one, looked for once. README.md holds the results and what was decided.
#include <cstdio>
#include <cstdlib>
#include <utility>
#include <vector>

#include <sys/resource.h>

#include <fmt/format.h>

#include "chronology/statements.hpp"
#include "constraints/entail.hpp"
#include "distance_labels.hpp"
#include "entries/read.hpp"
#include "generate/dice.hpp"
#include "generate/written.hpp"
#include "links/link.hpp"

namespace {

using namespace coeval;
using Pairs = std::vector<std::pair<Point, Point>>;

double cpu_seconds() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_utime.tv_sec) + 1e-6 * static_cast<double>(usage.ru_utime.tv_usec);
}

template <class Work> double seconds(const Work& work) {
  const double start = cpu_seconds();
  work();
  return cpu_seconds() - start;
}

ConstraintGraph graph_of(const generated::Plan& plan) {
  SourceSet sources;
  generated::write_history(plan, [&](const std::string& path, const std::string& text) {
    if (path.ends_with(".toml")) sources.files.emplace_back(path, text);
  });
  std::ranges::sort(sources.files, {}, &SourceFile::path);
  Diagnostics out;
  const LinkedKb kb = link_entries(read_entries(sources, {}, out), true, out);
  Statements statements = state(kb);
  return ConstraintGraph{statements.points, std::move(statements.constraints)};
}

// x and y of each; both have the same answer in the end.
bool compare(const char* name, const Pairs& pairs, const bench::DistanceLabels& labels, const Entailment& entailment) {
  const auto count = static_cast<double>(pairs.size());
  std::vector<std::int64_t> told(pairs.size());
  std::vector<std::int64_t> searched(pairs.size());
  const double by_labels = seconds([&] {
    for (std::size_t i = 0; i < pairs.size(); ++i)
      told[i] =
          labels.distance(static_cast<std::uint32_t>(pairs[i].second), static_cast<std::uint32_t>(pairs[i].first));
  });
  const double by_search = seconds([&] {
    for (std::size_t i = 0; i < pairs.size(); ++i)
      searched[i] = entailment.upper(pairs[i].first, pairs[i].second).value_or(bench::DistanceLabels::unreached);
  });
  fmt::print("{}: {} pairs, labels {:.0f} ns, Entailment::upper {:.0f} ns each\n", name, pairs.size(),
             1e9 * by_labels / count, 1e9 * by_search / count);
  return told == searched;
}

} // namespace

int main(int argc, char** argv) {
  const auto number = [&](int place, std::uint32_t otherwise) {
    return argc > place ? static_cast<std::uint32_t>(std::max(0, std::atoi(argv[place]))) : otherwise;
  };
  const ConstraintGraph graph = graph_of({.runs = number(1, 100'000), .links = number(2, 15)});
  const auto all = [](ConstraintIndex) { return true; };
  const SortedEdges along{graph, all};
  const SortedEdges against{graph, all, Direction::against};
  std::optional<bench::DistanceLabels> labels;
  const double build = seconds([&] { labels.emplace(along, against); });
  fmt::print("{} points, {} constraints: built in {:.2f} s, {:.2f} entries a point, {:.1f} MB\n", graph.points(),
             graph.constraints().size(), build,
             static_cast<double>(labels->entries()) / static_cast<double>(graph.points()),
             static_cast<double>(labels->bytes()) / 1e6);

  const auto entailment = Entailment::build(graph, 3);
  if (!labels->sound() || !entailment) return EXIT_FAILURE;
  std::size_t near = 0;
  const double rows = seconds([&] {
    for (std::uint32_t p = 1; p < graph.points(); ++p) near += entailment->nearer_from(Point{p}).size();
  });
  fmt::print("Entailment::nearer_from: {:.0f} ns each, {:.2f} points\n", 1e9 * rows / graph.points(),
             static_cast<double>(near) / graph.points());
  constexpr std::size_t most_pairs = 400'000;
  Pairs at_random;
  Pairs nearer;
  generated::Dice dice{1976, 0};
  while (at_random.size() < most_pairs)
    at_random.emplace_back(Point{dice.below(graph.points())}, Point{dice.below(graph.points())});
  for (std::uint32_t p = 1; p < graph.points() && nearer.size() < most_pairs; ++p)
    for (const NearPoint& other : entailment->nearer_from(Point{p})) nearer.emplace_back(other.point, Point{p});
  const bool equal = compare("at random", at_random, *labels, *entailment) &&
                     compare("nearer than through the origin", nearer, *labels, *entailment);
  if (!equal) fmt::print("the labels are wrong\n");
  return equal ? EXIT_SUCCESS : EXIT_FAILURE;
}
