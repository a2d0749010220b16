// examine/examine.hpp: which candidates do the observations leave, and what should be looked at next?
//
// A candidate is excluded only by an observation that none of its stated values allows, and a measurement excludes only
// where its uncertainty leaves no doubt. What it does not state excludes nothing. Not every reproduction is known, so
// no outcome says that a part is authentic: at most that the observations are consistent with an original.
#pragma once

#include <cstdint>
#include <vector>

#include "examine/looks.hpp"
#include "examine/table.hpp"

namespace coeval {

inline constexpr std::size_t most_observations = 64;

enum class Remaining : std::uint8_t {
  originals,     // only originals are left: consistent with an original
  reproductions, // only reproductions are left
  mixed,         // both
  nothing,       // no candidate fits: the part is not entered, or an observation is mistaken
};
[[nodiscard]] std::string_view name(Remaining remaining);

// How the observations stand to one candidate: bit i is observation i. What is in none of the three is of a feature
// that the candidate does not state.
struct Stand {
  std::uint64_t excludes = 0;
  std::uint64_t agrees = 0;
  std::uint64_t undecided = 0; // measured too roughly to decide
  bool ruled_out = false;      // by something else than a look, see Question

  [[nodiscard]] bool out() const { return excludes != 0 || ruled_out; }
};
[[nodiscard]] std::vector<std::size_t> members(std::uint64_t observations);

struct Outcome {
  Remaining remaining{};
  std::vector<Stand> stands;        // of every candidate
  std::vector<std::size_t> left;    // candidates that nothing excludes
  std::vector<std::size_t> nearest; // where nothing is left: those that the fewest observations exclude
  std::vector<std::size_t> recheck; // where nothing is left: observations, the one that frees most of the nearest first
  std::vector<Look> next;           // the most telling first; empty where no look can tell the rest apart
};

struct Question {
  std::optional<std::size_t> claimed; // the candidate that the part is offered as; nothing: which of them is it?
  bool seller_first = false;          // looks that a seller can do from afar before those in the hand
  std::size_t most_next = 8;          // at most so many looks are proposed
  std::vector<bool> ruled_out = {};   // by candidate: those that are out whatever a look shows, as by their dates
};

// At most `most_observations` of them.
[[nodiscard]] Outcome examine(const FeatureTable& table, const std::vector<Observation>& observations,
                              const Question& question = {});

// Whether the part can be what it is offered as.
enum class ClaimAnswer : std::uint8_t {
  consistent, // what was seen agrees with it, and nothing is left that a look could tell from it
  excluded,   // some observation, or something else than a look, rules it out
  undecided,  // something else is left: other looks may tell, or a reproduction that none can
};
[[nodiscard]] std::string_view name(ClaimAnswer answer);

struct Conclusion {
  ClaimAnswer answer{};
  std::vector<std::size_t> others; // left beside the claimed one, and a look can tell them from it
  std::vector<std::size_t> alike;  // left, and none can
};
[[nodiscard]] Conclusion conclude(const FeatureTable& table, const Outcome& outcome, std::size_t claimed);

} // namespace coeval
