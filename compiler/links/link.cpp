#include "links/link.hpp"

#include <algorithm>
#include <array>
#include <atomic>
#include <iterator>

#include "links/addresses.hpp"
#include "links/listing.hpp"
#include "links/readings.hpp"
#include "threads/share_out.hpp"

namespace coeval {
namespace {

// A stretch of the entries that holds whole families, and what comes of it besides what its entries are given
// themselves. Threads link parts independently of each other.
struct LinkPart {
  std::size_t begin = 0;
  std::size_t end = 0;
  std::vector<Pairing> pairings;
  std::vector<Timing> timings;
  std::vector<Alike> alike;
  LinkTroubles troubles;
};

// Parts of `least` entries or more. A part ends only where no later entry has a parent in it.
std::vector<LinkPart> parts_of(const EntrySet& entries, std::size_t least) {
  std::vector<LinkPart> parts;
  std::size_t end = entries.entries.size();
  std::size_t reach = end; // the first entry that is a parent of one from here on
  for (std::size_t i = end; i-- > 0;) {
    const EntryIndex parent = entries.entries[i].parent;
    if (parent != no_entry) reach = std::min(reach, at(parent));
    if (i > 0 && (reach < i || end - i < least)) continue;
    LinkPart& part = parts.emplace_back();
    part.begin = i;
    part.end = end;
    end = i;
  }
  std::ranges::reverse(parts);
  return parts;
}

// Follows the references of the entries of one part. Of the lists it writes only what belongs to those entries, and
// reads of others only what was there before.
class PartLinker {
public:
  PartLinker(LinkedKb& kb, const std::vector<std::uint32_t>& span_of, LinkPart& part)
      : kb_(kb), span_of_(span_of), part_(part), addresses_(kb) {}

  void link() {
    for (std::size_t i = part_.begin; i < part_.end; ++i) link_entry(EntryIndex{static_cast<std::uint32_t>(i)});
  }

private:
  [[nodiscard]] const Entry& entry_at(EntryIndex index) const { return kb_.entries[index]; }
  [[nodiscard]] Evidence evidence(EntryIndex index) const { return evidence_of(kb_.entries, index); }

  std::optional<EntryIndex> resolve(const Word& word, EntryIndex entry, std::span<const Kind> kinds) {
    return addresses_.resolve({word.text, {}, word.place, entry}, kinds, part_.troubles);
  }

  // The entry of one of the kinds that a key names.
  std::optional<EntryIndex> first_of(EntryIndex index, std::string_view key, std::span<const Kind> kinds) {
    const auto* words = entry_at(index).get<Words>(key);
    if (words == nullptr || words->empty()) return {};
    return resolve(words->front(), index, kinds);
  }
  // Its position in the list of its kind.
  template <class Index> std::optional<Index> one(EntryIndex index, std::string_view key, Kind kind) {
    const auto found = first_of(index, key, {&kind, 1});
    if (!found || kb_.position[at(*found)] == nowhere) return {};
    return Index{kb_.position[at(*found)]};
  }
  template <class Index> std::vector<Index> several(EntryIndex index, std::string_view key, Kind kind) {
    std::vector<Index> list;
    if (const auto* words = entry_at(index).get<Words>(key))
      for (const Word& word : *words)
        if (const auto found = resolve(word, index, {&kind, 1}); found && kb_.position[at(*found)] != nowhere)
          list.push_back(Index{kb_.position[at(*found)]});
    return list;
  }

  std::optional<TimeSpanIndex> span_named(const WrittenAddress& written) {
    static constexpr std::array lasting{Kind::period, Kind::card,  Kind::mould, Kind::run,
                                        Kind::issue,  Kind::route, Kind::mark};
    const auto found = addresses_.resolve(written, lasting, part_.troubles);
    if (!found) return {};
    return TimeSpanIndex{span_of_[at(*found)]};
  }
  std::optional<TimeSpanIndex> one_span(EntryIndex index, std::string_view key) {
    const auto* words = entry_at(index).get<Words>(key);
    if (words == nullptr || words->empty()) return {};
    return span_named({words->front().text, {}, words->front().place, index});
  }
  std::optional<SpanPoint> point(EntryIndex index, std::string_view key) {
    const auto* words = entry_at(index).get<Words>(key);
    if (words == nullptr || words->empty()) return {};
    const std::string_view written = words->front().text;
    const std::string_view tail = written.substr(written.rfind('.'));
    const auto span = span_named({written.substr(0, written.size() - tail.size()), tail, words->front().place, index});
    if (!span) return {};
    return SpanPoint{*span, tail == ".start" ? SpanEnd::start : SpanEnd::end};
  }

