// How long does a swap take, against LEMON alone, once, on the same arcs?
//
// Kinds of shelf, all invented: `line`, figures with two to four accessories of their own and one that several share,
// three runs of each, some strewn; `shared`, the
// same with one accessory that all have; `hub`, one accessory that every figure has; `hub3`, three such; `single`, no
// two parts or slots alike, each part fitting three slots anywhere, which is the worst of all.

#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <random>
#include <string>

#include "swap/search.hpp"

using namespace coeval;

namespace {

// Of the processor, so that what else the machine does counts for little. Nothing here has a second thread.
double seconds_since(std::clock_t start) { return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC; }

class Dice {
public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  std::uint32_t below(std::uint64_t n) { return static_cast<std::uint32_t>(engine_() % n); }

private:
  std::mt19937_64 engine_;
};

// Accessory kinds, each with `runs` kinds of part; issues, each with a slot kind for each of its accessories.
struct Line {
  std::uint32_t runs = 3;
  std::uint32_t accessories = 0;
  std::vector<std::vector<std::uint32_t>> issues; // their accessories
};

SwapProblem strew(const Line& line, std::uint32_t parts, Dice& dice) {
  SwapProblem problem;
  problem.part_kinds = line.accessories * line.runs;
  std::vector<std::vector<std::uint32_t>> slot_kinds; // by issue
  for (const auto& accessories : line.issues) {
    auto& kinds = slot_kinds.emplace_back();
    for (const std::uint32_t accessory : accessories) {
      for (std::uint32_t run = 0; run < line.runs; ++run)
        if (const std::uint32_t chance = dice.below(10); chance < 8)
          problem.fits.push_back({accessory * line.runs + run, problem.slot_kinds,
                                  1 + static_cast<std::int32_t>(dice.below(16)), chance < 6});
      kinds.push_back(problem.slot_kinds++);
    }
  }
  while (problem.parts.size() < parts) {
    const std::uint32_t issue = dice.below(line.issues.size());
    const auto piece = static_cast<std::uint32_t>(problem.pieces.size());
    problem.pieces.push_back({dice.below(5) == 0 ? 3 : 1});
    for (std::size_t s = 0; s < slot_kinds[issue].size(); ++s) {
      const auto slot = static_cast<std::uint32_t>(problem.slots.size());
      problem.slots.push_back({piece, slot_kinds[issue][s], dice.below(20) == 0});
      if (problem.parts.size() == parts) continue;
      const std::uint32_t kind = line.issues[issue][s] * line.runs + dice.below(line.runs);
      if (dice.below(4) != 0)
        problem.parts.push_back({kind, slot});
      else if (dice.below(2) == 0)
        problem.parts.push_back({kind, {}});
    }
  }
  return problem;
}

// With `shared`, all figures have the first accessory.
Line some_line(std::uint32_t figures, bool shared, Dice& dice) {
  Line line;
  if (shared) line.accessories = 1;
  for (std::uint32_t figure = 0; figure < figures; ++figure) {
    std::vector<std::uint32_t> accessories;
    if (shared)
      accessories.push_back(0);
    else if (dice.below(3) == 0 && line.accessories > 0)
      accessories.push_back(dice.below(line.accessories));
    for (std::uint32_t own = 2 + dice.below(3); own > 0; --own) accessories.push_back(line.accessories++);
    for (std::uint32_t issue = 0; issue < 3; ++issue) line.issues.push_back(accessories);
  }
  return line;
}

Line hub(std::uint32_t issues, std::uint32_t accessories) {
  Line line{10, accessories, {}};
  for (std::uint32_t issue = 0; issue < issues; ++issue) {
    line.issues.emplace_back();
    for (std::uint32_t a = 0; a < accessories; ++a) line.issues.back().push_back(a);
  }
  return line;
}

SwapProblem single(std::uint32_t parts, std::uint32_t width, Dice& dice) {
  SwapProblem problem;
  problem.part_kinds = problem.slot_kinds = parts;
  for (std::uint32_t n = 0; n < parts; ++n) {
    if (n % width == 0) problem.pieces.push_back({1});
    problem.slots.push_back({n / width, n, false});
    problem.parts.push_back({n, dice.below(2) == 0 ? std::optional{n} : std::nullopt});
    for (int fit = 0; fit < 3; ++fit)
      problem.fits.push_back({n, dice.below(parts), 1 + static_cast<std::int32_t>(dice.below(16)), dice.below(4) != 0});
  }
  return problem;
}

double lemon_alone(const SwapProblem& problem) {
  const FitTable fits{problem};
  const SwapLayout layout = lay_out(problem, fits);
  std::vector<PartSupply> supply(problem.part_kinds);
  for (const SwapPart& part : problem.parts) ++(part.in ? supply[part.kind].held : supply[part.kind].loose);
  double seconds = 0;
  for (const SwapComponent& component : layout.components) {
    const SwapNetwork network = build_network(component, fits, supply);
    const auto start = std::clock();
    std::vector<std::int64_t> cost;
    for (const SwapWorth& worth : network.worth) cost.push_back(-1000 * worth.right - worth.strength);
    MinCostFlow flows{network.nodes, network.arcs};
    if (!flows.solve(std::vector<std::int32_t>(cost.size(), 0), network.capacity, cost)) std::abort();
    seconds += seconds_since(start);
  }
  return seconds;
}

void measure(const std::string& name, const SwapProblem& problem) {
  std::printf("%-8s ", name.c_str());
  std::fflush(stdout);
  const double alone = lemon_alone(problem);
  auto start = std::clock();
  const SwapPlan plan = best_swap(problem);
  const double swap = seconds_since(start);
  start = std::clock();
  const std::size_t moves = moves_of(problem, plan).size();
  std::printf("%-8s %7zu %8.3f %8.3f %6.1f %8.3f %8zu %7lld %7lld %s\n", name.c_str(), problem.parts.size(), swap,
              alone, swap / alone, seconds_since(start), moves, static_cast<long long>(plan.after.complete),
              static_cast<long long>(plan.most_complete), plan.is_best ? "best" : "");
}

} // namespace

int main(int count, char** arguments) {
  const std::string only = count > 1 ? arguments[1] : "";
  std::printf("%-8s %7s %8s %8s %6s %8s %8s %7s %7s\n", "shelf", "parts", "swap s", "LEMON s", "ratio", "moves s",
              "moves", "whole", "most");
  for (const std::uint32_t parts : {1000U, 10'000U, 100'000U}) {
    Dice dice{parts};
    const std::uint32_t figures = std::max(20U, parts / 100);
    measure("line", strew(some_line(figures, false, dice), parts, dice));
    measure("shared", strew(some_line(figures, true, dice), parts, dice));
    measure("hub", strew(hub(50, 1), parts, dice));
    measure("hub3", strew(hub(50, 3), parts, dice));
    measure("single1", single(parts, 1, dice));
    measure("single3", single(parts, 3, dice));
  }
}
