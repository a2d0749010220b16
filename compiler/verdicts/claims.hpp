// verdicts/claims.hpp: what does the evidence say of something that collectors repeat?
#pragma once

#include "verdicts/judge.hpp"

namespace coeval {

struct ClaimFinding {
  bool possible = true;       // what the claim states can be true beside everything else
  bool proven = false;        // it follows from everything else
  std::optional<Basis> basis; // of a timing that is proven: the strongest basis that does
  std::vector<Reason> proof;  // of a timing that is proven or ruled out by one of its orders; else empty
};

// Possible unless the verdict or, where it names a card, the days on which all could be sealed together rule it out;
// proven where the pairing is attested. The judge must stand on every basis.
[[nodiscard]] ClaimFinding find_claimed(const LinkedKb& kb, const Chronology& chronology, Judge& judge,
                                        const ClaimedPairing& pairing);
// Possible if all of its constraints can hold together, proven if each is entailed.
[[nodiscard]] ClaimFinding find_claimed(const LinkedKb& kb, const Chronology& chronology, const Timing& timing,
                                        bool with_proof);

} // namespace coeval
