// The page of a source: what it is, where it can be read, and everything that rests on it.
#include <algorithm>

#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/tell.hpp"

namespace coeval {
namespace {

// The places in the source that an entry cites: "vol. 6 p. 11; p. 14".
std::string places_cited(const Entry& entry, std::string_view source) {
  std::string places;
  for (const Word& citation : *entry.get<Words>("source")) {
    const std::size_t space = std::min(citation.text.find(' '), citation.text.size());
    if (citation.text.substr(0, space) != source || space == citation.text.size()) continue;
    places += (places.empty() ? "" : "; ") + citation.text.substr(space + 1);
  }
  return places;
}

// What kind of statement an entry is, where entries of its kind have no plural of their own.
std::string heading_of(Kind kind) {
  switch (kind) {
  case Kind::takes:
    return "Outfits";
  case Kind::timing:
    return "Orders in time";
  case Kind::leftover:
    return "Limits of stock";
  case Kind::exclusive:
    return "Reserved runs";
  default:
    return plural_of(kind);
  }
}

List everything_on(const Site& site, SourceIndex source) {
  const LinkedKb& kb = site.kb();
  const std::string& id = kb.sources[at(source)].id;
  List list;
  for (const KindSpec& spec : schema()) {
    List::Group group;
    for (const EntryIndex citing : site.backlinks().citing[at(source)]) {
      const Entry& entry = kb.entries[citing];
      if (entry.kind != spec.kind) continue;
      std::string note = places_cited(entry, id);
      if (spec.find("basis") != nullptr)
        note += fmt::format("{}{}", note.empty() ? "" : "; ", name(evidence_of(kb.entries, citing).basis));
      if (entry.flag("disputed")) note += "; disputed";
      group.items.push_back({statement_of(site, citing), {plain(std::move(note))}});
    }
    if (group.items.empty()) continue;
    group.title = fmt::format("{} ({})", heading_of(spec.kind), group.items.size());
    group.anchor = spec.name;
    list.groups.push_back(std::move(group));
  }
  return list;
}

} // namespace

void build_source(const Site& site, const PlannedPage& planned, Page& page) {
  const LinkedKb& kb = site.kb();
  const SourceIndex source{kb.position[at(planned.entry)]};
  const Entry& entry = kb.entries[planned.entry];
  const std::size_t count = site.backlinks().citing[at(source)].size();
  std::string kind{entry.text("kind")};
  std::replace(kind.begin(), kind.end(), '-', ' ');
  page.eyebrow = singular_of(Kind::source);
  page.summary = fmt::format("{} ({}), and the {} {} that rest on it.", page.title, kind, count,
                             count == 1 ? "statement" : "statements");

  Facts facts;
  add_fact(facts, "Kind", {plain(std::move(kind))});
  add_fact(facts, "Author", {plain(std::string{entry.text("author")})});
  if (const auto* published = entry.get<WrittenDate>("published"))
    add_fact(facts, "Published", {plain(published->text)});
  if (const std::string url{entry.text("url")}; !url.empty()) add_fact(facts, "To be read at", {{url, url, false}});
  if (const auto* seen = entry.get<WrittenDate>("seen")) add_fact(facts, "Seen", {plain(seen->text)});
  add_fact(facts, "Held by", {plain(std::string{entry.text("held-by")})});
  add_fact(facts, "Cited as", {{entry.id, {}, true}});
  if (entry.place.known()) add_fact(facts, "Entered at", {place(site, entry.place)});
  std::vector<Block> about{std::move(facts)};
  add_text(site, planned.entry, "notes", about);
  add_section(page, "about", {}, std::move(about));

  if (List list = everything_on(site, source); !list.groups.empty())
    add_section(page, "rests", "What rests on it", {std::move(list)}, "rests");
  else
    add_section(page, "rests", "What rests on it", {Paragraphs{{{plain("Nothing cites it yet.")}}}}, "rests");
}

} // namespace coeval