  // Every address of one entry. Addresses are resolved even where a parent is missing, so that all mistakes are
  // reported.
  void link_entry(EntryIndex index) {
    const Entry& entry = entry_at(index);
    check_citations(index);
    const std::uint32_t self = kb_.position[at(index)];
    const std::uint32_t parent = entry.parent == no_entry ? nowhere : kb_.position[at(entry.parent)];
    switch (entry.kind) {
    case Kind::line: {
      (void)one<std::uint32_t>(index, "maker", Kind::maker);
      if (const auto* slots = entry.get<Words>("slots"); slots != nullptr && self != nowhere)
        for (const Word& slot : *slots) kb_.lines[self].slots.push_back(slot.text);
      break;
    }
    case Kind::leftover:
      link_leftover(index, parent);
      break;
    case Kind::allowance:
      link_allowance(index, parent);
      break;
    case Kind::issue:
      link_issue(index, self);
      break;
    case Kind::takes: {
      const auto accessory = one<AccessoryIndex>(index, "accessory", Kind::accessory);
      if (!accessory || parent == nowhere) break;
      std::string slot{entry.text("slot")};
      if (slot.empty()) slot = kb_.accessories[at(*accessory)].slot;
      kb_.issues[parent].takes.push_back({*accessory, std::move(slot), evidence(index)});
      break;
    }
    case Kind::pairing: {
      const auto run = one<RunIndex>(index, "run", Kind::run);
      const auto card = one<CardIndex>(index, "card", Kind::card);
      // One whose `refuted` or `disputed` was refused would say the opposite of what is meant.
      if (run && parent != nowhere && !entry.broken)
        part_.pairings.push_back({index, *run, IssueIndex{parent}, card, entry.flag("refuted"), evidence(index)});
      break;
    }
    case Kind::run: {
      const auto plant = one<PlantIndex>(index, "plant", Kind::plant);
      if (self != nowhere) kb_.runs[self].plant = plant;
      link_alike(index);
      break;
    }
    case Kind::mould:
      link_alike(index);
      break;
    case Kind::exclusive: {
      auto to = several<IssueIndex>(index, "to", Kind::issue);
      const auto* written = entry.get<Words>("to");
      // With one address unresolved the list would wrongly shut an issue out.
      if (parent != nowhere && written != nullptr && to.size() == written->size() && !entry.broken)
        kb_.runs[parent].exclusives.push_back({index, std::move(to), evidence(index)});
      break;
    }
    case Kind::repro:
      link_repro(index, self);
      link_alike(index);
      break;
    case Kind::plant:
      (void)one<std::uint32_t>(index, "maker", Kind::maker);
      if (self != nowhere) {
        kb_.plants[self].routes_complete = entry.flag("routes-complete");
        kb_.plants[self].evidence = evidence(index);
      }
      break;
    case Kind::route:
      link_route(index, self);
      break;
    case Kind::mark:
      if (self != nowhere) kb_.marks[self].end_binds = entry.flag("end-binds");
      break;
    case Kind::claim:
      if (self != nowhere)
        kb_.claims[self].standing = entry.text("standing") == "supported" ? ClaimStanding::supported
                                    : entry.text("standing") == "refuted" ? ClaimStanding::refuted
                                                                          : ClaimStanding::open;
      break;
    case Kind::claimed_pairing: {
      const auto run = one<RunIndex>(index, "run", Kind::run);
      const auto issue = one<IssueIndex>(index, "issue", Kind::issue);
      const auto card = one<CardIndex>(index, "card", Kind::card);
      if (run && issue && parent != nowhere && !entry.broken)
        kb_.claims[parent].pairings.push_back({index, *run, *issue, card});
      break;
    }
    case Kind::timing:
      if (auto timing = link_timing(index, one_parent_span(index))) part_.timings.push_back(std::move(*timing));
      break;
    case Kind::claimed_timing:
      if (auto timing = link_timing(index, one_span(index, "of")); timing && parent != nowhere)
        kb_.claims[parent].timings.push_back(std::move(*timing));
      break;
    default:
      break;
    }
    if (span_of_[at(index)] != nowhere) link_span(index);
    if (entry.kind == Kind::accessory) (void)marks_named(index, index);
  }

