// Do two pages have the same content exactly if they say the same?
#include <set>

#include <catch2/catch.hpp>

#include "harbour.hpp"
#include "pages/page_content.hpp"

using namespace coeval;

namespace {

Page with(Block block) {
  Page page;
  page.sections.push_back({"about", "", {}, {std::move(block)}});
  return page;
}

} // namespace

TEST_CASE("every page of a site has a content of its own, and the same each time") {
  const in_memory::Kb kb{harbour::files()};
  const Site site{{kb.kb, kb.dates, kb.sources, {}}};
  std::set<std::string> contents;
  for (const PlannedPage& planned : site.pages()) {
    INFO(planned.path);
    const std::string content = content_of(site.page(planned)).text;
    CHECK(content == content_of(site.page(planned)).text);
    CHECK(contents.insert(content).second);
  }
}

TEST_CASE("where one text ends and the next begins makes a difference") {
  CHECK(content_of(with(Paragraphs{{{{"ab", "", false}}}})).text !=
        content_of(with(Paragraphs{{{{"a", "b", false}}}})).text);
  CHECK(content_of(with(Paragraphs{{{{"a", "", false}, {"b", "", false}}}})).text !=
        content_of(with(Paragraphs{{{{"a", "", false}}, {{"b", "", false}}}})).text);
  CHECK(content_of(with(Legend{})).text != content_of(with(Checker{})).text);
  CHECK(content_of(with(Caution{"a"})).text != content_of(with(Details{{}, {Caution{"a"}}})).text);
}

TEST_CASE("what is not a text makes a difference too") {
  VerdictView view;
  const auto content = [&] { return content_of(with(Verdicts{{}, {view}})).text; };
  std::set<std::string> contents{content()};
  view.verdict = Verdict::stale;
  CHECK(contents.insert(content()).second);
  view.basis = Basis::documented;
  CHECK(contents.insert(content()).second);
  view.lab = {72.1, 6.0, 48.5};
  CHECK(contents.insert(content()).second);
  view.lab = {72.1, 6.0, 48.6};
  CHECK(contents.insert(content()).second);

  Drawing drawing;
  drawing.shapes = {Rectangle{Style::certain, 0, 0, 10, 4, 0}};
  const std::string narrow = content_of(with(DrawingBlock{drawing, {}, ""})).text;
  CHECK(narrow != content_of(with(DrawingBlock{{}, drawing, ""})).text);
  drawing.shapes = {Rectangle{Style::certain, 0, 0, 10, 4, 1}};
  CHECK(narrow != content_of(with(DrawingBlock{drawing, {}, ""})).text);
}

TEST_CASE("the pictures that a page shows are listed") {
  Cell cell;
  cell.picture = Picture{"b.svg", "", "", {}};
  Table table;
  table.columns = {cell};
  Page page = with(Plate{{{"a.svg", "", "", {}}}});
  page.sections.front().blocks.emplace_back(Details{{}, {table}});
  CHECK(content_of(page).pictures == std::vector<std::string>{"a.svg", "b.svg"});
}
