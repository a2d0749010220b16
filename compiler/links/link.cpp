#include "links/link.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "links/addresses.hpp"
#include "links/readings.hpp"

namespace coeval {
namespace {

constexpr std::uint32_t nowhere = 0xffffffffU;

// The position of a word among the choices of its key; 0, the choice that is meant unless said, where it is absent.
std::uint8_t choice_of(const Entry& entry, std::string_view key) {
  const std::vector<std::string_view>& choices = spec_of(entry.kind).find(key)->choices;
  const auto found = std::ranges::find(choices, entry.text(key));
  return found == choices.end() ? std::uint8_t{0} : static_cast<std::uint8_t>(found - choices.begin());
}

std::optional<ReadingKind> reading_kind_of(const Entry& entry) {
  if (entry.find("reading") == nullptr) return {};
  return ReadingKind{choice_of(entry, "reading")};
}

Feature feature_of(const Entry& entry) {
  Feature feature{.id = entry.id, .name = std::string{entry.text("name")}};
  feature.kind = FeatureKind{choice_of(entry, "kind")};
  feature.tool = Tool{choice_of(entry, "tool")};
  feature.by = LookBy{choice_of(entry, "by")};
  feature.unit = entry.text("unit");
  feature.destructive = entry.flag("destructive");
  if (const auto* values = entry.get<Words>("values"))
    for (const Word& value : *values) feature.values.push_back(value.text);
  if (const auto* effort = entry.get<double>("effort")) feature.effort = *effort;
  if (const auto* tolerance = entry.get<double>("tolerance")) feature.tolerance = *tolerance;
  return feature;
}

class Linker {
public:
  Linker(EntrySet entries, bool complete, Diagnostics& out)
      : out_(out), addresses_(kb_, complete, out), complete_(complete) {
    kb_.entries = std::move(entries);
  }

  LinkedKb link() {
    name_entries(kb_, out_);
    list_entries();
    for (std::size_t i = 0; i < count(); ++i) link_entry(EntryIndex{static_cast<std::uint32_t>(i)});
    index_pairs();
    return std::move(kb_);
  }

private:
  [[nodiscard]] std::size_t count() const { return kb_.entries.entries.size(); }
  [[nodiscard]] const Entry& entry_at(EntryIndex index) const { return kb_.entries[index]; }

  // First every entry gets its place in the list of its kind, so that references can point forward.
  void list_entries() {
    kb_.position.assign(count(), nowhere);
    span_of_.assign(count(), nowhere);
    for (std::size_t i = 0; i < count(); ++i)
      if (kb_.entries.entries[i].kind == Kind::line) list_entry(EntryIndex{static_cast<std::uint32_t>(i)});
    for (std::size_t i = 0; i < count(); ++i)
      if (kb_.entries.entries[i].kind != Kind::line) list_entry(EntryIndex{static_cast<std::uint32_t>(i)});
    for (Mark& mark : kb_.marks) std::ranges::stable_sort(mark.numbers, {}, &NumberRow::from);
    std::ranges::stable_sort(kb_.colours, {}, [this](EntryIndex colour) { return entry_at(colour).parent; });
  }

  template <class Item> void append(std::vector<Item>& list, EntryIndex index, Item item) {
    item.entry = index;
    kb_.position[at(index)] = static_cast<std::uint32_t>(list.size());
    list.push_back(std::move(item));
  }

