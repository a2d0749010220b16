// examine/table.hpp: what do all candidates state, feature by feature?
//
// A column for each feature. What candidates state is numbered: candidates that state the same share a code, so that an
// observation is compared with each distinct value once and not with each of a hundred thousand candidates.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "examine/candidates.hpp"
#include "examine/measure.hpp"
#include "examine/observation.hpp"

namespace coeval {

// A stated colour. `as_figure`: that of the figure's own plastic; `known` says whether that was read.
struct Swatch {
  Lab lab;
  double tolerance = 0;   // CIEDE2000
  double uncertainty = 0; // of the reading of the figure's colour
  bool as_figure = false;
  bool known = true;
  // How far a part's colour may lie from `lab`.
  [[nodiscard]] double reach() const { return tolerance + uncertainty; }
  friend bool operator==(const Swatch&, const Swatch&) = default;
};

struct Column {
  std::vector<std::uint32_t> first; // one more than candidates: where the codes of each begin
  std::vector<std::uint32_t>
      codes; // several for a candidate that is found with any of them, none where it states nothing
  // What each code stands for: one of these is filled, as the feature's kind demands.
  std::vector<FeatureAtom> atoms;
  std::vector<Interval> intervals; // a stated measure with its tolerance
  std::vector<Swatch> swatches;

  [[nodiscard]] std::size_t distinct() const { return atoms.size() + intervals.size() + swatches.size(); }
  [[nodiscard]] std::span<const std::uint32_t> of(std::size_t candidate) const {
    return std::span{codes}.subspan(first[candidate], first[candidate + 1] - first[candidate]);
  }
};

// Refers to the knowledge base and the candidates, which must outlive it.
struct FeatureTable {
  const LinkedKb* kb = nullptr;
  std::span<const Candidate> candidates;
  std::vector<Column> columns; // by FeatureIndex

  [[nodiscard]] std::size_t size() const { return candidates.size(); }
  [[nodiscard]] const Feature& feature(std::size_t column) const { return kb->features[column]; }
};

// Numbers without any tolerance state nothing that a measurement could decide, and are left out.
[[nodiscard]] FeatureTable tabulate(const LinkedKb& kb, std::span<const Candidate> candidates,
                                    const std::optional<SeenColour>& figure_colour = {});

// How one code of the column stands to an observation of its feature.
[[nodiscard]] Fit fit_of(const Column& column, std::size_t code, const Observation& observation);

// Looks that may be proposed: none that harms the part.
[[nodiscard]] bool harmless(const Feature& feature);

} // namespace coeval
