// Every pair is judged as Judge does it, without a word being said. What makes it quick is that pairs lie sorted by
// issue, so that what is near an issue's two days is searched for once (see held_orders.hpp), and that what is asked of
// the runs of an accessory lies together: half of the time was spent waiting for memory. What is on record is looked up
// by the issue, for a run may have very many pairings.
#include "verdicts/matrix.hpp"

#include <algorithm>
#include <span>
#include <tuple>

#include <boost/unordered/unordered_flat_map.hpp>

#include "threads/share_out.hpp"
#include "verdicts/held_orders.hpp"

namespace coeval {
namespace {

constexpr Basis weakest_of_all = Basis::conjectured;

// What is asked of a run, as far as it does not depend on the issue.
struct PartRun {
  RunIndex run{};
  TimeSpanIndex span{};
  std::optional<PlantIndex> plant;
  Basis made{};
  bool reserved = false; // for issues that may not be this one
  SpanDays days;
};

// The runs of every accessory, by address.
class PartRuns {
public:
  PartRuns(const LinkedKb& kb, const Chronology& chronology) : runs_(kb.runs.size()) {
    for (const Accessory& accessory : kb.accessories) {
      std::size_t count = 0;
      for (const MouldIndex mould : accessory.moulds) count += kb.moulds[at(mould)].runs.size();
      begin_.push_back(begin_.back() + count);
    }
    constexpr std::size_t worth_a_thread = 256; // accessories
    share_out(kb.accessories.size(), worth_a_thread,
              [&](std::size_t i) { list(kb, chronology, AccessoryIndex{static_cast<std::uint32_t>(i)}); });
  }

  [[nodiscard]] std::size_t count(AccessoryIndex accessory) const {
    return begin_[at(accessory) + 1] - begin_[at(accessory)];
  }
  [[nodiscard]] std::span<const PartRun> of(AccessoryIndex accessory) const {
    return std::span{runs_}.subspan(begin_[at(accessory)], count(accessory));
  }

private:
  void list(const LinkedKb& kb, const Chronology& chronology, AccessoryIndex accessory) {
    PartRun* const first = runs_.data() + begin_[at(accessory)];
    PartRun* part = first;
    for (const MouldIndex mould : kb.accessories[at(accessory)].moulds)
      for (const RunIndex index : kb.moulds[at(mould)].runs) (part++)->run = index;
    std::sort(first, part, [&](const PartRun& one, const PartRun& other) {
      return kb.runs[at(one.run)].address < kb.runs[at(other.run)].address;
    });
    for (PartRun* filled = first; filled != part; ++filled) {
      const Run& run = kb.runs[at(filled->run)];
      filled->span = run.span;
      filled->plant = run.plant;
      filled->made = kb.spans[at(run.span)].evidence.basis;
      filled->reserved = !run.exclusives.empty();
      filled->days = days_of(chronology, run.span);
    }
  }

  std::vector<std::size_t> begin_{0}; // by AccessoryIndex
  std::vector<PartRun> runs_;
};

// The pairings of every issue by run, those of one run in their order: an issue has few, a run may have very many.
class IssuePairings {
public:
  explicit IssuePairings(const LinkedKb& kb) : begin_(kb.issues.size() + 1), pairings_(kb.pairings.size()) {
    for (const Pairing& pairing : kb.pairings) ++begin_[at(pairing.issue) + 1];
    for (std::size_t i = 1; i < begin_.size(); ++i) begin_[i] += begin_[i - 1];
    std::vector<std::size_t> next(begin_.begin(), begin_.end() - 1);
    for (std::size_t i = 0; i < kb.pairings.size(); ++i)
      pairings_[next[at(kb.pairings[i].issue)]++] = PairingIndex{static_cast<std::uint32_t>(i)};
    const auto place = [&](PairingIndex index) { return std::tuple{kb.pairings[at(index)].run, index}; };
    for (std::size_t i = 0; i < kb.issues.size(); ++i)
      std::ranges::sort(pairings_.begin() + begin_[i], pairings_.begin() + begin_[i + 1], {}, place);
  }

  [[nodiscard]] std::span<const PairingIndex> of(IssueIndex issue) const {
    return std::span{pairings_}.subspan(begin_[at(issue)], begin_[at(issue) + 1] - begin_[at(issue)]);
  }

private:
  std::vector<std::size_t> begin_; // by IssueIndex
  std::vector<PairingIndex> pairings_;
};

// Judges the pairs of one issue after the other.
class IssueRows {
public:
  IssueRows(const LinkedKb& kb, const Chronology& chronology, const PartRuns& parts, const IssuePairings& pairings)
      : kb_(kb), parts_(parts), pairings_(pairings), orders_(kb, chronology, weakest_of_all),
        some_carry_(std::ranges::any_of(kb.routes, [](const Route& route) { return !route.carries.empty(); })) {}

