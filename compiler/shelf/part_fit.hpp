// shelf/part_fit.hpp: what is an owned part worth on an issue, and in which of its slots?
//
// A part can be several things; what is said of it must hold for each of them. It is right only where every run that it
// can be is attested or fits, and no reproduction is left.
#pragma once

#include <unordered_map>

#include "shelf/shelf.hpp"
#include "verdicts/judge.hpp"

namespace coeval {

// A slot of an issue by its name: what the issue takes there, one of these accessories.
struct IssueSlot {
  std::string name;
  std::vector<AccessoryIndex> accessories;
};
// In the order in which the issue names them.
[[nodiscard]] std::vector<IssueSlot> slots_of(const Issue& issue);

enum class FitState : std::uint8_t {
  right,        // whichever run it is, it belongs
  open,         // not proven either way, or it depends on which run it is
  doubtful,     // it may belong as an original, and can be a reproduction
  unknown,      // nothing that is entered is left that it can be
  wrong,        // whichever run it is, it does not belong
  reproduction, // whatever it is, it is a reproduction
};
inline constexpr std::size_t fit_state_count = 6;
[[nodiscard]] std::string_view name(FitState state);

// Parts of one kind are all the same to every question: they can be the same things.
enum class PartKindIndex : std::uint32_t {};

struct PartFit {
  FitState state = FitState::unknown;
  // Where it can be a run: for right, the weakest verdict of all; for wrong, the one that is nearest to a yes; else
  // open. The basis is the weakest of all, and of an open verdict there is none.
  Verdict verdict = Verdict::open;
  std::optional<Basis> basis;
  // 1 to 16, verdict before basis: attested above fits above open above doubtful. 0: it has no business there.
  std::int32_t strength = 0;
  std::vector<const Judgement*> judgements; // of each run it can be, without proof, in the order of could_be
  std::size_t reproductions = 0;            // that it can be
  std::vector<std::size_t> slots;           // of slots_of: that take what it can be, unless the verdict is a no

  [[nodiscard]] bool takes(std::size_t slot) const;
};

// Judges each kind of part on each issue once, and each run on each issue once.
class PartJudge {
public:
  PartJudge(const LinkedKb& kb, const Chronology& chronology, const LinkedShelf& shelf, Basis weakest);

  [[nodiscard]] PartKindIndex kind(PartIndex part) const { return kinds_[at(part)]; }
  [[nodiscard]] std::size_t kind_count() const { return identities_.size(); }
  // Every run and reproduction that parts of the kind can be.
  [[nodiscard]] const std::vector<PartIdentity>& could_be(PartKindIndex kind) const { return *identities_[at(kind)]; }
  [[nodiscard]] Remaining can_be(PartKindIndex kind) const;

  // References stay good as long as the judge.
  [[nodiscard]] const PartFit& fit(PartKindIndex kind, IssueIndex issue);
  [[nodiscard]] const PartFit& fit(PartIndex part, IssueIndex issue) { return fit(kind(part), issue); }
  [[nodiscard]] const Judgement& judgement(RunIndex run, IssueIndex issue);
  [[nodiscard]] const std::vector<IssueSlot>& slots(IssueIndex issue);

private:
  [[nodiscard]] PartFit judge_kind(PartKindIndex kind, IssueIndex issue);

  const LinkedKb& kb_;
  Judge judge_;
  std::vector<PartKindIndex> kinds_; // by part
  std::map<std::vector<PartIdentity>, PartKindIndex> by_identities_;
  std::vector<const std::vector<PartIdentity>*> identities_; // by kind
  std::unordered_map<std::uint64_t, PartFit> fits_;          // by kind and issue
  std::unordered_map<std::uint64_t, Judgement> judgements_;  // by run and issue
  std::unordered_map<std::uint32_t, std::vector<IssueSlot>> slots_;
};

// An issue that a piece whose issue is not known could be.
struct PossibleIssue {
  IssueIndex issue{};
  std::size_t right = 0; // of the parts that it wears
  std::size_t open = 0;  // or doubtful
  std::size_t wrong = 0;
};
// Every issue of the piece's figure, those first that no part speaks against, then those with the most right parts,
// then in the order of the knowledge base. Parts can have been changed: this is what they leave possible, and proves
// nothing.
[[nodiscard]] std::vector<PossibleIssue> possible_issues(const LinkedKb& kb, const OwnedPiece& piece, PartJudge& judge);

} // namespace coeval