  std::optional<TimeSpanIndex> one_parent_span(EntryIndex index) {
    const EntryIndex parent = entry_at(index).parent;
    if (parent == no_entry || span_of_[at(parent)] == nowhere) return {};
    return TimeSpanIndex{span_of_[at(parent)]};
  }

  void link_leftover(EntryIndex index, std::uint32_t parent) {
    const auto* at_most = entry_at(index).get<Duration>("at-most");
    if (at_most == nullptr || parent == nowhere) return;
    Leftover leftover{*at_most, evidence(index)};
    if (entry_at(entry_at(index).parent).kind == Kind::line)
      kb_.lines[parent].leftover = std::move(leftover);
    else
      kb_.issues[parent].leftover = std::move(leftover);
  }

  void link_allowance(EntryIndex index, std::uint32_t parent) {
    if (parent == nowhere) return;
    const Entry& entry = entry_at(index);
    Allowance& allowance = kb_.lines[parent].allowance;
    const auto take = [&](std::string_view key, Duration& duration) {
      if (const auto* written = entry.get<Duration>(key)) duration = *written;
    };
    take("day", allowance.day);
    take("month", allowance.month);
    take("season", allowance.season);
    take("year", allowance.year);
    take("decade", allowance.decade);
  }

  void link_issue(EntryIndex index, std::uint32_t self) {
    const auto packer = one<PlantIndex>(index, "packer", Kind::plant);
    (void)one<std::uint32_t>(index, "maker", Kind::maker);
    auto cards = several<CardIndex>(index, "card", Kind::card);
    const auto reissue_of = one<IssueIndex>(index, "reissue-of", Kind::issue);
    if (self == nowhere) return;
    kb_.issues[self].packer = packer;
    kb_.issues[self].cards = std::move(cards);
    kb_.issues[self].reissue_of = reissue_of;
    kb_.issues[self].bare = entry_at(index).flag("bare");
  }

  void link_repro(EntryIndex index, std::uint32_t self) {
    static constexpr std::array copied_kinds{Kind::run, Kind::mould};
    static constexpr std::array cast_kinds{Kind::run, Kind::mould, Kind::accessory, Kind::repro};
    const auto copied = first_of(index, "of", copied_kinds);
    const auto cast_from = first_of(index, "donor", cast_kinds);
    if (self == nowhere) return;
    Repro& repro = kb_.repros[self];
    repro.donor = cast_from;
    if (!copied || kb_.position[at(*copied)] == nowhere) return;
    const std::uint32_t position = kb_.position[at(*copied)];
    if (entry_at(*copied).kind == Kind::run) {
      repro.of_run = RunIndex{position};
      repro.of_mould = kb_.runs[position].mould;
    } else {
      repro.of_mould = MouldIndex{position};
    }
  }

  void link_alike(EntryIndex index) {
    static constexpr std::array kinds{Kind::mould, Kind::run, Kind::repro};
    if (const auto* words = entry_at(index).get<Words>("alike"))
      for (const Word& word : *words)
        if (const auto other = resolve(word, index, kinds)) part_.alike.push_back({index, *other, word.place});
  }

