// verdicts/claims.hpp: what does the evidence say of something that collectors repeat?
//
// A claim states pairings or orders in time, or says what it says in words only. What it states does not count as
// evidence; it is held against everything that does.
#pragma once

#include "verdicts/judge.hpp"

namespace coeval {

struct ClaimFinding {
  enum class Answer : std::uint8_t {
    proven,    // it follows from everything else; of a pairing: the two were found together
    ruled_out, // it cannot be true beside everything else
    allowed,   // neither
  };
  Answer answer = Answer::allowed;
  std::optional<Basis> basis; // for proven and ruled out: the strongest that already decides
  std::vector<Reason> proof;  // the statements that do
};
[[nodiscard]] std::string_view name(ClaimFinding::Answer answer); // "proven", "ruled out", "allowed"

// Ruled out by the verdict or, where it names a card, by the days on which all could be sealed together; proven where
// the pairing is attested. The judge must stand on every basis.
[[nodiscard]] ClaimFinding find_claimed(const LinkedKb& kb, Judge& judge, const ClaimedPairing& pairing);
// Ruled out if its constraints cannot hold together, proven if each is entailed.
[[nodiscard]] ClaimFinding find_claimed(const LinkedKb& kb, const Chronology& chronology, const Timing& timing);

// All that a claim states, in the order of its entries, pairings first.
struct ClaimReport {
  struct Stated {
    EntryIndex entry{}; // its table
    std::string words;  // one sentence
    ClaimFinding finding;
  };
  ClaimIndex claim{};
  std::vector<Stated> stated; // empty for a claim in words only
  // Of the whole: ruled out where some statement is, proven where all are. The basis is the strongest that rules one
  // out, or that proves all.
  ClaimFinding::Answer answer = ClaimFinding::Answer::allowed;
  std::optional<Basis> basis;
};
[[nodiscard]] ClaimReport report_claim(const LinkedKb& kb, const Chronology& chronology, Judge& judge,
                                       ClaimIndex claim);

// All claims, in their order. Asking one by one takes a pass over all constraints for each.
[[nodiscard]] std::vector<ClaimReport> report_claims(const LinkedKb& kb, const Chronology& chronology, Judge& judge);

// "proven on documented evidence", "ruled out on observed evidence", "neither proven nor ruled out", "in words only".
[[nodiscard]] std::string finding_words(const ClaimReport& report);

} // namespace coeval