  void list_entry(EntryIndex index) {
    const Entry& entry = entry_at(index);
    const std::uint32_t parent = entry.parent == no_entry ? nowhere : kb_.position[at(entry.parent)];
    if (entry.kind == Kind::mark_number) list_number(index, parent);
    if (entry.kind == Kind::colour && entry.parent != no_entry) kb_.colours.push_back(index);
    if (kb_.address(index).empty()) return;
    const std::string id = entry.id;
    switch (entry.kind) {
    case Kind::line:
      append(kb_.lines, index, Line{.id = id});
      break;
    case Kind::figure:
      append(kb_.figures, index, Figure{.id = id, .name = std::string{entry.text("name")}, .line = line_of(index)});
      break;
    case Kind::issue:
      append(kb_.issues, index, Issue{.address = kb_.address(index), .figure = FigureIndex{parent}});
      kb_.figures[parent].issues.push_back(IssueIndex{kb_.position[at(index)]});
      break;
    case Kind::accessory:
      append(kb_.accessories, index,
             Accessory{.id = id,
                       .name = std::string{entry.text("name")},
                       .slot = std::string{entry.text("slot")},
                       .line = line_of(index)});
      break;
    case Kind::mould:
      append(kb_.moulds, index, Mould{.address = kb_.address(index), .accessory = AccessoryIndex{parent}});
      kb_.accessories[parent].moulds.push_back(MouldIndex{kb_.position[at(index)]});
      break;
    case Kind::run:
      append(
          kb_.runs, index,
          Run{.address = kb_.address(index), .mould = MouldIndex{parent}, .accessory = kb_.moulds[parent].accessory});
      kb_.moulds[parent].runs.push_back(RunIndex{kb_.position[at(index)]});
      break;
    case Kind::card:
      append(kb_.cards, index, Card{});
      break;
    case Kind::plant:
      append(kb_.plants, index, Plant{.id = id, .name = std::string{entry.text("name")}});
      break;
    case Kind::route:
      append(kb_.routes, index, Route{.id = id});
      break;
    case Kind::mark:
      append(kb_.marks, index, Mark{.reading = reading_kind_of(entry)});
      break;
    case Kind::source:
      append(kb_.sources, index, Source{.id = id});
      break;
    case Kind::claim:
      append(kb_.claims, index, Claim{.id = id});
      break;
    case Kind::feature:
      append(kb_.features, index, feature_of(entry));
      break;
    case Kind::repro:
      append(kb_.repros, index, Repro{.address = kb_.address(index), .accessory = AccessoryIndex{parent}});
      kb_.accessories[parent].repros.push_back(ReproIndex{kb_.position[at(index)]});
      break;
    default:
      break;
    }
    if (!dates_key(entry.kind).empty()) add_span(index);
  }

  // A row that is in doubt is left out; its numbers then count as the row's before it.
  void list_number(EntryIndex index, std::uint32_t mark) {
    const Entry& entry = entry_at(index);
    const auto* from = entry.get<double>("from");
    const auto* on = entry.get<WrittenDate>("on");
    if (mark == nowhere || from == nullptr || on == nullptr || entry.broken) return;
    kb_.marks[mark].numbers.push_back({index, static_cast<std::int64_t>(*from), on, evidence(index)});
  }

  // What a question about one run or one plant would otherwise have to look for in the lists of all.
  void index_pairs() {
    for (std::size_t i = 0; i < kb_.pairings.size(); ++i)
      kb_.runs[at(kb_.pairings[i].run)].pairings.push_back(PairingIndex{static_cast<std::uint32_t>(i)});
    for (std::size_t i = 0; i < kb_.claims.size(); ++i)
      for (const ClaimedPairing& pairing : kb_.claims[i].pairings)
        kb_.runs[at(pairing.run)].claimed_pairings.emplace_back(ClaimIndex{static_cast<std::uint32_t>(i)},
                                                                pairing.issue);
    for (std::size_t i = 0; i < kb_.routes.size(); ++i)
      if (const std::size_t to = at(kb_.routes[i].to); to < kb_.plants.size())
        kb_.plants[to].routes_in.push_back(RouteIndex{static_cast<std::uint32_t>(i)});
  }

  // The line of an entry that may name one: what it names, else the only one there is.
  std::optional<LineIndex> line_of(EntryIndex index) {
    const Entry& entry = entry_at(index);
    if (const auto* words = entry.get<Words>("line")) {
      if (const auto line = resolve(words->front(), index, {Kind::line})) return LineIndex{kb_.position[at(*line)]};
      return {};
    }
    if (kb_.lines.size() > 1) {
      Diagnostic needed;
      needed.code = Code::line_needed;
      needed.place = entry.place;
      needed.message = fmt::format("this {} does not say which line it belongs to, and the knowledge base holds {}",
                                   spec_of(entry.kind).name, kb_.lines.size());
      std::vector<std::string_view> ids;
      for (const Line& line : kb_.lines) ids.push_back(line.id);
      needed.help = fmt::format("add line = {}", list_names(ids));
      out_.report(std::move(needed));
      return {};
    }
    if (kb_.lines.empty()) return {};
    return LineIndex{0};
  }

