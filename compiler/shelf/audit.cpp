#include "shelf/audit.hpp"

#include <algorithm>
#include <limits>

namespace coeval {
namespace {

// Faults are told in the same words where only case and spaces differ.
std::string folded(std::string_view text) {
  std::string words;
  bool gap = false;
  for (const char c : text) {
    if (c == ' ' || c == '\t' || c == '\n' || c == '\r') {
      gap = !words.empty();
      continue;
    }
    if (gap) words += ' ';
    gap = false;
    words += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return words;
}

std::vector<Word> undisclosed(const Received& received) {
  std::vector<std::string> told;
  for (const Word& fault : received.disclosed) told.push_back(folded(fault.text));
  std::ranges::sort(told);
  std::vector<Word> list;
  for (const Word& fault : received.found)
    if (!std::ranges::binary_search(told, folded(fault.text))) list.push_back(fault);
  return list;
}

void sort_findings(std::vector<Finding>& findings) { std::ranges::stable_sort(findings, {}, &Finding::trouble); }

constexpr auto nowhere = std::numeric_limits<std::size_t>::max();
std::size_t rank(const std::vector<Finding>& findings) {
  return findings.empty() ? trouble_count : static_cast<std::size_t>(findings.front().trouble);
}

class Auditing {
public:
  Auditing(const LinkedKb& kb, const LinkedShelf& shelf, PartJudge& judge) : kb_(kb), shelf_(shelf), judge_(judge) {}

  Audit audit() {
    Audit audit;
    for (std::size_t i = 0; i < shelf_.pieces.size(); ++i)
      (is_owned(shelf_.pieces[i].received) ? audit.pieces : audit.offered)
          .push_back(audit_piece(PieceIndex{static_cast<std::uint32_t>(i)}));
    gather_homes(audit.pieces);
    for (std::size_t i = 0; i < shelf_.parts.size(); ++i)
      if (!shelf_.parts[i].in && is_owned(shelf_.parts[i].received))
        audit.loose.push_back(audit_loose(PartIndex{static_cast<std::uint32_t>(i)}));
    for (std::size_t i = 0; i < shelf_.purchases.size(); ++i)
      audit_parcel(PurchaseIndex{static_cast<std::uint32_t>(i)}, audit.parcels);
    sort_pieces(audit.pieces);
    sort_pieces(audit.offered);
    std::ranges::stable_sort(audit.loose, {}, [](const LooseAudit& loose) { return rank(loose.findings); });
    return audit;
  }

private:
  [[nodiscard]] bool is_owned(const Received& received) const {
    return !received.purchase || shelf_[*received.purchase].counts();
  }

  void sort_pieces(std::vector<PieceAudit>& pieces) const {
    const auto key = [this](const PieceAudit& it) {
      return std::tuple{rank(it.findings), -shelf_[it.piece].priority, -std::ssize(it.findings)};
    };
    std::ranges::stable_sort(pieces, {}, key);
  }

  // What is wrong with how it came, of a piece or a part.
  void audit_received(const Received& received, std::optional<PartIndex> part, std::vector<Finding>& findings) const {
    for (const Word& fault : undisclosed(received))
      findings.push_back({.trouble = Trouble::undisclosed, .part = part, .fault = fault.text});
    if (is_unexamined(received, part)) findings.push_back({.trouble = Trouble::unexamined, .part = part});
  }

  // Whoever examined a piece examined what it wore when it came.
  [[nodiscard]] bool is_unexamined(const Received& received, std::optional<PartIndex> part) const {
    if (!received.purchase || received.examined) return false;
    if (shelf_[*received.purchase].state() != ParcelState::arrived) return false;
    if (!part || !shelf_[*part].in) return true;
    const Received& with = shelf_[*shelf_[*part].in].received;
    return with.purchase != received.purchase || !with.examined;
  }

  PieceAudit audit_piece(PieceIndex index) {
    const OwnedPiece& piece = shelf_[index];
    PieceAudit audit;
    audit.piece = index;
    audit_received(piece.received, {}, audit.findings);
    if (piece.issue) {
      audit_slots(piece, audit);
    } else {
      audit.findings.push_back({.trouble = Trouble::issue_unknown});
      audit.possible = possible_issues(kb_, piece, judge_);
      for (const PartIndex part : piece.parts) audit_nature(part, audit.findings);
    }
    for (const PartIndex part : piece.parts) audit_received(shelf_[part].received, part, audit.findings);
    sort_findings(audit.findings);
    return audit;
  }

  // What can be said of a part on no issue.
  void audit_nature(PartIndex part, std::vector<Finding>& findings) const {
    const Remaining nature = judge_.can_be(judge_.kind(part));
    if (nature == Remaining::reproductions) findings.push_back({.trouble = Trouble::reproduction, .part = part});
    if (nature == Remaining::mixed) findings.push_back({.trouble = Trouble::doubtful, .part = part});
    if (nature == Remaining::nothing) findings.push_back({.trouble = without_run(part), .part = part});
  }

  // Nothing was seen that rules anything out, and still it can be nothing: its accessory has no run that is entered.
  [[nodiscard]] Trouble without_run(PartIndex part) const {
    return shelf_[part].seen.empty() && shelf_[part].ruled_out.empty() ? Trouble::open : Trouble::nothing_fits;
  }

  void audit_slots(const OwnedPiece& piece, PieceAudit& audit) {
    const std::vector<IssueSlot>& slots = judge_.slots(*piece.issue);
    audit.slots.resize(slots.size());
    if (slots.empty() && !kb_.issues[at(*piece.issue)].bare)
      audit.findings.push_back({.trouble = Trouble::outfit_unknown});
    std::vector<Finding> beside; // of parts that are worn in no slot of the issue
    for (const PartIndex part : piece.parts) {
      const PartFit& fit = judge_.fit(part, *piece.issue);
      std::size_t slot = nowhere;
      for (std::size_t i = 0; i < slots.size(); ++i)
        if (slots[i].name == shelf_[part].slot && !audit.slots[i].part) slot = i;
      Finding finding{.part = part, .fit = &fit};
      SlotState state = SlotState::open;
      const bool misplaced = !fit.slots.empty() && (slot == nowhere || !fit.takes(slot));
      switch (fit.state) {
      case FitState::right:
        state = SlotState::right;
        break;
      case FitState::open:
        finding.trouble = Trouble::open;
        break;
      case FitState::doubtful:
        finding.trouble = Trouble::doubtful;
        break;
      case FitState::unknown:
        finding.trouble = without_run(part);
        break;
      case FitState::wrong:
        finding.trouble = Trouble::wrong;
        state = SlotState::wrong;
        break;
      case FitState::reproduction:
        finding.trouble = Trouble::reproduction;
        state = SlotState::reproduction;
        break;
      }
      if (misplaced) {
        finding.trouble = Trouble::misplaced;
        state = SlotState::wrong;
      }
      if (slot != nowhere) {
        finding.slot = slot;
        audit.slots[slot] = {state, part, &fit};
      }
      if (state != SlotState::right) (slot == nowhere ? beside : audit.findings).push_back(std::move(finding));
    }
    for (std::size_t i = 0; i < slots.size(); ++i)
      if (!audit.slots[i].part) audit.findings.push_back({.trouble = Trouble::missing, .slot = i});
    std::ranges::stable_sort(audit.findings, {}, [](const Finding& finding) {
      return finding.slot ? *finding.slot + 1 : 0; // the piece itself first
    });
    std::ranges::move(beside, std::back_inserter(audit.findings));
  }

  // Slots of one issue by what is in them.
  struct Homes {
    IssueIndex issue{};
    std::size_t slot = 0;
    struct InState {
      std::size_t count = 0;
      std::optional<PieceIndex> best; // of the greatest priority, else the first
    };
    std::array<InState, slot_state_count> states;
  };

  void gather_homes(const std::vector<PieceAudit>& pieces) {
    std::map<std::pair<IssueIndex, std::size_t>, std::size_t> known;
    for (const PieceAudit& audit : pieces) {
      const OwnedPiece& piece = shelf_[audit.piece];
      for (std::size_t slot = 0; slot < audit.slots.size(); ++slot) {
        const SlotState state = audit.slots[slot].state;
        if (piece.keep && state != SlotState::empty) continue;
        const auto [place, fresh] = known.try_emplace({*piece.issue, slot}, homes_.size());
        if (fresh) {
          homes_.push_back({.issue = *piece.issue, .slot = slot});
          for (const AccessoryIndex accessory : judge_.slots(*piece.issue)[slot].accessories)
            homes_of_[accessory].push_back(place->second);
        }
        auto& in_state = homes_[place->second].states[static_cast<std::size_t>(state)];
        ++in_state.count;
        if (!in_state.best || piece.priority > shelf_[*in_state.best].priority) in_state.best = audit.piece;
      }
    }
  }

  // Whether a slot would be better filled than now.
  static bool helps(const PartFit& fit, SlotState now) {
    if (fit.state == FitState::right) return now != SlotState::right;
    return now != SlotState::right && now != SlotState::open;
  }

  LooseAudit audit_loose(PartIndex part) {
    const PartKindIndex kind = judge_.kind(part);
    const auto [known, fresh] = loose_kinds_.try_emplace(kind);
    if (fresh) known->second = find_homes(kind);
    LooseAudit audit = known->second;
    audit.part = part;
    if (audit.can_be == Remaining::mixed) audit.findings.push_back({.trouble = Trouble::doubtful, .part = part});
    if (audit.can_be == Remaining::nothing) audit.findings.push_back({.trouble = without_run(part), .part = part});
    audit_received(shelf_[part].received, part, audit.findings);
    sort_findings(audit.findings);
    return audit;
  }

  LooseAudit find_homes(PartKindIndex kind) {
    LooseAudit audit;
    audit.can_be = judge_.can_be(kind);
    std::vector<std::size_t> among;
    for (const PartIdentity& identity : judge_.could_be(kind))
      if (const auto* run = std::get_if<RunIndex>(&identity))
        if (const auto found = homes_of_.find(kb_.runs[at(*run)].accessory); found != homes_of_.end())
          among.insert(among.end(), found->second.begin(), found->second.end());
    std::ranges::sort(among);
    among.erase(std::unique(among.begin(), among.end()), among.end());
    std::tuple<std::int32_t, std::int64_t> most{0, 0}; // strength, priority
    for (const std::size_t place : among) {
      const Homes& home = homes_[place];
      const PartFit& fit = judge_.fit(kind, home.issue);
      if (fit.strength == 0 || !fit.takes(home.slot)) continue;
      for (std::size_t state = 0; state < slot_state_count; ++state) {
        const auto& in_state = home.states[state];
        audit.takers += in_state.count;
        if (!in_state.best || !helps(fit, SlotState{static_cast<std::uint8_t>(state)})) continue;
        audit.helped += in_state.count;
        const std::tuple<std::int32_t, std::int64_t> worth{fit.strength, shelf_[*in_state.best].priority};
        if (worth > most || (worth == most && *in_state.best < audit.best->piece)) {
          most = worth;
          audit.best = LooseHome{*in_state.best, home.slot, &fit};
        }
      }
    }
    return audit;
  }

  void audit_parcel(PurchaseIndex index, std::vector<ParcelAudit>& parcels) const {
    const Purchase& purchase = shelf_[index];
    const auto state = purchase.state();
    if (!state) return;
    ParcelAudit audit{index, *state, *purchase.days[static_cast<std::size_t>(*state)], 0};
    for (const PieceIndex piece : purchase.pieces)
      audit.unexamined += is_unexamined(shelf_[piece].received, {}) ? 1 : 0;
    for (const PartIndex part : purchase.parts) audit.unexamined += is_unexamined(shelf_[part].received, part) ? 1 : 0;
    if (audit.unexamined > 0 || *state != ParcelState::arrived) parcels.push_back(audit);
  }

  const LinkedKb& kb_;
  const LinkedShelf& shelf_;
  PartJudge& judge_;
  std::vector<Homes> homes_;
  std::map<AccessoryIndex, std::vector<std::size_t>> homes_of_;
  std::map<PartKindIndex, LooseAudit> loose_kinds_;
};

template <class Wanted> bool any_finding(const Audit& audit, const Wanted& wanted) {
  const auto has = [&](const auto& item) {
    return std::ranges::any_of(item.findings, [&](const Finding& finding) { return wanted(finding.trouble); });
  };
  return std::ranges::any_of(audit.pieces, has) || std::ranges::any_of(audit.loose, has);
}

} // namespace

std::string_view name(Trouble trouble) {
  constexpr std::array<std::string_view, trouble_count> names{
      "reproduction", "wrong", "nothing-fits",  "misplaced",      "undisclosed", "missing",
      "doubtful",     "open",  "issue-unknown", "outfit-unknown", "unexamined"};
  return names[static_cast<std::size_t>(trouble)];
}

std::string_view name(SlotState state) {
  constexpr std::array<std::string_view, slot_state_count> names{"right", "open", "wrong", "reproduction", "empty"};
  return names[static_cast<std::size_t>(state)];
}

std::size_t PieceAudit::count(SlotState state) const {
  return static_cast<std::size_t>(std::ranges::count(slots, state, &SlotAudit::state));
}

std::size_t Audit::count(SlotState state) const {
  std::size_t count = 0;
  for (const PieceAudit& piece : pieces) count += piece.count(state);
  return count;
}

bool Audit::wrong() const { return any_finding(*this, is_wrong); }
bool Audit::open() const {
  return any_finding(*this, [](Trouble trouble) { return !is_wrong(trouble); });
}

Audit audit_shelf(const LinkedKb& kb, const LinkedShelf& shelf, PartJudge& judge) {
  return Auditing{kb, shelf, judge}.audit();
}

} // namespace coeval
