// Everything that cites a source is on the source's page, every dispute on the page of disputes, and lists are
// complete.
#include <map>
#include <set>

#include <catch2/catch.hpp>

#include "files/load.hpp"
#include "in_memory_kb.hpp"
#include "pages/site.hpp"
#include "verdicts/agenda.hpp"
#include "verdicts/disputes.hpp"

namespace {

using namespace coeval;

// The demo: large enough to hold every kind of citation.
struct Demo {
  Diagnostics out;
  LoadResult loaded = load_sources(std::filesystem::path{COEVAL_TEST_DATA} / "../../../kb", out);
  LinkedKb kb = link_entries(read_entries(loaded.sources, loaded.broken, out), true, out);
  Chronology dates = solve_chronology(kb);
  Site site{{kb, dates, loaded.sources, {}}};

  [[nodiscard]] Page page(std::string_view path) const {
    for (const PlannedPage& planned : site.pages())
      if (planned.path == path) return site.page(planned);
    FAIL("no page " << path);
    return {};
  }
};

const Demo& demo() {
  static const Demo the_demo;
  return the_demo;
}

std::size_t items_of(const Page& page, std::string_view slot) {
  std::size_t items = 0;
  for (const Section& section : page.sections)
    if (section.slot == slot)
      for (const Block& block : section.blocks)
        if (const auto* list = std::get_if<List>(&block))
          for (const List::Group& group : list->groups) items += group.items.size();
  return items;
}

std::set<std::string> links_of(const Page& page) {
  std::set<std::string> links;
  for (const Section& section : page.sections)
    for (const Block& block : section.blocks)
      if (const auto* list = std::get_if<List>(&block))
        for (const List::Group& group : list->groups)
          for (const List::Item& item : group.items)
            for (const Text& text : {item.text, item.note})
              for (const Piece& piece : text) links.insert(piece.to);
  return links;
}

TEST_CASE("the page of a source lists every entry that cites it") {
  const LinkedKb& kb = demo().kb;
  std::map<std::string, std::set<std::size_t>> citing;
  for (std::size_t i = 0; i < kb.entries.entries.size(); ++i)
    if (const auto* citations = kb.entries.entries[i].get<Words>("source"))
      for (const Word& citation : *citations) citing[citation.text.substr(0, citation.text.find(' '))].insert(i);
  REQUIRE(citing.size() > 20);
  for (const auto& [source, entries] : citing) {
    INFO(source);
    CHECK(items_of(demo().page("sources/" + source + ".html"), "rests") == entries.size());
  }
}

TEST_CASE("every disputed statement has a section of its own") {
  std::size_t disputed = 0;
  for (const Entry& entry : demo().kb.entries.entries) disputed += entry.flag("disputed") ? 1U : 0U;
  const Page page = demo().page("disputes.html");
  const auto sections = std::ranges::count(page.sections, "list", &Section::slot);
  CHECK(disputed > 0);
  CHECK(static_cast<std::size_t>(sections) == disputed);
}

TEST_CASE("the page of disputes tells what each contradicts and every verdict that would differ") {
  const Page page = demo().page("disputes.html");
  const std::vector<Dispute> disputes = disputes_of(demo().kb, demo().dates, Basis::conjectured);
  std::vector<const Section*> sections;
  for (const Section& section : page.sections)
    if (section.slot == "list") sections.push_back(&section);
  REQUIRE(sections.size() == disputes.size());
  std::size_t differing = 0;
  for (std::size_t i = 0; i < disputes.size(); ++i) {
    INFO(disputes[i].says.statement);
    std::size_t verdicts = 0;
    std::size_t statements = 0;
    for (const Block& block : sections[i]->blocks) {
      if (const auto* table = std::get_if<Table>(&block); table != nullptr && !table->rows.front()[1].text.empty())
        verdicts += table->rows.front()[1].verdict ? table->rows.size() : 0;
      if (const auto* list = std::get_if<List>(&block)) statements += list->groups.front().items.size();
    }
    std::size_t contradicted = 0;
    for (const DisputeConflict& conflict : disputes[i].conflicts) contradicted += conflict.statements.size();
    CHECK(verdicts == std::min<std::size_t>(disputes[i].verdicts.size(), 20));
    CHECK(statements == contradicted);
    if (!disputes[i].verdicts.empty()) ++differing;
  }
  CHECK(differing >= 2); // the demo shows what an argument is about
}

TEST_CASE("the page of the agenda tells every step of its first day, and where each verdict opens") {
  const Agenda agenda = agenda_of(demo().kb, demo().dates, Basis::conjectured);
  REQUIRE_FALSE(agenda.items.empty());
  const Page page = demo().page("agenda.html");
  const auto days = std::ranges::find(page.sections, "days", &Section::anchor);
  REQUIRE(days != page.sections.end());
  const auto& first = std::get<Details>(days->blocks.front());
  const AgendaItem& item = agenda.items.front();
  CHECK(first.summary.front().text.find(settles_words(item)) != std::string::npos);
  std::size_t steps = 0;
  std::size_t verdicts = 0;
  for (const Block& block : first.inside) {
    if (const auto* table = std::get_if<Table>(&block)) steps = table->rows.size();
    if (const auto* list = std::get_if<List>(&block); list != nullptr && verdicts == 0)
      verdicts = list->groups.front().items.size();
  }
  CHECK(steps == std::min<std::size_t>(item.steps.size(), 8));
  CHECK(verdicts == std::min<std::size_t>(item.pairs.size(), 8));
}

TEST_CASE("a list of a kind leads to every page of that kind") {
  const std::map<PageKind, std::string_view> lists{
      {PageKind::figure, "figures.html"},      {PageKind::accessory, "accessories.html"},
      {PageKind::repro, "reproductions.html"}, {PageKind::period, "periods.html"},
      {PageKind::card, "cards.html"},          {PageKind::plant, "plants.html"},
      {PageKind::route, "routes.html"},        {PageKind::mark, "marks.html"},
      {PageKind::feature, "features.html"},    {PageKind::claim, "claims.html"},
      {PageKind::source, "sources.html"},      {PageKind::market, "markets.html"}};
  std::map<PageKind, std::set<std::string>> links;
  for (const auto& [kind, path] : lists) links[kind] = links_of(demo().page(path));
  const std::set<std::string> names = links_of(demo().page("names.html"));
  std::size_t pages = 0;
  for (const PlannedPage& planned : demo().site.pages()) {
    INFO(planned.path);
    if (links.contains(planned.kind)) {
      ++pages;
      CHECK(links.at(planned.kind).contains(planned.path));
    }
    if (planned.kind == PageKind::figure || planned.kind == PageKind::issue || planned.kind == PageKind::run ||
        planned.kind == PageKind::repro || planned.kind == PageKind::mark)
      CHECK(names.contains(planned.path));
  }
  CHECK(pages > 200);
}

} // namespace
