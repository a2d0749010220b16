// chronology/suppose.hpp: what do the statements say of one that does not count, and what would follow if it were
// right?
//
// For claims and for disputed statements. What is supposed counts on every basis, because the question is what would
// follow if it were right, and not how well it is backed.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "chronology/chronology.hpp"

namespace coeval {

// Why a supposed statement cannot be right beside those that count.
struct Refutation {
  Basis basis{};                  // the strongest that is enough for it
  std::vector<Reason> statements; // together with these it cannot hold, without any one of them it can; the
                                  // weakest is marked
  std::optional<StatementIndex>
      weakest; // nothing where it cannot hold whatever else does: there are no statements then
};

// Only statements of `weakest` basis or stronger count, and none of those set aside. Of several refutations one on the
// strongest basis, there one of those with few constraints. Takes a pass over all constraints.
[[nodiscard]] std::optional<Refutation> refute(const LinkedKb& kb, const SupposedStatements& supposed,
                                               std::span<const StatementIndex> set_aside, Basis weakest);

// The same for each of many, none set aside: one pass over all constraints, and a search of its neighbourhood for each.
[[nodiscard]] std::vector<std::optional<Refutation>> refute_each(const LinkedKb& kb, const ManySupposed& supposed,
                                                                 Basis weakest);

// The chronology if the supposed statement were right, and those set aside were not; on bases beyond `weakest` it says
// no more than on that one. There must be no refutation left.
[[nodiscard]] Chronology solve_supposing(const LinkedKb& kb, const SupposedStatements& supposed,
                                         std::span<const StatementIndex> set_aside, Basis weakest);

} // namespace coeval