  void fill(IssueIndex index, VerdictRow* row) {
    const Issue& issue = kb_.issues[at(index)];
    const Basis packed = kb_.spans[at(issue.span)].evidence.basis;
    orders_.choose(issue.span, kb_.leftover_of(index));
    ways_.clear();
    for (std::uint32_t taken = 0; taken < issue.takes.size(); ++taken) {
      const AccessoryIndex accessory = issue.takes[taken].accessory;
      const PlaceFinding place = find_place(kb_, accessory, issue, weakest_of_all);
      judged_.clear();
      order_.clear();
      for (const PartRun& part : parts_.of(accessory)) {
        const Journey journey{part.run, index, accessory, part.plant, issue.packer, std::max(part.made, packed)};
        const VerdictRow& judged = judged_.emplace_back(judge(part, journey, place, taken));
        order_.emplace_back(judged.verdict, judged.basis, order_.size());
      }
      std::ranges::sort(order_);
      for (const auto& [verdict, basis, position] : order_) *row++ = judged_[position];
    }
  }

private:
  VerdictRow judge(const PartRun& part, const Journey& journey, const PlaceFinding& place, std::uint32_t taken) {
    const OrderAnswer time = orders_.choose_run(part.span, part.days);
    const RecordFinding record = record_of(part, journey.issue);
    // Whatever way the parts went, a no on time comes first.
    RouteFinding route;
    if (time.answer != Answer::no) route = find_route(orders_, journey, ways_of(journey), weakest_of_all);
    VerdictRow row{.issue = journey.issue, .taken = taken, .run = journey.run};
    row.verdict = verdict_of(place.answer, time, record.verdict, route.answer);
    GroundBases bases{.time = time.basis, .route = route.basis};
    if (place.takes != nullptr) bases.place = place.takes->evidence.basis;
    if (record.evidence != nullptr) bases.record = record.evidence->basis;
    row.basis = basis_of(row.verdict, bases);
    if (row.verdict == Verdict::anachronistic || row.verdict == Verdict::stale) row.gap = *time.gap;
    return row;
  }

  // Found once for all runs from a plant, and for all accessories where no route is for some only.
  const RouteWays& ways_of(const Journey& journey) {
    static const RouteWays none;
    if (!journey.plant || journey.plant == journey.packer) return none;
    const auto [known, fresh] = ways_.try_emplace({*journey.plant, some_carry_ ? journey.accessory : AccessoryIndex{}});
    if (fresh) known->second = find_ways(kb_, orders_, journey, weakest_of_all);
    return known->second;
  }

  // Most pairs have nothing on record, which is told without a look at the run.
  [[nodiscard]] RecordFinding record_of(const PartRun& part, IssueIndex issue) const {
    const std::span<const PairingIndex> all = pairings_.of(issue);
    const auto run_of = [&](PairingIndex index) { return kb_.pairings[at(index)].run; };
    const auto first = std::ranges::lower_bound(all, part.run, {}, run_of);
    auto last = first;
    while (last != all.end() && run_of(*last) == part.run) ++last;
    if (first == last && !part.reserved) return {};
    return find_record(kb_, part.run, issue, {first, last}, weakest_of_all);
  }

  const LinkedKb& kb_;
  const PartRuns& parts_;
  const IssuePairings& pairings_;
  HeldOrders orders_;
  bool some_carry_; // some routes carry some accessories only
  boost::unordered_flat_map<std::pair<PlantIndex, AccessoryIndex>, RouteWays> ways_; // of the issue
  std::vector<VerdictRow> judged_;                                                   // of one accessory, by address
  std::vector<std::tuple<Verdict, std::optional<Basis>, std::size_t>> order_;
};

} // namespace

std::vector<VerdictRow> verdict_rows(const LinkedKb& kb, const Chronology& chronology) {
  const PartRuns parts{kb, chronology};
  const IssuePairings pairings{kb};
  std::vector<std::size_t> begin{0}; // of the rows of each issue
  for (const Issue& issue : kb.issues) {
    std::size_t count = 0;
    for (const Takes& takes : issue.takes) count += parts.count(takes.accessory);
    begin.push_back(begin.back() + count);
  }
  std::vector<VerdictRow> rows(begin.back());
  // Neighbours share much, so each piece is a stretch of issues; few, because each begins with the routes of all.
  const std::size_t stretches = std::clamp<std::size_t>(kb.issues.size() / 256, 1, 16);
  share_out(stretches, 1, [&](std::size_t stretch) {
    IssueRows issues{kb, chronology, parts, pairings};
    const std::size_t end = kb.issues.size() * (stretch + 1) / stretches;
    for (std::size_t i = kb.issues.size() * stretch / stretches; i < end; ++i)
      issues.fill(IssueIndex{static_cast<std::uint32_t>(i)}, rows.data() + begin[i]);
  });
  return rows;
}

std::string gap_words(const VerdictRow& row) {
  Judgement judgement;
  judgement.verdict = row.verdict;
  if (row.gap != 0) judgement.gap = row.gap;
  return gap_words(judgement);
}

} // namespace coeval
