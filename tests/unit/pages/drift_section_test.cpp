// Does the page of changes tell what changed since an earlier version, by its cause and with links?
#include <catch2/catch.hpp>

#include "harbour.hpp"
#include "pages/drift_section.hpp"
#include "walk.hpp"

using namespace coeval;

namespace {

// The harbour, with the first text that holds `from` having `to` in its place.
std::vector<SourceFile> harbour_with(const std::string& from, const std::string& to) {
  std::vector<SourceFile> files;
  bool done = false;
  for (const SourceFile& file : harbour::files()) {
    std::string text{file.text()};
    if (const std::size_t at = text.find(from); at != std::string::npos && !done) {
      text.replace(at, from.size(), to);
      done = true;
    }
    files.emplace_back(file.path(), std::move(text));
  }
  REQUIRE(done);
  return files;
}

Page changes_since(const in_memory::Kb& before, const in_memory::Kb& after) {
  const Drift drift = drift_between({before.kb, before.dates, before.sources}, {after.kb, after.dates, after.sources},
                                    Basis::conjectured);
  const Site site{{after.kb, after.dates, after.sources, {}}};
  const auto planned = std::ranges::find(site.pages(), PageKind::changes, &PlannedPage::kind);
  Page page = site.page(*planned);
  add_drift(site, {"What changed since 2026-11-20", "since-1", drift, before.sources}, page);
  return page;
}

bool has(const std::vector<std::string>& list, const std::string& wanted) {
  return std::ranges::find(list, wanted) != list.end();
}

} // namespace

TEST_CASE("a cause is told with its edit, its place and what it changed, run and issue linked") {
  const in_memory::Kb before{harbour_with("made = \"1976-08-01/1978-12-31\"", "made = \"1976-08-01/1977-12-31\"")};
  const in_memory::Kb after{harbour::files()};
  const walk::Found found = walk::over(changes_since(before, after));
  CHECK(has(found.anchors, "since-1"));
  CHECK(has(found.texts, "What changed since 2026-11-20"));
  CHECK(has(found.texts, "lantern/ring/brass"));
  CHECK(has(found.texts, "\"1976-08-01/1977-12-31\""));
  CHECK(has(found.texts, "\"1976-08-01/1978-12-31\""));
  CHECK(has(found.links, "accessories/lantern/ring/brass.html"));
  CHECK(has(found.links, "figures/maren/second.html"));
  CHECK(std::ranges::any_of(found.links,
                            [](const std::string& link) { return link.starts_with("data/kb/accessory.toml"); }));
}

TEST_CASE("what is gone is named by its address, without a link that would lead nowhere") {
  const in_memory::Kb before{
      harbour_with("[[mould.run]]\nid = \"slate\"\n", "[[mould.run]]\nid = \"teal\"\n[[mould.run]]\nid = \"slate\"\n")};
  const in_memory::Kb after{harbour::files()};
  const Page page = changes_since(before, after);
  const walk::Found found = walk::over(page);
  CHECK(has(found.texts, "Gone"));
  CHECK(has(found.texts, "lantern/ring/teal"));
  CHECK(std::ranges::none_of(found.links, [](const std::string& link) { return link.find("teal") != link.npos; }));
}

TEST_CASE("without an earlier version the page tells of none") {
  const harbour::Reference reference;
  CHECK_FALSE(has(walk::over(reference.page("changes.html")).anchors, "since-1"));
}
