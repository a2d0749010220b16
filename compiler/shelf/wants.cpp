#include "shelf/wants.hpp"

#include <algorithm>

namespace coeval {
namespace {

// What tells runs of an accessory apart, made once for each.
class Questions {
public:
  explicit Questions(const LinkedKb& kb) : kb_(kb) {}

  const std::vector<FeatureIndex>& about(RunIndex run) {
    const auto [known, fresh] = known_.try_emplace(run);
    if (!fresh) return known->second;
    const AccessoryIndex accessory = kb_.runs[at(run)].accessory;
    const auto [place, first] = accessories_.try_emplace(accessory);
    Described& described = place->second;
    if (first) {
      described.candidates = candidates_of(kb_, accessory);
      described.table = tabulate(kb_, described.candidates);
    }
    const auto claimed = std::ranges::find_if(described.candidates, [&](const Candidate& candidate) {
      return candidate.what == std::variant<RunIndex, ReproIndex>{run};
    });
    const Requests requests =
        what_to_ask(described.table, {}, static_cast<std::size_t>(claimed - described.candidates.begin()));
    for (const Request& request : requests.of_seller) known->second.push_back(request.feature);
    return known->second;
  }

private:
  struct Described {
    std::vector<Candidate> candidates;
    FeatureTable table; // refers to them
  };
  const LinkedKb& kb_;
  std::map<AccessoryIndex, Described> accessories_;
  std::map<RunIndex, std::vector<FeatureIndex>> known_;
};

class Wanting {
public:
  Wanting(const LinkedKb& kb, const LinkedShelf& shelf, PartJudge& judge, Basis weakest)
      : kb_(kb), shelf_(shelf), judge_(judge), questions_(kb) {
    for (const Pairing& pairing : kb.pairings)
      if (!pairing.refuted && !pairing.evidence.disputed && pairing.evidence.basis <= weakest) {
        ++pairings_[pairing.run];
        ++pairings_with_[{pairing.run, pairing.issue}];
      }
  }

  std::vector<Wanted> find(const ShelfSwap& after) {
    std::vector<Wanted> list;
    for (std::size_t i = 0; i < shelf_.wants.size(); ++i) list.push_back(wished(i));
    for (const auto& [place, pieces] : missing(after)) list.push_back(lacking(place.first, place.second, pieces));
    for (Wanted& wanted : list)
      if (!wanted.runs.empty()) wanted.ask = questions_.about(wanted.runs.front().run);
    std::ranges::stable_sort(list, std::greater{}, &Wanted::priority);
    return list;
  }

private:
  using Place = std::pair<IssueIndex, std::size_t>; // a slot of an issue

  // Which slots are empty after the swap, or hold what does not belong.
  [[nodiscard]] std::map<Place, std::vector<PieceIndex>> missing(const ShelfSwap& after) {
    std::map<Place, std::vector<PieceIndex>> list;
    for (std::size_t i = 0; i < after.worn.size(); ++i) {
      const auto issue = shelf_.pieces[i].issue;
      for (std::size_t slot = 0; issue && slot < after.worn[i].size(); ++slot)
        if (!may_be_right(after.worn[i][slot], *issue, slot))
          list[{*issue, slot}].push_back(PieceIndex{static_cast<std::uint32_t>(i)});
    }
    return list;
  }

  [[nodiscard]] bool may_be_right(std::optional<PartIndex> part, IssueIndex issue, std::size_t slot) {
    if (!part) return false;
    const PartFit& fit = judge_.fit(*part, issue);
    // What no run of is entered, and what was never looked at, is not known to be missing.
    if (fit.state == FitState::unknown) return shelf_[*part].seen.empty();
    return fit.strength > 0 && (fit.slots.empty() || fit.takes(slot));
  }

  [[nodiscard]] Wanted lacking(IssueIndex issue, std::size_t slot, std::vector<PieceIndex> pieces) {
    Wanted wanted;
    wanted.issue = issue;
    wanted.slot = slot;
    std::ranges::stable_sort(pieces, std::greater{}, [this](PieceIndex piece) { return shelf_[piece].priority; });
    wanted.priority = shelf_[pieces.front()].priority;
    wanted.pieces = std::move(pieces);
    for (const AccessoryIndex accessory : judge_.slots(issue)[slot].accessories)
      for (const RunIndex run : runs_of(accessory)) {
        const Judgement& judgement = judge_.judgement(run, issue);
        if (judgement.verdict > Verdict::open) continue;
        const auto found = pairings_with_.find({run, issue});
        wanted.runs.push_back({run, &judgement, found == pairings_with_.end() ? 0 : found->second});
      }
    std::ranges::stable_sort(wanted.runs, {}, [](const WantedRun& run) {
      return std::pair{run.judgement->verdict, run.judgement->basis};
    });
    return wanted;
  }

  [[nodiscard]] Wanted wished(std::size_t index) const {
    const Want& want = shelf_.wants[index];
    Wanted wanted;
    wanted.want = index;
    wanted.priority = want.priority;
    std::vector<RunIndex> runs;
    if (want.run) runs = {*want.run};
    if (want.accessory) runs = runs_of(*want.accessory);
    for (const RunIndex run : runs) {
      const auto found = pairings_.find(run);
      wanted.runs.push_back({run, nullptr, found == pairings_.end() ? 0 : found->second});
    }
    return wanted;
  }

  [[nodiscard]] std::vector<RunIndex> runs_of(AccessoryIndex accessory) const {
    std::vector<RunIndex> runs;
    for (const MouldIndex mould : kb_.accessories[at(accessory)].moulds)
      runs.insert(runs.end(), kb_.moulds[at(mould)].runs.begin(), kb_.moulds[at(mould)].runs.end());
    return runs;
  }

  const LinkedKb& kb_;
  const LinkedShelf& shelf_;
  PartJudge& judge_;
  Questions questions_;
  std::map<RunIndex, std::size_t> pairings_;
  std::map<std::pair<RunIndex, IssueIndex>, std::size_t> pairings_with_;
};

} // namespace

std::vector<Wanted> find_wanted(const LinkedKb& kb, const LinkedShelf& shelf, PartJudge& judge, const ShelfSwap& after,
                                Basis weakest) {
  return Wanting{kb, shelf, judge, weakest}.find(after);
}

} // namespace coeval
