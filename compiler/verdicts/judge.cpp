#include "verdicts/judge.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "calendar/duration.hpp"
#include "verdicts/route.hpp"

namespace coeval {
namespace {

std::string known(const DayBounds& bounds) {
  return fmt::format("known: {}", bounds.earliest || bounds.latest ? in_words(bounds) : "nothing");
}

} // namespace

Reason reason_for(std::string statement, const Evidence& evidence) {
  return {.statement = std::move(statement),
          .place = evidence.place,
          .basis = evidence.basis,
          .sources = evidence.citation_texts()};
}

std::string_view name(Verdict verdict) {
  static constexpr std::array<std::string_view, verdict_count> names{
      "attested", "fits", "open", "stale", "misrouted", "reserved", "refuted", "anachronistic", "no-place"};
  return names[static_cast<std::size_t>(verdict)];
}

std::string_view name(Answer answer) {
  return answer == Answer::yes ? "yes" : answer == Answer::no ? "no" : "undecided";
}

std::string_view name(Ground ground) {
  static constexpr std::array<std::string_view, 4> names{"place", "time", "route", "record"};
  return names[static_cast<std::size_t>(ground)];
}

std::vector<Ground> deciding_grounds(const Judgement& judgement) {
  switch (judgement.verdict) {
  case Verdict::no_place:
    return {Ground::place};
  case Verdict::anachronistic:
  case Verdict::stale:
    return {Ground::time};
  case Verdict::misrouted:
    return {Ground::route};
  case Verdict::attested:
  case Verdict::reserved:
  case Verdict::refuted:
    return {Ground::record};
  case Verdict::fits:
    return {Ground::place, Ground::time, Ground::route};
  case Verdict::open:
    return {};
  }
  return {};
}

std::string gap_words(const Judgement& judgement) {
  if (!judgement.gap) return {};
  return judgement.verdict == Verdict::anachronistic
             ? fmt::format("at least {} too late", at_least_words(*judgement.gap))
             : fmt::format("lay at least {} longer than stock was kept", at_least_words(*judgement.gap));
}

Verdict verdict_of(Answer place, const OrderAnswer& time, Verdict recorded, Answer route) {
  if (place == Answer::no) return Verdict::no_place;
  if (time.answer == Answer::no) return time.too_late ? Verdict::anachronistic : Verdict::stale;
  if (recorded == Verdict::reserved || recorded == Verdict::refuted) return recorded;
  if (route == Answer::no) return Verdict::misrouted;
  if (recorded == Verdict::attested) return recorded;
  const bool proven = place == Answer::yes && time.answer == Answer::yes && route == Answer::yes;
  return proven ? Verdict::fits : Verdict::open;
}

PlaceFinding find_place(const LinkedKb& kb, AccessoryIndex accessory, const Issue& issue, Basis weakest) {
  PlaceFinding found;
  for (const Takes& takes : issue.takes) {
    if (takes.accessory != accessory) continue;
    found.listed = true;
    if (takes.evidence.basis <= weakest &&
        (found.takes == nullptr || takes.evidence.basis < found.takes->evidence.basis))
      found.takes = &takes;
  }
  const bool unknown =
      found.listed || (issue.takes.empty() && !issue.bare) || kb.spans[at(issue.span)].evidence.basis > weakest;
  found.answer = found.takes != nullptr ? Answer::yes : unknown ? Answer::undecided : Answer::no;
  return found;
}

std::optional<Basis> basis_of(Verdict verdict, const GroundBases& bases) {
  switch (verdict) {
  case Verdict::no_place:
    return bases.place;
  case Verdict::anachronistic:
  case Verdict::stale:
    return bases.time;
  case Verdict::misrouted:
    return bases.route;
  case Verdict::attested:
  case Verdict::reserved:
  case Verdict::refuted:
    return bases.record;
  case Verdict::fits:
    return std::max({bases.place.value(), bases.time.value(), bases.route.value()});
  case Verdict::open:
    return {};
  }
  return {};
}

GroundAnswer Judge::place(const Run& run, const Issue& issue) const {
  GroundAnswer result;
  const Accessory& accessory = kb_.accessories[at(run.accessory)];
  const PlaceFinding found = find_place(kb_, run.accessory, issue, weakest_);
  result.answer = found.answer;
  if (found.takes != nullptr) {
    const Takes& takes = *found.takes;
    result.basis = takes.evidence.basis;
    result.words = fmt::format("it takes {} in the slot {}", accessory.id, takes.slot);
    result.proof.push_back(
        reason_for(fmt::format("{} takes {} in the slot {}", issue.address, accessory.id, takes.slot), takes.evidence));
    return result;
  }
  const Evidence& whole = kb_.spans[at(issue.span)].evidence;
  if (found.answer == Answer::undecided) {
    result.words = found.listed
                       ? fmt::format("that it takes {} rests on weaker evidence than was asked for", accessory.id)
                       : "what the issue takes is not known on this evidence";
    return result;
  }
  result.basis = whole.basis;
  result.words = issue.bare ? "it was sold with no accessory" : fmt::format("it takes no {} in any slot", accessory.id);
  std::string outfit;
  for (const Takes& takes : issue.takes)
    outfit += (outfit.empty() ? "" : ", ") + kb_.accessories[at(takes.accessory)].id;
  result.proof.push_back(reason_for(issue.bare ? fmt::format("{} was sold bare", issue.address)
                                               : fmt::format("{} takes {} and nothing else", issue.address, outfit),
                                    whole));
  return result;
}

OrderAnswer Judge::time(Judgement& judgement, const Run& run, const Issue& issue, bool with_proof) {
  GroundAnswer& ground = judgement.grounds[static_cast<std::size_t>(Ground::time)];
  const Leftover* leftover = leftover_of(judgement.issue);
  const OrderAnswer order = order_of(distances_, run.span, issue.span, leftover, weakest_);
  const Basis basis = order.basis.value_or(weakest_);
  const Chronology& chronology = distances_.chronology();
  const DayBounds first_made = chronology.bounds(start_of(run.span), basis);
  const DayBounds last_made = chronology.bounds(end_of(run.span), basis);
  const DayBounds first_packed = chronology.bounds(start_of(issue.span), basis);
  const DayBounds last_packed = chronology.bounds(end_of(issue.span), basis);
  ground.answer = order.answer;
  ground.basis = order.basis;
  judgement.gap = order.gap;
  if (order.answer == Answer::no && order.too_late) {
    // Where the order is known without dates, the words must not suggest any.
    ground.words = first_made.earliest && last_packed.latest
                       ? fmt::format("made from {} at the earliest; last packed by {}", iso(*first_made.earliest),
                                     iso(*last_packed.latest))
                       : "first made after the issue was last packed";
  } else if (order.answer == Answer::no) {
    ground.words =
        last_made.latest && first_packed.earliest
            ? fmt::format("last made by {}; first packed on {} at the earliest; stock was not kept that long",
                          iso(*last_made.latest), iso(*first_packed.earliest))
            : "last made longer before the issue was first packed than stock was kept";
  } else if (order.answer == Answer::yes) {
    if (first_made.latest && last_packed.earliest && *first_made.latest <= *last_packed.earliest)
      ground.words = fmt::format("first made by {}; last packed on {} or later", iso(*first_made.latest),
                                 iso(*last_packed.earliest));
    else
      ground.words = "first made before it was last packed, whatever the days were";
  } else {
    ground.words = fmt::format("first made {}; last packed {}", in_words(first_made), in_words(last_packed));
  }
  if (with_proof) ground.proof = order_proof(distances_, run.span, issue.span, leftover, order);
  if (order.answer == Answer::undecided) say_what_settles(judgement, run, issue, order);
  return order;
}

// Which day, found out, would turn an undecided time into a yes or a no.
void Judge::say_what_settles(Judgement& judgement, const Run& run, const Issue& issue, const OrderAnswer& order) {
  const Chronology& chronology = distances_.chronology();
  const DayBounds first_made = chronology.bounds(start_of(run.span), weakest_);
  const DayBounds last_made = chronology.bounds(end_of(run.span), weakest_);
  const DayBounds first_packed = chronology.bounds(start_of(issue.span), weakest_);
  const DayBounds last_packed = chronology.bounds(end_of(issue.span), weakest_);
  auto& list = judgement.would_settle;
  const bool made_decides = last_packed.earliest || last_packed.latest;
  if (!order.in_time) {
    if (made_decides) {
      std::string line = fmt::format("when {} was first made ({})", run.address, known(first_made));
      if (last_packed.earliest) line += fmt::format("; by {} is in time", iso(*last_packed.earliest));
      if (last_packed.latest) line += fmt::format("; after {} is too late", iso(*last_packed.latest));
      list.push_back(std::move(line));
    }
    if (first_made.earliest || first_made.latest || !made_decides) {
      std::string line = fmt::format("when {} was last packed ({})", issue.address, known(last_packed));
      if (first_made.latest) line += fmt::format("; {} or later is in time", iso(*first_made.latest));
      if (first_made.earliest) line += fmt::format("; before {} is too early for it", iso(*first_made.earliest));
      list.push_back(std::move(line));
    }
  }
  if (!order.fresh) {
    const Leftover* leftover = leftover_of(judgement.issue);
    const bool policy = leftover != nullptr && leftover->evidence.basis <= weakest_;
    std::string line = fmt::format("when {} was last made ({})", run.address, known(last_made));
    if (policy && first_packed.latest)
      line += fmt::format("; {} or later is late enough", iso(*first_packed.latest - most_days(*leftover)));
    if (policy && first_packed.earliest)
      line += fmt::format("; before {} is too old", iso(*first_packed.earliest - most_days(*leftover)));
    list.push_back(std::move(line));
    list.push_back(fmt::format("when {} was first packed ({})", issue.address, known(first_packed)));
    if (!policy) list.push_back("how long moulded parts were kept before they were packed");
  }
}

bool Supposition::rules_out(const Evidence& evidence) const {
  return std::ranges::find(wrong, &evidence) != wrong.end();
}

const Leftover* Judge::leftover_of(IssueIndex issue) const {
  const Leftover* leftover = kb_.leftover_of(issue);
  return leftover == nullptr || (supposed_ != nullptr && supposed_->rules_out(leftover->evidence)) ? nullptr : leftover;
}

// Exclusive runs, attested and refuted pairings.
RecordFinding find_record(const LinkedKb& kb, RunIndex run_index, IssueIndex issue,
                          std::span<const PairingIndex> pairings, Basis weakest, const Supposition* supposed) {
  const Run& run = kb.runs[at(run_index)];
  RecordFinding found;
  const auto counts = [&](const Evidence& evidence) {
    if (supposed != nullptr && supposed->right == &evidence) return true;
    return !evidence.disputed && evidence.basis <= weakest && (supposed == nullptr || !supposed->rules_out(evidence));
  };
  const auto take = [&](Verdict verdict, const Evidence& evidence) {
    if (found.evidence != nullptr && (found.verdict != verdict || found.evidence->basis <= evidence.basis)) return;
    found = {verdict, &evidence};
  };
  for (const Exclusive& exclusive : run.exclusives)
    if (counts(exclusive.evidence) && std::ranges::find(exclusive.to, issue) == exclusive.to.end())
      take(Verdict::reserved, exclusive.evidence);
  for (const bool refuted : {true, false})
    for (const PairingIndex index : pairings)
      if (const Pairing& pairing = kb.pairings[at(index)];
          pairing.refuted == refuted && pairing.issue == issue && pairing.run == run_index && counts(pairing.evidence))
        take(refuted ? Verdict::refuted : Verdict::attested, pairing.evidence);
  return found;
}

// Gives `open` where nothing is recorded.
Verdict Judge::record(Judgement& judgement) const {
  GroundAnswer& ground = judgement.grounds[static_cast<std::size_t>(Ground::record)];
  const Run& run = kb_.runs[at(judgement.run)];
  const Issue& issue = kb_.issues[at(judgement.issue)];
  const auto [verdict, best] = find_record(kb_, judgement.run, judgement.issue, run.pairings, weakest_, supposed_);
  if (best != nullptr) {
    const std::string said =
        verdict == Verdict::reserved ? fmt::format("{} went to other issues only", run.address)
        : verdict == Verdict::refuted
            ? fmt::format("{} with {} was examined and found not to be original", run.address, issue.address)
            : fmt::format("{} was found with {}", run.address, issue.address);
    ground.answer = verdict == Verdict::attested ? Answer::yes : Answer::no;
    ground.basis = best->basis;
    ground.words = verdict == Verdict::reserved  ? "it went to other issues only"
                   : verdict == Verdict::refuted ? "the pairing was examined and found not to be original"
                                                 : "the two were found together";
    ground.proof.push_back(reason_for(said, *best));
    return verdict;
  }
  ground.words = "nothing pairs them";
  for (const PairingIndex index : run.pairings)
    if (const Pairing& pairing = kb_.pairings[at(index)]; pairing.issue == judgement.issue && pairing.evidence.disputed)
      ground.words = "a pairing of the two is disputed";
  for (const auto& [index, claimed] : run.claimed_pairings) {
    if (claimed != judgement.issue) continue;
    const Claim& claim = kb_.claims[at(index)];
    ground.words += fmt::format("; the claim that they came together ({}) is {}", claim.id,
                                claim.standing == ClaimStanding::supported ? "supported"
                                : claim.standing == ClaimStanding::open    ? "open"
                                                                           : "refuted");
  }
  return Verdict::open;
}

Judgement Judge::judge(RunIndex run_index, IssueIndex issue_index, bool with_proof) {
  Judgement judgement;
  judgement.run = run_index;
  judgement.issue = issue_index;
  const Run& run = kb_.runs[at(run_index)];
  const Issue& issue = kb_.issues[at(issue_index)];
  auto& grounds = judgement.grounds;
  const auto ground = [&](Ground which) -> GroundAnswer& { return grounds[static_cast<std::size_t>(which)]; };

  ground(Ground::place) = place(run, issue);
  if (ground(Ground::place).answer == Answer::undecided)
    judgement.would_settle.push_back(fmt::format("what {} was sold with", issue.address));
  const OrderAnswer order = time(judgement, run, issue, with_proof);
  RouteAnswer route = route_of(kb_, distances_, run_index, issue_index, leftover_of(issue_index), weakest_,
                               with_proof ? RouteTelling::proof : RouteTelling::words);
  ground(Ground::route) = {route.answer, route.basis, std::move(route.words), std::move(route.proof)};
  for (std::string& line : route.would_settle) judgement.would_settle.push_back(std::move(line));
  const Verdict recorded = record(judgement);

  judgement.verdict = verdict_of(ground(Ground::place).answer, order, recorded, route.answer);
  judgement.basis = basis_of(judgement.verdict, {ground(Ground::place).basis, ground(Ground::time).basis,
                                                 ground(Ground::route).basis, ground(Ground::record).basis});
  if (judgement.verdict != Verdict::anachronistic && judgement.verdict != Verdict::stale) judgement.gap.reset();
  if (judgement.verdict != Verdict::open) judgement.would_settle.clear();
  if (!with_proof)
    for (GroundAnswer& answer : grounds) answer.proof.clear();
  return judgement;
}

void Judge::sort(std::vector<Judgement>& list) const {
  std::ranges::stable_sort(list, [&](const Judgement& one, const Judgement& other) {
    if (one.verdict != other.verdict) return one.verdict < other.verdict;
    if (one.basis != other.basis) return one.basis < other.basis;
    return std::tie(kb_.runs[at(one.run)].address, kb_.issues[at(one.issue)].address) <
           std::tie(kb_.runs[at(other.run)].address, kb_.issues[at(other.issue)].address);
  });
}

std::vector<Judgement> Judge::homes(RunIndex run) {
  std::vector<IssueIndex> all;
  for (std::size_t i = 0; i < kb_.issues.size(); ++i)
    if (find_place(kb_, kb_.runs[at(run)].accessory, kb_.issues[i], weakest_).answer != Answer::no)
      all.push_back(IssueIndex{static_cast<std::uint32_t>(i)});
  return homes(run, all);
}

std::vector<Judgement> Judge::homes(RunIndex run, std::span<const IssueIndex> among) {
  const TimeSpanIndex span = kb_.runs[at(run)].span;
  distances_.keep(start_of(span));
  distances_.keep(end_of(span));
  std::vector<Judgement> list;
  for (const IssueIndex issue : among) list.push_back(judge(run, issue, false));
  sort(list);
  return list;
}

std::vector<Judgement> Judge::outfit(IssueIndex issue, const Takes& takes) {
  const TimeSpanIndex span = kb_.issues[at(issue)].span;
  distances_.keep(start_of(span));
  distances_.keep(end_of(span));
  std::vector<Judgement> list;
  for (const MouldIndex mould : kb_.accessories[at(takes.accessory)].moulds)
    for (const RunIndex run : kb_.moulds[at(mould)].runs) list.push_back(judge(run, issue, false));
  sort(list);
  return list;
}

} // namespace coeval
