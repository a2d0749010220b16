// Every pair is judged as Judge does it, without a word being said. What makes it quick is that pairs lie sorted by
// issue, so that what is near an issue's two days is searched for once (see held_orders.hpp), and that what is asked of
// the runs of an accessory lies together: half of the time was spent waiting for memory.
#include "verdicts/matrix.hpp"

#include <algorithm>
#include <span>
#include <tuple>

#include "threads/share_out.hpp"
#include "verdicts/held_orders.hpp"

namespace coeval {
namespace {

constexpr Basis weakest = Basis::conjectured;

// What is asked of a run, as far as it does not depend on the issue.
struct PartRun {
  RunIndex run{};
  TimeSpanIndex span{};
  std::optional<PlantIndex> plant;
  Basis made{};
  bool on_record = false; // some pairing names it, or it is reserved
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

  [[nodiscard]] std::span<const PartRun> of(AccessoryIndex accessory) const {
    return std::span{runs_}.subspan(begin_[at(accessory)], begin_[at(accessory) + 1] - begin_[at(accessory)]);
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
      filled->on_record = !run.pairings.empty() || !run.exclusives.empty();
      filled->days = days_of(chronology, run.span);
    }
  }

  std::vector<std::size_t> begin_{0}; // by AccessoryIndex
  std::vector<PartRun> runs_;
};

// Judges the pairs of one issue after the other.
class IssueRows {
public:
  IssueRows(const LinkedKb& kb, const Chronology& chronology, const PartRuns& parts)
      : kb_(kb), parts_(parts), orders_(kb, chronology, weakest) {}

  void fill(IssueIndex index, VerdictRow* row) {
    const Issue& issue = kb_.issues[at(index)];
    const Basis packed = kb_.spans[at(issue.span)].evidence.basis;
    orders_.choose(issue.span, kb_.leftover_of(index));
    for (std::uint32_t taken = 0; taken < issue.takes.size(); ++taken) {
      const std::span<const PartRun> parts = parts_.of(issue.takes[taken].accessory);
      if (parts.empty()) continue;
      const PlaceFinding place = find_place(kb_, kb_.runs[at(parts.front().run)], issue, weakest);
      VerdictRow* const first = row;
      for (const PartRun& part : parts) {
        const Journey journey{part.run,   index,        issue.takes[taken].accessory,
                              part.plant, issue.packer, std::max(part.made, packed)};
        *row++ = judge(part, journey, place, taken);
      }
      std::stable_sort(first, row, [](const VerdictRow& one, const VerdictRow& other) {
        return std::tie(one.verdict, one.basis) < std::tie(other.verdict, other.basis);
      });
    }
  }

private:
  VerdictRow judge(const PartRun& part, const Journey& journey, const PlaceFinding& place, std::uint32_t taken) {
    const OrderAnswer time = orders_.choose_run(part.span, part.days);
    RecordFinding record;
    if (part.on_record) record = find_record(kb_, journey.run, journey.issue, weakest);
    // Whatever way the parts went, a no on time comes first.
    RouteAnswer route;
    if (time.answer != Answer::no) route = route_of(kb_, orders_, journey, weakest, RouteTelling::answer);
    VerdictRow row{.issue = journey.issue, .taken = taken, .run = journey.run};
    row.verdict = verdict_of(place.answer, time, record.verdict, route.answer);
    GroundBases bases{.time = time.basis, .route = route.basis};
    if (place.takes != nullptr) bases.place = place.takes->evidence.basis;
    if (record.evidence != nullptr) bases.record = record.evidence->basis;
    row.basis = basis_of(row.verdict, bases);
    if (row.verdict == Verdict::anachronistic || row.verdict == Verdict::stale) row.gap = time.gap;
    return row;
  }

  const LinkedKb& kb_;
  const PartRuns& parts_;
  HeldOrders orders_;
};

} // namespace

std::vector<VerdictRow> verdict_rows(const LinkedKb& kb, const Chronology& chronology) {
  std::vector<std::size_t> begin{0}; // of the rows of each issue
  for (const Issue& issue : kb.issues) {
    std::size_t count = 0;
    for (const Takes& takes : issue.takes)
      for (const MouldIndex mould : kb.accessories[at(takes.accessory)].moulds)
        count += kb.moulds[at(mould)].runs.size();
    begin.push_back(begin.back() + count);
  }
  std::vector<VerdictRow> rows(begin.back());
  const PartRuns parts{kb, chronology};
  // Neighbours share much, so each piece is a stretch of issues; few, because each begins with the routes of all.
  const std::size_t stretches = std::clamp<std::size_t>(kb.issues.size() / 256, 1, 16);
  share_out(stretches, 1, [&](std::size_t stretch) {
    IssueRows issues{kb, chronology, parts};
    const std::size_t end = kb.issues.size() * (stretch + 1) / stretches;
    for (std::size_t i = kb.issues.size() * stretch / stretches; i < end; ++i)
      issues.fill(IssueIndex{static_cast<std::uint32_t>(i)}, rows.data() + begin[i]);
  });
  return rows;
}

std::string gap_words(const VerdictRow& row) {
  Judgement judgement;
  judgement.verdict = row.verdict;
  judgement.gap = row.gap;
  return gap_words(judgement);
}

} // namespace coeval
