// drift/causes.hpp: which edits made an answer change?
//
// The problem: of n edits, find the fewest that, made in the old version and no others, already give the new version's
// answer. Making an edit can undo what another does, so every set would have to be tried. What is done instead:
//
//  1. Each edit alone, those first on which the proof of the old or the new answer rests. Nearly every change has a
//  cause
//     of one edit, and a cause of one is smallest.
//  2. For the rest, a set that does give the answer (the edits that the proofs rest on, or else all) is made smaller,
//  in
//     chunks and then one by one, until nothing can be left out. Where that ends with two edits, it is smallest too,
//     because each alone was tried.
//  3. Else every set of fewer edits is tried, as long as the number of mixtures allows.
//
// Of several smallest causes the one that explains other changes is taken, then the one that comes first in the list of
// edits. The cost is one mixture, linked and solved, for each set tried: at most `most_mixtures`.
#pragma once

#include "drift/answers.hpp"
#include "drift/mixture.hpp"

namespace coeval {

enum class Certainty : std::uint8_t {
  smallest,    // no set of fewer edits gives the answer
  irreducible, // none of them can be left out; whether fewer others would do was not tried to the end
  untried,     // all edits, because there were too many to try
};
[[nodiscard]] std::string_view name(Certainty certainty);

struct Cause {
  std::vector<EditIndex> edits; // ascending
  Certainty certainty{};
  friend auto operator<=>(const Cause&, const Cause&) = default;
};

// The changes that have one cause.
struct CausedChanges {
  Cause cause;
  AnswerChanges changes;
};

// Mixtures that are made at most, so that it ends soon for any knowledge base: fewer for a larger one.
[[nodiscard]] std::size_t most_mixtures(const LinkedKb& kb);

// The cause that explains most verdicts first, then most changes, then by edits.
[[nodiscard]] std::vector<CausedChanges> find_causes(const Version& before, const Version& after,
                                                     const std::vector<Edit>& edits, const AnswerChanges& changes,
                                                     Basis weakest, std::size_t most);

} // namespace coeval
