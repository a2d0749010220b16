// chronology/chronology.hpp: how early and how late can each thing have happened, and do the statements agree?
//
// Everything is solved four times, on statements of each basis or stronger. What the graph entails, and nothing else,
// is what is known: an end that nothing constrains stays unbounded. A contradiction is a value, not an exception: the
// shortest list of statements that cannot all hold. Where there are any, the weakest statement of each is set aside, so
// that bounds exist.
#pragma once

#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "chronology/statements.hpp"
#include "constraints/contradictions.hpp"
#include "constraints/entail.hpp"

namespace coeval {

struct DayBounds {
  std::optional<Day> earliest;
  std::optional<Day> latest;
  friend bool operator==(const DayBounds&, const DayBounds&) = default;
};

// "between 1976-08-01 and 1977-02-28", "on 1976-08-01 or later", "at an unknown time".
[[nodiscard]] std::string in_words(const DayBounds& bounds);

// One side of a point's bounds: the tightest day that the evidence allows, proven on the strongest basis that already
// gives it.
struct ProvenBound {
  std::optional<Day> day;
  std::optional<Basis> basis;
  std::vector<Reason> proof;
};
enum class Side : std::uint8_t { earliest, latest };

class Chronology {
public:
  Chronology(const LinkedKb& kb, Statements statements);

  [[nodiscard]] const std::vector<Contradiction>& contradictions() const { return contradictions_; }
  [[nodiscard]] const ConstraintGraph& graph() const { return *graph_; }
  [[nodiscard]] const Entailment& on(Basis basis) const { return levels_.at(static_cast<std::size_t>(basis)); }
  // On statements of this basis or stronger.
  [[nodiscard]] DayBounds bounds(Point point, Basis basis) const;
  // On statements of `weakest` basis or stronger.
  [[nodiscard]] ProvenBound proven_bound(Point point, Side side, Basis weakest) const;
  // A chain of constraints as sentences; what holds by the meaning of the words is left out unless nothing else is
  // there.
  [[nodiscard]] std::vector<Reason> tell_all(std::span<const ConstraintIndex> chain) const;
  // The statements of a contradiction as sentences, the weakest marked.
  [[nodiscard]] std::vector<Reason> tell_contradiction(const Contradiction& contradiction) const;

private:
  [[nodiscard]] Reason tell_one(ConstraintIndex index) const;

  const LinkedKb* kb_;
  std::vector<Telling> tellings_;
  std::vector<const Evidence*> evidence_;
  std::shared_ptr<const ConstraintGraph> graph_;
  std::vector<Contradiction> contradictions_;
  std::vector<Entailment> levels_; // by basis
};

// `kb` must outlive the result.
[[nodiscard]] Chronology solve_chronology(const LinkedKb& kb);

} // namespace coeval