  void link_route(EntryIndex index, std::uint32_t self) {
    const auto from = one<PlantIndex>(index, "from", Kind::plant);
    const auto to = one<PlantIndex>(index, "to", Kind::plant);
    auto carries = several<AccessoryIndex>(index, "carries", Kind::accessory);
    if (self == nowhere) return;
    Route& route = kb_.routes[self];
    // A route whose ends are unknown stays in the list, from plant `nowhere`; the search for routes passes it over.
    route.from = from.value_or(PlantIndex{nowhere});
    route.to = to.value_or(PlantIndex{nowhere});
    route.carries = std::move(carries);
    route.evidence = evidence(index);
  }

  void link_span(EntryIndex index) {
    const Entry& entry = entry_at(index);
    TimeSpan& span = kb_.spans[span_of_[at(index)]];
    span.dates = entry.get<WrittenDates>(dates_key(entry.kind));
    span.evidence = evidence(index);
    span.clean = entry.flag("clean");
    if (const auto* words = entry.get<Words>("replaces")) {
      if (const auto found = resolve(words->front(), index, {&entry.kind, 1}))
        span.replaces = TimeSpanIndex{span_of_[at(*found)]};
      span.replaces_place = words->front().place;
    }
    if (const auto* words = entry.get<Words>("within"))
      for (const Word& word : *words)
        if (const auto found = span_named({word.text, {}, word.place, index}))
          span.within.emplace_back(*found, word.place);
    span.marks = marks_named(index, index);
    if (entry.kind != Kind::mould) return;
    const auto on_every_part = marks_named(entry.parent, index);
    span.marks.insert(span.marks.end(), on_every_part.begin(), on_every_part.end());
  }

  [[nodiscard]] std::optional<EntryIndex> sound_mark(std::string_view written) {
    for (const auto found : {kb_.addresses.find(written), addresses_.find("mark", written)})
      if (found && entry_at(*found).kind == Kind::mark) return found;
    return {};
  }

  // The marks that an entry names, for itself or for one whose parent it is. The first reports what is wrong; the other
  // takes over what is sound.
  std::vector<CarriedMark> marks_named(EntryIndex index, EntryIndex by) {
    static constexpr std::array kinds{Kind::mark};
    std::vector<CarriedMark> marks;
    const auto* words = entry_at(index).get<Words>("marks");
    if (words == nullptr) return marks;
    for (const Word& word : *words) {
      const std::string_view text = word.text;
      const WrittenMark written = split_mark(text);
      const std::string_view tail = text.substr(written.mark.size());
      const auto found = index == by
                             ? addresses_.resolve({written.mark, tail, word.place, index}, kinds, part_.troubles)
                             : sound_mark(written.mark);
      if (!found || kb_.position[at(*found)] == nowhere) continue;
      const MarkIndex mark{kb_.position[at(*found)]};
      const MarkReading read = read_mark(kb_, mark, written.reading);
      if (read.trouble && index == by) report(*read.trouble, word.place, *found);
      if (!read.trouble) marks.push_back({mark, read.reading, word.place});
    }
    return marks;
  }

  void report(const ReadingTrouble& trouble, Span place, EntryIndex mark) {
    Diagnostic wrong;
    wrong.code = trouble.code;
    wrong.place = place;
    wrong.message = trouble.message;
    wrong.help = trouble.repair;
    wrong.labels.push_back({entry_at(mark).place, "the mark is defined here"});
    part_.troubles.out.report(std::move(wrong));
  }