  std::optional<LineIndex> line_of_span(EntryIndex index) {
    const Entry& entry = entry_at(index);
    switch (entry.kind) {
    case Kind::period:
    case Kind::card:
      return line_of(index);
    case Kind::issue:
      return kb_.figures[kb_.position[at(entry.parent)]].line;
    case Kind::mould:
      return kb_.accessories[kb_.position[at(entry.parent)]].line;
    case Kind::run:
      return kb_.spans[span_of_[at(entry.parent)]].line;
    default: // routes and marks are of no line; where there is only one, its policies are as good for them
      return kb_.lines.size() == 1 ? std::optional{LineIndex{0}} : std::nullopt;
    }
  }

  void add_span(EntryIndex index) {
    const Entry& entry = entry_at(index);
    TimeSpan span;
    span.kind = entry.kind;
    span.entry = index;
    span.address = kb_.address(index);
    span.line = line_of_span(index);
    span.dates = entry.get<WrittenDates>(dates_key(entry.kind));
    span.evidence = evidence(index);
    span.clean = entry.flag("clean");
    const TimeSpanIndex at_span{static_cast<std::uint32_t>(kb_.spans.size())};
    span_of_[at(index)] = static_cast<std::uint32_t>(at_span);
    const std::uint32_t position = kb_.position[at(index)];
    switch (entry.kind) {
    case Kind::issue:
      kb_.issues[position].span = at_span;
      break;
    case Kind::mould:
      kb_.moulds[position].span = at_span;
      break;
    case Kind::run:
      kb_.runs[position].span = at_span;
      break;
    case Kind::card:
      kb_.cards[position].span = at_span;
      break;
    case Kind::route:
      kb_.routes[position].span = at_span;
      break;
    case Kind::mark:
      kb_.marks[position].span = at_span;
      break;
    default:
      break;
    }
    kb_.spans.push_back(std::move(span));
  }

  [[nodiscard]] Evidence evidence(EntryIndex index) const { return evidence_of(kb_.entries, index); }

  std::optional<EntryIndex> resolve(const Word& word, EntryIndex entry, std::initializer_list<Kind> kinds,
                                    std::string_view tail = {}) {
    return addresses_.resolve(word, entry, {kinds.begin(), kinds.size()}, tail);
  }

  // The position, in the list of its kind, of what a key names.
  template <class Index> std::optional<Index> one(EntryIndex index, std::string_view key, Kind kind) {
    const auto* words = entry_at(index).get<Words>(key);
    if (words == nullptr || words->empty()) return {};
    const auto found = resolve(words->front(), index, {kind});
    if (!found || kb_.position[at(*found)] == nowhere) return {};
    return Index{kb_.position[at(*found)]};
  }
  template <class Index> std::vector<Index> several(EntryIndex index, std::string_view key, Kind kind) {
    std::vector<Index> list;
    if (const auto* words = entry_at(index).get<Words>(key))
      for (const Word& word : *words)
        if (const auto found = resolve(word, index, {kind}); found && kb_.position[at(*found)] != nowhere)
          list.push_back(Index{kb_.position[at(*found)]});
    return list;
  }

