#include "examine/alike.hpp"

#include <algorithm>

namespace coeval {
namespace {

bool disjoint(const Column& column, std::uint32_t one, std::uint32_t other) {
  if (one == other) return false;
  if (!column.intervals.empty()) return apart(column.intervals[one], column.intervals[other]);
  if (column.swatches.empty()) return true;
  const Swatch& a = column.swatches[one];
  const Swatch& b = column.swatches[other];
  if (!a.known || !b.known) return true; // a comparison with the figure tells, as long as it is not of that colour too
  return ciede2000(a.lab, b.lab) > a.reach() + b.reach();
}

// Maximal cliques of the graph whose edges join what cannot be told apart: C. Bron, J. Kerbosch, "Algorithm 457:
// finding all cliques of an undirected graph", Communications of the ACM 16 (1973) 575-577, with a pivot.
class Cliques {
public:
  Cliques(std::vector<std::vector<char>> joined, std::size_t most) : joined_(std::move(joined)), most_(most) {}

  std::vector<std::vector<std::size_t>> find() {
    std::vector<std::size_t> all(joined_.size());
    for (std::size_t i = 0; i < all.size(); ++i) all[i] = i;
    std::vector<std::size_t> clique;
    extend(clique, std::move(all), {});
    for (auto& found : found_) std::ranges::sort(found);
    std::ranges::sort(found_);
    return std::move(found_);
  }

private:
  void extend(std::vector<std::size_t>& clique, std::vector<std::size_t> open, std::vector<std::size_t> done) {
    if (found_.size() >= most_) return;
    if (open.empty()) {
      if (done.empty() && clique.size() > 1) found_.push_back(clique);
      return;
    }
    // A maximal clique holds the pivot or something that it is not joined to.
    std::size_t pivot = open.front();
    std::ptrdiff_t most_joined = -1;
    for (const auto* side : {&open, &done})
      for (const std::size_t candidate : *side) {
        const auto joined = std::ranges::count_if(open, [&](std::size_t other) { return joined_[candidate][other]; });
        if (joined > most_joined) {
          most_joined = joined;
          pivot = candidate;
        }
      }
    const std::vector<std::size_t> tried = open;
    for (const std::size_t next : tried) {
      if (joined_[pivot][next] != 0) continue;
      const auto joined_to_next = [&](const std::vector<std::size_t>& from) {
        std::vector<std::size_t> list;
        std::ranges::copy_if(from, std::back_inserter(list), [&](std::size_t other) { return joined_[next][other]; });
        return list;
      };
      clique.push_back(next);
      extend(clique, joined_to_next(open), joined_to_next(done));
      clique.pop_back();
      std::erase(open, next);
      done.push_back(next);
    }
  }

  std::vector<std::vector<char>> joined_; // square, nobody joined to itself
  std::size_t most_;
  std::vector<std::vector<std::size_t>> found_;
};

} // namespace

bool told_apart_by(const FeatureTable& table, std::size_t column, std::size_t one, std::size_t other) {
  const Column& values = table.columns[column];
  const auto codes = values.of(one);
  const auto others = values.of(other);
  if (codes.empty() || others.empty()) return false;
  for (const std::uint32_t code : codes)
    for (const std::uint32_t of_other : others)
      if (!disjoint(values, code, of_other)) return false;
  return true;
}

bool may_tell_apart(const FeatureTable& table, std::size_t column, std::size_t one, std::size_t other) {
  const auto codes = table.columns[column].of(one);
  const auto others = table.columns[column].of(other);
  return !codes.empty() && !others.empty() && !std::ranges::is_permutation(codes, others);
}

bool told_apart(const FeatureTable& table, std::size_t one, std::size_t other) {
  for (std::size_t column = 0; column < table.columns.size(); ++column)
    if (harmless(table.feature(column)) && told_apart_by(table, column, one, other)) return true;
  return false;
}

std::vector<std::vector<std::size_t>> alike_sets(const FeatureTable& table, std::size_t most) {
  std::vector<std::vector<char>> joined(table.size(), std::vector<char>(table.size(), 0));
  for (std::size_t one = 0; one < table.size(); ++one)
    for (std::size_t other = one + 1; other < table.size(); ++other)
      joined[one][other] = joined[other][one] = told_apart(table, one, other) ? 0 : 1;
  return Cliques{std::move(joined), most}.find();
}

} // namespace coeval