  // A timing that says too little or too much is left to the rule `incomplete-timing`.
  std::optional<Timing> link_timing(EntryIndex index, std::optional<TimeSpanIndex> of) {
    const Entry& entry = entry_at(index);
    const auto span = one_span(index, "span");
    const auto after = point(index, "after");
    const auto before = point(index, "before");
    const auto same = point(index, "same-day-as");
    if (!of || entry.broken) return {};
    Timing timing;
    timing.of = *of;
    timing.evidence = evidence(index);
    timing.entry = index;
    if (const auto* at_least = entry.get<Duration>("at-least")) timing.at_least = *at_least;
    if (const auto* at_most = entry.get<Duration>("at-most")) timing.at_most = *at_most;
    const auto relation = find_relation(entry.text("relation"));
    if (relation && span) {
      timing.order = Order::relation;
      timing.relation = *relation;
      timing.span = *span;
      return timing;
    }
    if (entry.text("this").empty()) return {};
    timing.end = entry.text("this") == "start" ? SpanEnd::start : SpanEnd::end;
    timing.on = entry.get<WrittenDate>("on");
    if ((timing.on != nullptr) + after.has_value() + before.has_value() + same.has_value() != 1) return {};
    if (timing.on != nullptr) {
      timing.order = Order::on;
      return timing;
    }
    const Day smallest = timing.at_least ? timing.at_least->fewest_days() : 1;
    if (timing.at_most && timing.at_most->most_days() < smallest) return {}; // it would contradict itself
    const auto other = after ? after : before ? before : same;
    timing.order = after ? Order::after : before ? Order::before : Order::same_day;
    timing.other = *other;
    return timing;
  }

  void check_citations(EntryIndex index) {
    const auto* citations = entry_at(index).get<Words>("source");
    if (citations == nullptr) return;
    for (const Word& citation : *citations) {
      const std::string_view written = citation.text;
      const auto found = addresses_.find("source", written.substr(0, written.find(' ')));
      if (!found || entry_at(*found).kind != Kind::source) {
        part_.troubles.unknown_sources.push_back(&citation);
        continue;
      }
      // Other parts cite it too. Mostly it is known to be used, and then no thread waits for another.
      const std::atomic_ref<bool> used{kb_.sources[kb_.position[at(*found)]].used};
      if (!used.load(std::memory_order_relaxed)) used.store(true, std::memory_order_relaxed);
    }
  }

  LinkedKb& kb_;
  const std::vector<std::uint32_t>& span_of_; // of each entry; `nowhere` where it does not last
  LinkPart& part_;
  AddressReader addresses_;
};

template <class Item>
void gather(std::vector<Item>& all, std::vector<LinkPart>& parts, std::vector<Item> LinkPart::*own) {
  std::size_t count = 0;
  for (const LinkPart& part : parts) count += (part.*own).size();
  all.reserve(count);
  for (LinkPart& part : parts) {
    std::ranges::move(part.*own, std::back_inserter(all));
    part.*own = {}; // what is handed on is not held twice
  }
}

// What a question about one run or one plant would otherwise have to look for in the lists of all.
void index_pairs(LinkedKb& kb) {
  for (std::size_t i = 0; i < kb.pairings.size(); ++i)
    kb.runs[at(kb.pairings[i].run)].pairings.push_back(PairingIndex{static_cast<std::uint32_t>(i)});
  for (std::size_t i = 0; i < kb.claims.size(); ++i)
    for (const ClaimedPairing& pairing : kb.claims[i].pairings)
      kb.runs[at(pairing.run)].claimed_pairings.emplace_back(ClaimIndex{static_cast<std::uint32_t>(i)}, pairing.issue);
  for (std::size_t i = 0; i < kb.routes.size(); ++i)
    if (const std::size_t to = at(kb.routes[i].to); to < kb.plants.size())
      kb.plants[to].routes_in.push_back(RouteIndex{static_cast<std::uint32_t>(i)});
}

} // namespace

LinkedKb link_entries(EntrySet entries, bool complete, Diagnostics& out) {
  LinkedKb kb;
  kb.entries = std::move(entries);
  name_entries(kb, out);
  LinkTroubles of_lists;
  const std::vector<std::uint32_t> span_of = list_entries(kb, of_lists);
  std::vector<LinkPart> parts = parts_of(kb.entries, 4096);
  share_out(parts.size(), 2, [&](std::size_t i) { PartLinker{kb, span_of, parts[i]}.link(); });
  gather(kb.pairings, parts, &LinkPart::pairings);
  gather(kb.timings, parts, &LinkPart::timings);
  gather(kb.alike, parts, &LinkPart::alike);
  index_pairs(kb);
  TroubleReporter reporter{kb, complete, out};
  reporter.report(std::move(of_lists));
  for (LinkPart& part : parts) reporter.report(std::move(part.troubles));
  return kb;
}

} // namespace coeval
