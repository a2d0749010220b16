#include "links/listing.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "diagnose/near.hpp"

namespace coeval {
namespace {

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

class Lister {
public:
  Lister(LinkedKb& kb, LinkTroubles& troubles) : kb_(kb), addresses_(kb), troubles_(troubles) {}

  // Lines first: what else belongs to one asks how many there are.
  std::vector<std::uint32_t> list() {
    kb_.position.assign(count(), nowhere);
    span_of_.assign(count(), nowhere);
    make_room();
    for (std::size_t i = 0; i < count(); ++i)
      if (kb_.entries.entries[i].kind == Kind::line) list_entry(EntryIndex{static_cast<std::uint32_t>(i)});
    for (std::size_t i = 0; i < count(); ++i)
      if (kb_.entries.entries[i].kind != Kind::line) list_entry(EntryIndex{static_cast<std::uint32_t>(i)});
    for (Mark& mark : kb_.marks) std::ranges::stable_sort(mark.numbers, {}, &NumberRow::from);
    std::ranges::stable_sort(kb_.colours, {}, [this](EntryIndex colour) { return entry_at(colour).parent; });
    return std::move(span_of_);
  }

private:
  [[nodiscard]] std::size_t count() const { return kb_.entries.entries.size(); }
  [[nodiscard]] const Entry& entry_at(EntryIndex index) const { return kb_.entries[index]; }

  // A list that grows step by step is at times there twice, and the long ones are long.
  void make_room() {
    std::array<std::size_t, kind_count> of_kind{};
    std::size_t lasting = 0;
    for (const Entry& entry : kb_.entries.entries) ++of_kind[static_cast<std::size_t>(entry.kind)];
    const auto number = [&](Kind kind) { return of_kind[static_cast<std::size_t>(kind)]; };
    for (const KindSpec& spec : schema())
      if (!dates_key(spec.kind).empty()) lasting += number(spec.kind);
    kb_.figures.reserve(number(Kind::figure));
    kb_.issues.reserve(number(Kind::issue));
    kb_.accessories.reserve(number(Kind::accessory));
    kb_.moulds.reserve(number(Kind::mould));
    kb_.runs.reserve(number(Kind::run));
    kb_.repros.reserve(number(Kind::repro));
    kb_.claims.reserve(number(Kind::claim));
    kb_.spans.reserve(lasting);
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
    const std::string id{entry.id};
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
    kb_.marks[mark].numbers.push_back({index, static_cast<std::int64_t>(*from), on, evidence_of(kb_.entries, index)});
  }

  std::optional<EntryIndex> resolve(const Word& word, EntryIndex entry, Kind kind) {
    return addresses_.resolve({word.text, {}, word.place, entry}, {&kind, 1}, troubles_);
  }

  // The line of an entry that may name one: what it names, else the only one there is.
  std::optional<LineIndex> line_of(EntryIndex index) {
    const Entry& entry = entry_at(index);
    if (const auto* words = entry.get<Words>("line")) {
      if (const auto line = resolve(words->front(), index, Kind::line)) return LineIndex{kb_.position[at(*line)]};
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
      troubles_.out.report(std::move(needed));
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

  LinkedKb& kb_;
  AddressReader addresses_;
  LinkTroubles& troubles_;
  std::vector<std::uint32_t> span_of_; // of each entry; `nowhere` where it does not last
};

} // namespace

std::vector<std::uint32_t> list_entries(LinkedKb& kb, LinkTroubles& troubles) { return Lister{kb, troubles}.list(); }

} // namespace coeval