  std::optional<TimeSpanIndex> span_named(const Word& word, EntryIndex index, std::string_view tail = {}) {
    const auto found = resolve(
        word, index, {Kind::period, Kind::card, Kind::mould, Kind::run, Kind::issue, Kind::route, Kind::mark}, tail);
    if (!found) return {};
    return TimeSpanIndex{span_of_[at(*found)]};
  }
  std::optional<TimeSpanIndex> one_span(EntryIndex index, std::string_view key) {
    const auto* words = entry_at(index).get<Words>(key);
    if (words == nullptr || words->empty()) return {};
    return span_named(words->front(), index);
  }
  std::optional<SpanPoint> point(EntryIndex index, std::string_view key) {
    const auto* words = entry_at(index).get<Words>(key);
    if (words == nullptr || words->empty()) return {};
    Word word = words->front();
    const std::size_t dot = word.text.rfind('.');
    const SpanEnd end = std::string_view{word.text}.substr(dot + 1) == "start" ? SpanEnd::start : SpanEnd::end;
    const std::string tail = word.text.substr(dot);
    word.text = word.text.substr(0, dot);
    const auto span = span_named(word, index, tail);
    if (!span) return {};
    return SpanPoint{*span, end};
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
        kb_.pairings.push_back({index, *run, IssueIndex{parent}, card, entry.flag("refuted"), evidence(index)});
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
      if (auto timing = link_timing(index, one_parent_span(index))) kb_.timings.push_back(std::move(*timing));
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
    const Entry& entry = entry_at(index);
    const auto* of = entry.get<Words>("of");
    const auto copied = of == nullptr ? std::nullopt : resolve(of->front(), index, {Kind::run, Kind::mould});
    const auto* donor = entry.get<Words>("donor");
    const auto cast_from = donor == nullptr
                               ? std::nullopt
                               : resolve(donor->front(), index, {Kind::run, Kind::mould, Kind::accessory, Kind::repro});
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
    if (const auto* words = entry_at(index).get<Words>("alike"))
      for (const Word& word : *words)
        if (const auto other = resolve(word, index, {Kind::mould, Kind::run, Kind::repro}))
          kb_.alike.push_back({index, *other, word.place});
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
    if (const auto* words = entry.get<Words>("replaces")) {
      if (const auto found = resolve(words->front(), index, {entry.kind}))
        span.replaces = TimeSpanIndex{span_of_[at(*found)]};
      span.replaces_place = words->front().place;
    }
    if (const auto* words = entry.get<Words>("within"))
      for (const Word& word : *words)
        if (const auto found = span_named(word, index)) span.within.emplace_back(*found, word.place);
    span.marks = marks_named(index, index);
    if (entry.kind != Kind::mould) return;
    const auto on_every_part = marks_named(entry.parent, index);
    span.marks.insert(span.marks.end(), on_every_part.begin(), on_every_part.end());
  }

  [[nodiscard]] std::optional<EntryIndex> sound_mark(const std::string& written) const {
    for (const std::string& address : {written, "mark/" + written})
      if (const auto found = kb_.by_address.find(address);
          found != kb_.by_address.end() && entry_at(found->second).kind == Kind::mark)
        return found->second;
    return {};
  }

  // The marks that an entry names, for itself or for one whose parent it is. The first reports what is wrong; the other
  // takes over what is sound.
  std::vector<CarriedMark> marks_named(EntryIndex index, EntryIndex by) {
    std::vector<CarriedMark> marks;
    const auto* words = entry_at(index).get<Words>("marks");
    if (words == nullptr) return marks;
    for (const Word& word : *words) {
      const WrittenMark written = split_mark(word.text);
      const KeptText id{written.mark};
      const std::string tail = word.text.substr(id.size());
      const auto found = index == by ? resolve({id, word.place}, index, {Kind::mark}, tail) : sound_mark(id);
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
    out_.report(std::move(wrong));
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
      const std::string id = citation.text.substr(0, citation.text.find(' '));
      if (const auto found = addresses_.find("source/" + id)) {
        kb_.sources[kb_.position[at(*found)]].used = true;
        continue;
      }
      if (!complete_) continue;
      std::vector<std::string_view> ids;
      if (addresses_.may_compare(kb_.sources.size()))
        for (const Source& source : kb_.sources) ids.push_back(source.id);
      const auto near = near_names(id, ids);
      Diagnostic unknown;
      unknown.code = Code::unknown_source;
      unknown.place = citation.place;
      unknown.message = fmt::format("there is no source `{}`", id);
      unknown.help = near.empty() ? fmt::format("add a [[source]] with id = \"{}\"", id) : did_you_mean(near);
      if (near.size() == 1)
        unknown.fix =
            Fix{citation.place, "\"" + std::string{near.front()} + citation.text.substr(id.size()) + "\"", false};
      out_.report(std::move(unknown));
    }
  }

  LinkedKb kb_;
  Diagnostics& out_;
  AddressReader addresses_;
  bool complete_;
  std::vector<std::uint32_t> span_of_; // of each entry; `nowhere` where it does not last
};

} // namespace

LinkedKb link_entries(EntrySet entries, bool complete, Diagnostics& out) {
  return Linker{std::move(entries), complete, out}.link();
}

} // namespace coeval
