// Is the expected effort of a key the least that any order of looks has?
//
// Every order is tried without memory or bounds, over the candidates themselves: each time those that are left count as
// equally likely; one that states several values shows each as often; one that states nothing shows what the others do.
#include <catch2/catch.hpp>

#include <cmath>
#include <map>
#include <set>

#include "examine/key.hpp"
#include "random_parts.hpp"

using namespace coeval;
using random_parts::Parts;
using random_parts::Shape;

namespace {

using Left = std::vector<std::size_t>; // as written

struct Branch {
  Left left;
  double probability = 0;
};

// What a look at the choice makes of those that are left; empty where it cannot make them fewer.
std::vector<Branch> branches(const Parts& parts, std::size_t choice, const Left& left) {
  std::map<int, double> shown;
  double telling = 0;
  for (const std::size_t c : left) {
    const auto& stated = parts.written.stated[c][choice];
    for (const int value : stated) shown[value] += 1.0 / static_cast<double>(stated.size());
    telling += stated.empty() ? 0 : 1;
  }
  std::vector<Branch> list;
  bool fewer = false;
  for (const auto& [value, weight] : shown) {
    Branch branch{{}, weight / telling};
    for (const std::size_t c : left) {
      const auto& stated = parts.written.stated[c][choice];
      if (stated.empty() || std::ranges::find(stated, value) != stated.end()) branch.left.push_back(c);
    }
    fewer = fewer || branch.left.size() < left.size();
    list.push_back(std::move(branch));
  }
  return fewer ? list : std::vector<Branch>{};
}

double least_minutes(const Parts& parts, const Left& left, std::set<std::size_t> taken) {
  double best = -1;
  for (std::size_t choice = 0; choice < parts.written.minutes.size(); ++choice) {
    if (taken.contains(choice)) continue;
    const std::vector<Branch> list = branches(parts, choice, left);
    if (list.empty()) continue;
    double expected = parts.written.minutes[choice];
    std::set<std::size_t> then = taken;
    then.insert(choice);
    for (const Branch& branch : list) expected += branch.probability * least_minutes(parts, branch.left, then);
    if (best < 0 || expected < best) best = expected;
  }
  return std::max(best, 0.0);
}

Left everything(const Parts& parts) {
  Left all(parts.candidates.size());
  for (std::size_t i = 0; i < all.size(); ++i) all[i] = i;
  return all;
}

// Every leaf that a candidate's values lead to holds it.
void follow(const Parts& parts, const Key& key, std::size_t node, std::size_t candidate) {
  const KeyNode& here = key.nodes[node];
  REQUIRE(std::ranges::find(here.candidates, candidate) != here.candidates.end());
  if (!here.look) return;
  const Column& column = parts.table.columns[at(*here.look)];
  const Showing showing = showing_of(column);
  std::set<std::size_t> shown;
  for (const std::uint32_t code : column.of(candidate))
    for (const Share& share : showing.shares[code]) shown.insert(share.shown);
  std::size_t followed = 0;
  for (const KeyBranch& branch : here.branches) {
    const bool leads =
        shown.empty() || std::ranges::any_of(branch.shown, [&](std::size_t one) { return shown.contains(one); });
    if (leads) follow(parts, key, branch.node, candidate);
    followed += leads ? 1 : 0;
  }
  CHECK(followed > 0);
}

} // namespace

TEST_CASE("no order of looks takes less time on average") {
  int dear = 0;
  for (unsigned seed = 1; seed <= 400; ++seed) {
    INFO("seed " << seed);
    Shape shape{.candidates = 2 + static_cast<int>(seed % 6), .choices = 1 + static_cast<int>(seed % 4)};
    if (seed % 3 == 0) shape.silent = shape.several = 0;
    const Parts parts{seed, shape};
    const Key key = make_key(parts.table);
    REQUIRE(key.optimal);
    CHECK(key.expected_minutes == Approx(least_minutes(parts, everything(parts), {})).margin(1e-9));
    dear += key.expected_minutes > 2 ? 1 : 0;
  }
  CHECK(dear > 50); // the tables are not all trivial
}

TEST_CASE("every candidate is found where its values lead, and no key beats the bound") {
  int whole = 0;
  for (unsigned seed = 1; seed <= 200; ++seed) {
    INFO("seed " << seed);
    // Above the size that is searched too.
    const Parts parts{seed, {.candidates = 2 + static_cast<int>(seed % 37), .choices = 4, .measures = 2, .silent = 10}};
    const Key key = make_key(parts.table);
    CHECK(key.nodes.size() <= most_key_nodes); // one that would be larger is cut short, and no less true
    whole += key.complete ? 1 : 0;
    for (std::size_t candidate = 0; candidate < parts.candidates.size(); ++candidate) follow(parts, key, 0, candidate);
    CHECK(key.expected_steps >= key.least_steps - 1e-9);
    CHECK(key.expected_minutes >= key.least_minutes - 1e-9);
    // A branch leads to no more than is left, and what it says adds up.
    for (const KeyNode& node : key.nodes) {
      double sum = 0;
      for (const KeyBranch& branch : node.branches) {
        sum += branch.probability;
        CHECK(std::ranges::includes(node.candidates, key.nodes[branch.node].candidates));
      }
      if (node.look) CHECK(sum == Approx(1));
    }
  }
  CHECK(whole > 150);
}

TEST_CASE("where every candidate states one value of everything, the bound is the entropy over the widest look") {
  for (unsigned seed = 1; seed <= 100; ++seed) {
    INFO("seed " << seed);
    const Parts parts{seed, {.candidates = 8, .choices = 4, .silent = 0, .several = 0}};
    std::map<std::vector<std::vector<int>>, double> kinds;
    for (const auto& stated : parts.written.stated) kinds[stated] += 1;
    double bits = 0;
    for (const auto& [kind, count] : kinds) bits -= count / 8 * std::log2(count / 8);
    std::size_t widest = 1;
    for (std::size_t choice = 0; choice < 4; ++choice) {
      std::set<int> shown;
      for (const auto& stated : parts.written.stated) shown.insert(stated[choice].front());
      widest = std::max(widest, shown.size());
    }
    if (widest < 2) continue;
    CHECK(make_key(parts.table).least_steps == Approx(bits / std::log2(static_cast<double>(widest))).margin(1e-9));
  }
}
