#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "in_memory_kb.hpp"
#include "pages/site.hpp"

namespace {

using namespace coeval;
using Json = nlohmann::json;

constexpr std::string_view text = R"(
[line]
id = "patrol"
name = "Patrol </script><script>alert(1)</script> & <!--"
slots = ["hand"]
[line.leftover]
at-most = "P9M"
[[source]]
id = "log"
title = "Log"
kind = "book"
published = "1980"
[[source]]
id = "letter"
title = "Letter"
kind = "correspondence"
published = "1980~"
[[plant]]
id = "cork"
name = "Cork works"
country = "ie"
[[period]]
id = "first"
name = "First"
dates = "1976-01-01/1977-12-31"
[[claim]]
id = "early"
says = "It was early."
standing = "open"
source = ["log p. 1"]
)";

constexpr std::string_view figure = R"(
[figure]
id = "maren"
name = "Maren"
[[issue]]
id = "first"
market = ["ie"]
packed = "1976-02-01/1976-12-31"
[[issue.takes]]
accessory = "lantern"
)";

constexpr std::string_view accessory = R"(
[accessory]
id = "lantern"
name = "Lantern"
slot = "hand"
[[mould]]
id = "ring"
[[mould.run]]
id = "brass"
material = "styrene"
)";

struct Published {
  in_memory::Kb kb{
      {{"a.toml", std::string{text}}, {"f.toml", std::string{figure}}, {"l.toml", std::string{accessory}}}};
  Site site;

  explicit Published(std::string base = {}) : site({kb.kb, kb.dates, kb.sources, {std::move(base), "2026-01-02", {}}}) {
    REQUIRE(kb.troubles().empty());
  }
  [[nodiscard]] Json of(std::string_view path) const {
    for (const PlannedPage& planned : site.pages())
      if (planned.path == path) return Json::parse(site.page(planned).json_ld);
    FAIL("no page " << path);
    return {};
  }
};

TEST_CASE("the JSON-LD of every page parses, has the context of schema.org and cannot end a script element") {
  const Published published{"https://example.org/ref/"};
  std::size_t pages = 0;
  for (const PlannedPage& planned : published.site.pages()) {
    const Page page = published.site.page(planned);
    INFO(page.path);
    if (planned.kind == PageKind::not_found) {
      CHECK(page.json_ld.empty());
      continue;
    }
    ++pages;
    const Json json = Json::parse(page.json_ld);
    CHECK(json.at("@context") == "https://schema.org");
    const Json& main = json.at("@graph").at(0);
    CHECK(main.at("@type").is_string());
    CHECK(main.at("name") == page.title);
    CHECK(main.at("url").get<std::string>().starts_with("https://example.org/ref/"));
    CHECK(main.at("@id") == main.at("url"));
    if (planned.kind != PageKind::home) CHECK(json.at("@graph").at(1).at("@type") == "BreadcrumbList");
  }
  CHECK(pages > 30);
}

TEST_CASE("without an address of its own the site's JSON-LD is relative") {
  const Published published;
  const Json main = published.of("figures/maren.html").at("@graph").at(0);
  CHECK(main.at("url") == "figures/maren.html");
  CHECK_FALSE(main.contains("@id"));
}

TEST_CASE("pages say what they are of, in terms that are true of it") {
  const Published published{"https://example.org/"};
  const Json home = published.of("index.html").at("@graph").at(0);
  CHECK(home.at("@type") == "WebSite");
  CHECK(home.at("url") == "https://example.org/");
  CHECK(home.at("dateModified") == "2026-01-02");
  const Json issue = published.of("figures/maren/first.html").at("@graph").at(0);
  CHECK(issue.at("about").at("@type") == "ProductModel");
  CHECK(issue.at("about").at("productID") == "maren/first");
  CHECK(issue.at("about").at("isVariantOf").at("url") == "https://example.org/figures/maren.html");
  CHECK(issue.at("temporalCoverage") == "1976-02-01/1976-12-31");
  CHECK(published.of("accessories/lantern/ring/brass.html").at("@graph").at(0).at("about").at("material") == "styrene");
  CHECK(published.of("sources/log.html").at("@graph").at(0).at("about") ==
        Json{{"@type", "Book"}, {"name", "Log"}, {"datePublished", "1980"}});
  CHECK_FALSE(published.of("sources/letter.html").at("@graph").at(0).at("about").contains("datePublished"));
  CHECK(published.of("plants/cork.html").at("@graph").at(0).at("about").at("address").at("addressCountry") == "IE");
  CHECK(published.of("markets/ie.html").at("@graph").at(0).at("about") ==
        Json{{"@type", "Country"}, {"identifier", "IE"}});
  const Json claim = published.of("claims/early.html").at("@graph").at(0).at("about");
  CHECK(claim.at("@type") == "Claim");
  CHECK(claim.at("appearance").size() == 1);
  const Json data = published.of("data.html").at("@graph").at(0);
  CHECK(data.at("@type") == "Dataset");
  CHECK(data.at("distribution").at(0).at("contentUrl") == "https://example.org/data/kb.json");
  const Json crumbs = published.of("figures/maren/first.html").at("@graph").at(1).at("itemListElement");
  REQUIRE(crumbs.size() == 4);
  CHECK(crumbs.at(0).at("item") == "https://example.org/");
  CHECK(crumbs.at(3).at("name") == "Maren, first");
  CHECK(crumbs.at(3).at("position") == 4);
}

} // namespace
