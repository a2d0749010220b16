// examine/key.hpp: in which order are looks best taken to tell the candidates apart?
//
// A decision tree. Each time, the candidates that are left count as equally likely. A candidate that states several
// values, or none, goes down several branches, and so a leaf can hold more than one; so it does where no look can tell
// the rest apart. Looks that harm the part are never in it.
//
// Where there are few candidates, every order is tried and the expected effort is the least there is; where there are
// more, the look that tells most bits a minute is taken each time, which need not be the best order. The key says
// which.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "examine/looks.hpp"

namespace coeval {

// Up to so many kinds of candidates, alike ones counted once, every order is tried, as long as that takes no more than
// `most_states_searched` sets of candidates.
inline constexpr std::size_t most_kinds_searched = 16;
inline constexpr std::size_t most_states_searched = 20'000;
inline constexpr std::size_t most_key_nodes = 4'000;

struct KeyBranch {
  std::string words;              // what the look shows: "ring or notch"
  std::vector<std::size_t> shown; // the same as numbers of the look's `Showing`; empty for anything else
  double probability = 0;         // of this branch, once the look is reached
  std::size_t node = 0;           // where it leads
};

struct KeyNode {
  std::vector<std::size_t> candidates; // what is left here, ascending
  std::optional<FeatureIndex> look;    // nothing: a leaf
  std::vector<KeyBranch> branches;
  std::size_t depth = 0; // looks taken before
};

struct Key {
  std::vector<KeyNode> nodes; // the first is the root; a branch leads to a later node
  bool optimal = false;       // every order was tried
  bool complete = true;       // false: it was cut short at `most_key_nodes`
  double expected_steps = 0;
  double expected_minutes = 0;
  // No key that ends with as much known does with less on average: what it finds out, in bits, over the most bits that
  // a look can show, and over the most that one can show a minute. A look with n things to show shows log2 n bits at
  // most.
  double least_steps = 0;
  double least_minutes = 0;
};

[[nodiscard]] Key make_key(const FeatureTable& table);

} // namespace coeval
