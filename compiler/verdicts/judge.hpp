// verdicts/judge.hpp: does this run belong with this issue, and how is that known?
//
// Four grounds, each with its own proof: place, time, route, record. A proven no on any ground is the verdict, the most
// basic ground first; else an attested pairing; else fits, where place, time and route are all proven; else open, with
// what would settle it. Only statements of the basis asked for, or stronger, count.
#pragma once

#include <span>

#include "verdicts/order.hpp"

namespace coeval {

// What the grounds together make of a run with an issue. `recorded` is what is on record: attested, reserved, refuted,
// or open where that is nothing.
[[nodiscard]] Verdict verdict_of(Answer place, const OrderAnswer& time, Verdict recorded, Answer route);

// Does the issue take the accessory? For yes, what says so on the strongest basis.
struct PlaceFinding {
  Answer answer = Answer::undecided;
  const Takes* takes = nullptr;
  bool listed = false; // it is, though perhaps on weaker evidence than was asked for
};
[[nodiscard]] PlaceFinding find_place(const LinkedKb& kb, AccessoryIndex accessory, const Issue& issue, Basis weakest);

// The strongest basis that proves the verdict: every ground that makes it what it is. Nothing for open.
struct GroundBases {
  std::optional<Basis> place;
  std::optional<Basis> time;
  std::optional<Basis> route;
  std::optional<Basis> record;
};
[[nodiscard]] std::optional<Basis> basis_of(Verdict verdict, const GroundBases& bases);

// A disputed statement taken as right, on every basis, and what then cannot be.
struct Supposition {
  const Evidence* right = nullptr;
  std::vector<const Evidence*> wrong;

  [[nodiscard]] bool rules_out(const Evidence& evidence) const;
};

// What is on record of the pair: attested, reserved, refuted, or open where nothing is; and what says so. `pairings`
// must hold all that the two have in common, in their order.
struct RecordFinding {
  Verdict verdict = Verdict::open;
  const Evidence* evidence = nullptr;
};
[[nodiscard]] RecordFinding find_record(const LinkedKb& kb, RunIndex run, IssueIndex issue,
                                        std::span<const PairingIndex> pairings, Basis weakest,
                                        const Supposition* supposed = nullptr);

class Judge {
public:
  // The chronology must follow from what is supposed. Both must outlive the judge.
  Judge(const LinkedKb& kb, const Chronology& chronology, Basis weakest, const Supposition* supposed = nullptr)
      : kb_(kb), distances_(chronology), weakest_(weakest), supposed_(supposed) {}

  [[nodiscard]] Judgement judge(RunIndex run, IssueIndex issue, bool with_proof);

  // Every issue that takes the run's accessory, the best verdicts first, then by address.
  [[nodiscard]] std::vector<Judgement> homes(RunIndex run);
  // The same among these issues, whatever they take.
  [[nodiscard]] std::vector<Judgement> homes(RunIndex run, std::span<const IssueIndex> among);
  // Every run of the accessories that the issue takes in one of its slots, the best verdicts first, then by address.
  [[nodiscard]] std::vector<Judgement> outfit(IssueIndex issue, const Takes& takes);

  [[nodiscard]] Distances& distances() { return distances_; }

private:
  GroundAnswer place(const Run& run, const Issue& issue) const;
  OrderAnswer time(Judgement& judgement, const Run& run, const Issue& issue, bool with_proof);
  Verdict record(Judgement& judgement) const;
  [[nodiscard]] const Leftover* leftover_of(IssueIndex issue) const;
  void say_what_settles(Judgement& judgement, const Run& run, const Issue& issue, const OrderAnswer& order);
  void sort(std::vector<Judgement>& list) const;

  const LinkedKb& kb_;
  Distances distances_;
  Basis weakest_;
  const Supposition* supposed_;
};

} // namespace coeval
