#include <algorithm>

#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/looks.hpp"
#include "pages/paths.hpp"

namespace coeval {
namespace {

std::string_view kind_words(FeatureKind kind) {
  switch (kind) {
  case FeatureKind::choice:
    return "one of several values";
  case FeatureKind::present:
    return "there or not";
  case FeatureKind::count:
    return "counted";
  case FeatureKind::measure:
    return "measured";
  case FeatureKind::colour:
    return "a colour";
  case FeatureKind::text:
    return "what it reads";
  }
  return {};
}

void add_about(const Site& site, const Feature& feature, Page& page) {
  Facts facts;
  add_fact(facts, "Kind", {plain(std::string{kind_words(feature.kind)})});
  add_fact(facts, "Unit", {plain(feature.unit)});
  if (feature.tolerance)
    add_fact(facts, "Tolerance",
             {plain(feature.kind == FeatureKind::colour
                        ? fmt::format("up to ΔE00 {:g}, unless the value says", *feature.tolerance)
                        : fmt::format("± {:g} {}, unless the value says", *feature.tolerance, feature.unit))});
  add_fact(facts, "What it takes", {plain(effort_words(feature))});
  add_fact(facts, "Id", {{feature.id, {}, true}});
  std::vector<Block> about{std::move(facts)};
  add_notes_and_evidence(site, feature.entry, about);
  add_section(page, "about", {}, std::move(about));
}

void add_look(const Site& site, const Feature& feature, Page& page) {
  std::vector<Block> look;
  add_text(site, feature.entry, "look", look);
  if (feature.destructive)
    look.emplace_back(Caution{"This look harms the part. It is described so that what others found by it can be "
                              "understood, and it is never proposed."});
  if (const std::string_view caution = site.kb().entries[feature.entry].text("caution"); !caution.empty())
    look.emplace_back(Caution{std::string{caution}});
  if (feature.tool == Tool::needle || feature.tool == Tool::solvent)
    look.emplace_back(
        Caution{"Fumes of heated plastic and of solvents harm: air the room, keep them from skin, flame and "
                "children."});
  add_section(page, "look", "How to look", std::move(look));
}

// Every value that it can have, those without words of their own too.
void add_values(const Site& site, const Feature& feature, Page& page) {
  const LinkedKb& kb = site.kb();
  Table table;
  table.caption = "Values of " + feature.name;
  table.columns = {{.text = {plain("Value")}}, {.text = {plain("How to recognise it")}}};
  std::vector<std::string> told;
  for (const EntryIndex child : site.backlinks().children[at(feature.entry)]) {
    const Entry& value = kb.entries[child];
    if (value.kind != Kind::feature_value) continue;
    told.push_back(value.id);
    Cell head{.text = {plain(value.text("name").empty() ? value.id : std::string{value.text("name")})}};
    if (auto pictures = pictures_of(site, child); !pictures.empty()) head.picture = std::move(pictures.front());
    Text look;
    for (const std::string_view key : {"look", "notes"})
      for (const Text& paragraph : paragraphs(value.text(key)).texts) {
        if (!look.empty()) look.push_back(plain(" "));
        append(look, paragraph);
      }
    table.rows.push_back({std::move(head), {.text = std::move(look)}});
  }
  for (const std::string& value : feature.values)
    if (std::ranges::find(told, value) == told.end()) table.rows.push_back({{.text = {plain(value)}}, {}});
  std::vector<Block> blocks;
  if (std::vector<Picture> pictures = pictures_of(site, feature.entry); !pictures.empty())
    blocks.emplace_back(Plate{std::move(pictures)});
  if (!table.rows.empty()) blocks.emplace_back(std::move(table));
  add_section(page, "values", "Its values", std::move(blocks));
}

// The figure or accessory that an entry is part of.
EntryIndex whole_of(const LinkedKb& kb, EntryIndex entry) {
  while (kb.entries[entry].parent != no_entry) entry = kb.entries[entry].parent;
  return entry;
}

// Within its figure or accessory: "Ring top, brass".
Piece short_link(const LinkedKb& kb, EntryIndex entry) {
  Piece piece = link_to(kb, entry);
  if (kb.entries[entry].kind == Kind::run) piece.text = run_name_of(kb, RunIndex{kb.position[at(entry)]});
  return piece;
}

// By figure or accessory, then by value.
void add_stated(const Site& site, FeatureIndex index, Page& page) {
  const LinkedKb& kb = site.kb();
  List list;
  EntryIndex whole = no_entry;
  for (const EntryIndex entry : site.backlinks().stating[at(index)]) {
    if (kb.address(entry).empty()) continue;
    if (whole_of(kb, entry) != whole) {
      whole = whole_of(kb, entry);
      list.groups.push_back({name_of(kb, whole), {}, {}});
    }
    const std::vector<StatedLook> looks = looks_of(site, entry);
    const StatedLook* look = find_look(looks, index);
    if (look == nullptr) continue;
    std::vector<List::Item>& items = list.groups.back().items;
    const std::string value = look_words(kb, *look);
    const auto same =
        std::ranges::find_if(items, [&](const List::Item& item) { return item.note.front().text == value; });
    if (same == items.end()) {
      items.push_back({{short_link(kb, entry)}, {plain(value)}});
    } else {
      same->text.push_back(plain(", "));
      same->text.push_back(short_link(kb, entry));
    }
  }
  if (list.groups.empty())
    add_section(page, "stated", "What states it", {paragraphs("Nothing on record states it.")});
  else
    add_section(page, "stated", "What states it", {std::move(list)});
}

} // namespace

void build_feature(const Site& site, const PlannedPage& planned, Page& page) {
  const LinkedKb& kb = site.kb();
  const FeatureIndex index{kb.position[at(planned.entry)]};
  const Feature& feature = kb.features[at(index)];
  page.eyebrow = singular_of(Kind::feature);
  page.summary = fmt::format("{}: how to look, what its values are, and what states it.", feature.name);
  add_about(site, feature, page);
  add_look(site, feature, page);
  add_values(site, feature, page);
  add_stated(site, index, page);
}

} // namespace coeval
