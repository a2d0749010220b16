// The page of names: everything that has one, from A to Z.
//
// Runs and issues stand in the note of what they belong to, so that one page holds all.
#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/paths.hpp"
#include "pages/tell.hpp"

namespace coeval {
namespace {

constexpr std::array named_kinds{Kind::figure, Kind::accessory, Kind::mould, Kind::repro,   Kind::period, Kind::card,
                                 Kind::plant,  Kind::route,     Kind::mark,  Kind::feature, Kind::source};

std::string anchor_of(const std::string& letter) {
  return letter == "#" ? "other" : std::string{"letter-"} + static_cast<char>(letter.front() - 'A' + 'a');
}

Text children_of(const Site& site, EntryIndex parent, Kind kind) {
  std::vector<Piece> pieces;
  for (const EntryIndex child : site.backlinks().children[at(parent)])
    if (site.kb().entries[child].kind == kind && !site.kb().address(child).empty())
      pieces.push_back(link_to(site.kb(), child));
  return enumerated(pieces);
}

List::Item item_of(const Site& site, EntryIndex index) {
  const LinkedKb& kb = site.kb();
  const Entry& entry = kb.entries[index];
  Text text{link_to(kb, index)};
  Text note;
  switch (entry.kind) {
  case Kind::figure:
    note = children_of(site, index, Kind::issue);
    break;
  case Kind::mould:
    note = {plain(name_of(kb, entry.parent) + (kb.moulds[kb.position[at(index)]].runs.empty() ? "" : ": "))};
    append(note, children_of(site, index, Kind::run));
    break;
  case Kind::repro:
    note = {plain("reproduction, " + name_of(kb, entry.parent))};
    break;
  case Kind::accessory:
    note = {plain(std::string{entry.text("slot")})};
    break;
  default:
    note = {plain(std::string{spec_of(entry.kind).name})};
    break;
  }
  return {std::move(text), std::move(note)};
}

} // namespace

void build_names(const Site& site, const PlannedPage&, Page& page) {
  const LinkedKb& kb = site.kb();
  std::vector<std::pair<std::string, EntryIndex>> names;
  for (std::size_t i = 0; i < kb.entries.entries.size(); ++i) {
    const EntryIndex index{static_cast<std::uint32_t>(i)};
    if (std::ranges::find(named_kinds, kb.entries.entries[i].kind) != named_kinds.end() && !kb.address(index).empty())
      names.emplace_back(sorting_key(name_of(kb, index)), index);
  }
  std::ranges::sort(names);
  std::map<std::string, std::vector<EntryIndex>> letters;
  for (const auto& [key, index] : names) letters[letter_of(name_of(kb, index))].push_back(index);

  page.title = "Names from A to Z";
  page.eyebrow = "Everything by name";
  page.summary = fmt::format("{} names, from figures and accessories to sources, from A to Z.", names.size());
  Text jumps;
  for (const auto& [letter, entries] : letters) {
    if (!jumps.empty()) jumps.push_back(plain(" "));
    jumps.push_back({letter, "names.html#" + anchor_of(letter), false});
  }
  add_section(page, "intro", {},
              {Paragraphs{{{plain("Issues stand with their figure, and runs with their mould.")}, std::move(jumps)}}});
  List list;
  for (const auto& [letter, entries] : letters) {
    List::Group group{letter == "#" ? "Other" : letter, anchor_of(letter), {}};
    for (const EntryIndex entry : entries) group.items.push_back(item_of(site, entry));
    list.groups.push_back(std::move(group));
  }
  if (!list.groups.empty()) add_section(page, "list", {}, {std::move(list)});
}

} // namespace coeval
