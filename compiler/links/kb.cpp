#include "links/kb.hpp"

#include <algorithm>

namespace coeval {
namespace {

constexpr std::array<std::string_view, 13> relation_names{
    "before",     "meets",  "overlaps", "finished-by",   "contains", "starts", "equals",
    "started-by", "during", "finishes", "overlapped-by", "met-by",   "after"};

// The word for the nth choice of a kind's key.
template <class Choice> std::string_view choice_name(Choice choice, Kind kind, std::string_view key) {
  return spec_of(kind).find(key)->choices[static_cast<std::size_t>(choice)];
}

} // namespace

std::optional<Relation> find_relation(std::string_view name) {
  const auto found = std::ranges::find(relation_names, name);
  if (found == relation_names.end()) return {};
  return static_cast<Relation>(found - relation_names.begin());
}

std::string_view name(Relation relation) { return relation_names[static_cast<std::size_t>(relation)]; }

std::string_view name(FeatureKind kind) { return choice_name(kind, Kind::feature, "kind"); }
std::string_view name(Tool tool) { return choice_name(tool, Kind::feature, "tool"); }
std::string_view name(LookBy by) { return choice_name(by, Kind::feature, "by"); }
std::string_view name(ReadingKind kind) { return choice_name(kind, Kind::mark, "reading"); }

std::span<const Word> Evidence::citations() const {
  return cited == nullptr ? std::span<const Word>{} : std::span<const Word>{*cited};
}

std::vector<std::string> Evidence::citation_texts() const {
  std::vector<std::string> texts;
  texts.reserve(citations().size());
  for (const Word& citation : citations()) texts.emplace_back(citation.text);
  return texts;
}

Evidence evidence_of(const EntrySet& entries, EntryIndex index) {
  const Entry& entry = entries[index];
  Evidence result;
  result.cited = entry.get<Words>("source");
  const std::string_view basis = entry.text("basis");
  const bool inherits = entry.kind == Kind::run || entry.kind == Kind::takes || entry.kind == Kind::mark_number;
  if (inherits && result.cited == nullptr && basis.empty() && entry.parent != no_entry) {
    result = evidence_of(entries, entry.parent);
    result.place = entry.place;
    return result;
  }
  result.basis = result.cited != nullptr ? Basis::reported : Basis::conjectured;
  for (const Basis named : all_bases)
    if (name(named) == basis) result.basis = named;
  result.place = entry.place;
  result.disputed = entry.flag("disputed");
  return result;
}

std::optional<FeatureIndex> LinkedKb::find_feature(std::string_view id) const {
  const auto found = addresses.find("feature/" + std::string{id});
  if (!found || entries[*found].kind != Kind::feature) return {};
  return FeatureIndex{position[at(*found)]};
}

const Entry* LinkedKb::colour_of(EntryIndex entry) const {
  const auto parent = [this](EntryIndex colour) { return entries[colour].parent; };
  const auto found = std::ranges::lower_bound(colours, entry, {}, parent);
  return found != colours.end() && parent(*found) == entry ? &entries[*found] : nullptr;
}

const Leftover* LinkedKb::leftover_of(IssueIndex issue) const {
  const Issue& it = issues[at(issue)];
  if (it.leftover) return &*it.leftover;
  const auto line = figures[at(it.figure)].line;
  return line && lines[at(*line)].leftover ? &*lines[at(*line)].leftover : nullptr;
}

const Allowance& LinkedKb::allowance_of(const TimeSpan& span) const {
  static constexpr Allowance usual;
  return span.line ? lines[at(*span.line)].allowance : usual;
}

} // namespace coeval
