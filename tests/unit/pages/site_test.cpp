// What must hold of every page, whoever builds it.
#include <catch2/catch.hpp>

#include "harbour.hpp"
#include "walk.hpp"

namespace coeval {
namespace {

std::string text_of(const Text& pieces) {
  std::string text;
  for (const Piece& piece : pieces) text += piece.text;
  return text;
}

TEST_CASE("the knowledge base of these tests is sound", "[pages]") {
  const harbour::Reference reference;
  CHECK(reference.kb().troubles().empty());
  CHECK(reference.kb().dates.contradictions().empty());
}

TEST_CASE("every section lands in a slot that its kind of page declares, and says something", "[pages]") {
  const harbour::Reference reference;
  for (const PlannedPage& planned : reference.site().pages()) {
    const Page page = reference.site().page(planned);
    const PageKindSpec& kind = page_kinds()[static_cast<std::size_t>(planned.kind)];
    CAPTURE(page.path, kind.name);
    CHECK(kind.kind == planned.kind);
    CHECK_FALSE(page.sections.empty());
    for (const Section& section : page.sections) {
      CAPTURE(section.slot, text_of(section.title));
      CHECK(std::ranges::find(kind.slots, section.slot, &SlotSpec::name) != kind.slots.end());
      CHECK_FALSE(section.blocks.empty());
    }
  }
}

TEST_CASE("every page says what it is", "[pages]") {
  const harbour::Reference reference;
  std::set<std::string> titles;
  for (const PlannedPage& planned : reference.site().pages()) {
    const Page page = reference.site().page(planned);
    CAPTURE(page.path);
    CHECK_FALSE(page.title.empty());
    CHECK_FALSE(page.summary.empty());
    CHECK(page.path == planned.path);
  }
}

TEST_CASE("every link of the site leads to a page, and to an anchor on it", "[pages]") {
  const harbour::Reference reference;
  std::map<std::string, walk::Found> found;
  for (const PlannedPage& planned : reference.site().pages())
    found.emplace(planned.path, walk::over(reference.site().page(planned)));
  std::size_t internal = 0;
  for (const auto& [path, page] : found) {
    for (const std::string& link : page.links) {
      CAPTURE(path, link);
      if (link.starts_with("http://") || link.starts_with("https://")) continue;
      if (link.starts_with("data/")) continue; // files, written beside the pages
      const std::size_t hash = std::min(link.find('#'), link.size());
      const auto target = found.find(link.substr(0, hash));
      ++internal;
      if (target == found.end()) {
        FAIL_CHECK("no page is there");
        continue;
      }
      if (hash < link.size())
        CHECK(std::ranges::find(target->second.anchors, link.substr(hash + 1)) != target->second.anchors.end());
    }
  }
  CHECK(internal > 100);
}

TEST_CASE("anchors are unique on their page and made of safe characters", "[pages]") {
  const harbour::Reference reference;
  std::size_t seen = 0;
  for (const PlannedPage& planned : reference.site().pages()) {
    std::set<std::string> anchors;
    for (const std::string& anchor : walk::over(reference.site().page(planned)).anchors) {
      CAPTURE(planned.path, anchor);
      ++seen;
      CHECK(anchors.insert(anchor).second);
      CHECK(anchor.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789.-") == std::string::npos);
    }
  }
  CHECK(seen > 5);
}

TEST_CASE("no page says that a part is authentic", "[pages]") {
  const harbour::Reference reference;
  for (const PlannedPage& planned : reference.site().pages())
    for (const std::string& text : walk::over(reference.site().page(planned)).texts) {
      const std::size_t word = text.find("uthentic");
      CAPTURE(planned.path, text);
      // "it never says that a part is authentic" is the one way in which the word may be used
      CHECK((word == std::string::npos || text.find("ever") != std::string::npos ||
             text.find("not") != std::string::npos));
    }
}

TEST_CASE("every table has a cell for each of its columns", "[pages]") {
  const harbour::Reference reference;
  std::size_t tables = 0;
  for (const PlannedPage& planned : reference.site().pages()) {
    const Page page = reference.site().page(planned);
    for (const Table* table : walk::blocks<Table>(page)) {
      ++tables;
      CAPTURE(page.path, table->caption);
      CHECK_FALSE(table->caption.empty());
      CHECK_FALSE(table->rows.empty());
      for (const auto& row : table->rows) CHECK(row.size() == table->columns.size());
    }
  }
  CHECK(tables > 10);
}

TEST_CASE("the same page is the same each time, and in any order", "[pages]") {
  const harbour::Reference one;
  const harbour::Reference other;
  const auto& pages = one.site().pages();
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const walk::Found forwards = walk::over(one.site().page(pages[i]));
    const walk::Found backwards = walk::over(other.site().page(other.site().pages()[i]));
    CAPTURE(pages[i].path);
    CHECK(forwards.texts == backwards.texts);
    CHECK(forwards.links == backwards.links);
  }
}

// Markup, scripts, odd Unicode, other directions, long names: texts stay what they are, character by character.
TEST_CASE("hostile text passes through as text", "[pages]") {
  const std::string hostile = "<script>alert(1)</script> & \"x' \xE2\x80\xAE rtl \xF0\x9F\x94\xA6 javascript:alert(1)";
  std::vector<SourceFile> texts = harbour::files();
  std::vector<SourceFile> changed;
  for (const SourceFile& file : texts) {
    std::string text{file.text()};
    const auto replace = [&](const std::string& from, const std::string& to) {
      for (std::size_t at_byte = text.find(from); at_byte != std::string::npos;
           at_byte = text.find(from, at_byte + to.size()))
        text.replace(at_byte, from.size(), to);
    };
    const std::string quoted = "'''" + hostile + "'''";
    for (const char* name :
         {"\"Lantern\"", "\"Maren\"", "\"Ring top\"", "\"First\"", "\"Top\"", "\"navy\"", "\"brass\" ,", "\"styrene\"",
          "\"keeper\"", "\"Held high.\"", "\"Sealed.\"", "\"Brass came first.\"", "\"Seen from the side.\"",
          "\"A closed loop.\"", "\"The log\"", "\"Cork\"", "\"resin\""})
      replace(name, quoted);
    changed.emplace_back(file.path(), std::move(text));
  }
  const harbour::Reference reference{changed};
  REQUIRE(reference.kb().troubles() == "");
  for (const auto& path : {"figures/maren.html", "figures/maren/first.html", "accessories/lantern.html",
                           "accessories/lantern/ring/brass.html", "reproductions/lantern/recast.html",
                           "features/top.html", "matrices/lantern.html", "keys/lantern.html",
                           "checklists/figures/maren.html", "checklists/lines/patrol.html"}) {
    const Page page = reference.page(path);
    const walk::Found found = walk::over(page);
    CAPTURE(path);
    const auto holds = [&](const std::string& text) { return text.find(hostile.substr(1)) != std::string::npos; };
    CHECK((std::ranges::any_of(found.texts, holds) || holds(page.title)));
    for (const std::string& link : found.links) {
      CAPTURE(link);
      CHECK(link.find('<') == std::string::npos);
      CHECK(link.find("javascript") == std::string::npos);
      CHECK(link.find("..") == std::string::npos);
    }
  }
}

} // namespace
} // namespace coeval
