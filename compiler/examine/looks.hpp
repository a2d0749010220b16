// examine/looks.hpp: how much would a look tell, and what can it show?
//
// A look shows one of several things: a value of a choice, a stretch of a scale between the limits of stated
// tolerances, the stated colour that comes nearest. A candidate that states several values, or whose tolerance spans
// several stretches, shows each with a share of its probability; one that states nothing shows what the others show.
//
// How much a look tells is the mutual information, in bits, of what it shows and what is asked: which candidate it is,
// all being equally likely; or whether it is the one that was claimed, which counts as likely as all the others
// together. J. R. Quinlan, "Induction of decision trees", Machine Learning 1 (1986) 81-106, calls it gain.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "examine/table.hpp"

namespace coeval {

struct Share {
  std::uint32_t shown = 0;
  double probability = 1;
};

// What a column's look can show.
struct Showing {
  std::size_t count = 0;                  // of things it can show
  std::vector<std::vector<Share>> shares; // by code; the probabilities of a code add up to 1
  // Of a measure, the stretch that each thing shown stands for.
  std::vector<Interval> stretches;
};

// What the look can show of the codes that `used` marks; codes that it does not mark have no shares.
[[nodiscard]] Showing showing_of(const Column& column, const std::vector<char>& used);
[[nodiscard]] Showing showing_of(const Column& column);

struct Look {
  FeatureIndex feature{};
  double bits = 0;
  double effort = 1; // minutes
  [[nodiscard]] double bits_per_minute() const { return bits / effort; }
};

// What is asked of each candidate. Candidates of one class need not be told apart.
struct Classes {
  std::vector<std::uint32_t> of; // by candidate; empty: each is its own class
  std::vector<double> weight;    // by candidate, how likely it is beside the others; empty: all alike
  std::size_t count = 0;         // of classes, where `of` is given

  // The claimed candidate against all others that are left; as likely as they are together.
  [[nodiscard]] static Classes claimed_or_not(std::size_t candidates, std::size_t claimed, std::size_t left);
  // Originals against reproductions.
  [[nodiscard]] static Classes original_or_not(std::span<const Candidate> candidates);
};

// The bits that a look at the column tells of the class, among the candidates that are left.
[[nodiscard]] double bits_told(const Column& column, const std::vector<std::size_t>& left, const Classes& classes);

// Every harmless look that tells something, the most bits a minute first; with `seller_first`, those that a seller can
// do before the others.
[[nodiscard]] std::vector<Look> rank_looks(const FeatureTable& table, const std::vector<std::size_t>& left,
                                           const Classes& classes, bool seller_first);

// The entropy of a distribution in bits; the weights need not add up to 1.
[[nodiscard]] double entropy(const std::vector<double>& weights);

} // namespace coeval
