// Does a page hold what it says, as text and as nothing else?
#include <catch2/catch.hpp>

#include <regex>
#include <thread>

#include "html/feeds.hpp"
#include "sample.hpp"

using namespace coeval;

namespace {

std::string rendered(const Page& page, const RenderOptions& options = {}) {
  return render_page(*sample_templates(), page, options);
}

bool holds(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

std::size_t count(const std::string& text, std::string_view part) {
  std::size_t times = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++times;
  return times;
}

// The names of all tags in order, with their attributes' names: what a page is but for its texts.
std::vector<std::string> structure(const std::string& html) {
  std::vector<std::string> tags;
  for (std::size_t at = html.find('<'); at != std::string::npos; at = html.find('<', at + 1)) {
    std::string tag;
    bool quoted = false;
    for (std::size_t i = at + 1; i < html.size() && (quoted || html[i] != '>'); ++i) {
      if (html[i] == '"') quoted = !quoted;
      if (!quoted && html[i] != '"') tag += html[i];
    }
    tags.push_back(tag);
  }
  return tags;
}

Page page_of(PageKind kind, std::vector<Section> sections) {
  Page page;
  page.kind = kind;
  page.path = "figures/keeper-maren.html";
  page.title = "Keeper Maren";
  page.sections = std::move(sections);
  return page;
}

Section paragraph(std::string slot, Text text) { return {std::move(slot), "", {}, {Paragraphs{{std::move(text)}}}}; }

} // namespace

TEST_CASE("every kind of page is rendered with every kind of block") {
  for (const PageKindSpec& spec : page_kinds()) {
    INFO(spec.name);
    const std::string html = rendered(sample_page(spec.kind));
    for (const char* part :
         {"<h1>Signal lantern</h1>", "At least 13 months", "ring-top was in the press until 1979-06 or later",
          "class=\"swatch\"", "data-tool=\"checker\"", "data-tool=\"search\"", "id=\"couplet-2\"", "type=\"checkbox\"",
          "<p class=\"caution\">", "id=\"sign-no-place\"", "url(#hatch)", "id=\"hatch\"", "The same in words"})
      CHECK(holds(html, std::string_view{part} == "At least 13 months" ? "at least 13 months too late" : part));
    CHECK(html.size() < 100'000);
    CHECK_FALSE(holds(html, "<slot"));
    CHECK_FALSE(holds(html, "data-if-filled"));
    CHECK_FALSE(holds(html, " style="));
    CHECK(count(html, "<script") == 2); // one file, and the data of JSON-LD
  }
}

TEST_CASE("a slot without sections vanishes with its wrapper") {
  const std::string bare = rendered(page_of(PageKind::figure, {paragraph("when", {{"then", "", false}})}));
  CHECK_FALSE(holds(bare, "class=\"opening\""));
  CHECK_FALSE(holds(bare, "class=\"more\""));
  CHECK_FALSE(holds(bare, "class=\"crumbs\""));
  CHECK_FALSE(holds(bare, "class=\"eyebrow\""));
  CHECK_FALSE(holds(bare, "<symbol"));
  CHECK(holds(bare, "<p>then</p>"));
  const std::string text_only = rendered(page_of(PageKind::figure, {paragraph("about", {{"what", "", false}})}));
  CHECK(holds(text_only, "class=\"opening\""));
  CHECK_FALSE(holds(text_only, "class=\"opening-plate\""));
  CHECK_THROWS_AS(rendered(page_of(PageKind::figure, {paragraph("outfit", {})})), std::logic_error);
}

TEST_CASE("a part of a verdict that says nothing leaves nothing behind") {
  Page page = page_of(PageKind::figure, {{"about", "", {}, {EvidenceBlock{{Basis::observed, {}, {}, false}}}}});
  CHECK_FALSE(holds(rendered(page), "class=\"dispute\""));
  CHECK_FALSE(holds(rendered(page), "class=\"sources\""));
  std::get<EvidenceBlock>(page.sections[0].blocks[0]).evidence.disputed = true;
  CHECK(holds(rendered(page), "<span class=\"dispute\"> disputed</span>"));
}

TEST_CASE("text is never markup, whatever it holds") {
  const std::vector<std::string> plain = structure(rendered(hostile_page("harmless text")));
  const std::vector<std::string> hostile{"<script>alert(1)</script>",
                                         "\"><img src=x onerror=alert(1)>",
                                         "' onmouseover='alert(1)",
                                         "</title></style></textarea><b>",
                                         "<!-- --><![CDATA[ ]]>",
                                         "javascript:alert(1)",
                                         "data:text/html;base64,PHNjcmlwdD4=",
                                         "&lt;script&gt;&#60;b&#62;",
                                         "${alert(1)}{{7*7}}`",
                                         "</script><script>alert(1)</script>",
                                         std::string("\0\x01\x1b[31m", 7),
                                         "\xFF\xFE not UTF-8",
                                         "\xE2\x80\xAEgnp.exe\xE2\x80\xAC",
                                         "e\xCC\x81\xCC\x81\xCC\x81",
                                         std::string(10'000, 'x') + " ",
                                         std::string(10'000, '<')};
  for (const std::string& text : hostile) {
    INFO(text.substr(0, 80));
    const std::string html = rendered(hostile_page(text));
    CHECK(structure(html) == plain);
    CHECK_FALSE(holds(html, "href=\"javascript"));
    CHECK_FALSE(holds(html, "href=\"data:"));
  }
  // What runs from right to left is set apart, and nothing else changes.
  std::vector<std::string> apart = structure(rendered(hostile_page("שלום <b> עולם")));
  std::erase_if(apart, [](const std::string& tag) { return tag == "bdi" || tag == "/bdi"; });
  CHECK(apart == plain);
  CHECK(structure(rendered(hostile_page("<b>"))) == plain);
}

TEST_CASE("a step that is backed as one before it says so once more in two words") {
  const Step one{
      "the top carries a ring", Basis::observed, {{{"survey", "sources/survey.html", false}}}, {"a.toml:3", "", true}};
  Step other = one;
  other.statement = "the ring is brass";
  const Step bare{"a run lies within the use of its mould", {}, {}, {}};
  const PointView point{"then", {"1976-08-01", Basis::observed, {one, other, bare, bare}}, {}};
  const std::string html = rendered(page_of(PageKind::figure, {{"when", "", {}, {Bounds{{{"made", point, point}}}}}}));
  CHECK(count(html, "the top carries a ring") == 2);
  CHECK(count(html, "the ring is brass") == 2);
  CHECK(count(html, ">survey</a>") == 1);
  CHECK(count(html, "<a href=\"#s1\">as above</a>") == 3);
  CHECK(count(html, "id=\"s1\"") == 1);
  CHECK(count(html, "by definition") == 4);
}

TEST_CASE("data for search engines cannot end its element") {
  Page page = page_of(PageKind::figure, {});
  page.json_ld = R"({"name": "</script><script>alert(1)</script><!--"})";
  const std::string html = rendered(page);
  CHECK(count(html, "<script") == 2);
  CHECK(holds(html, R"({"name": "\u003c/script\u003e\u003cscript\u003ealert(1)\u003c/script\u003e\u003c!--"})"));
}

TEST_CASE("links are relative to the page, and those to elsewhere say so") {
  const Text text{{"run", "accessories/lantern/ring-top/brass.html#made", false},
                  {"here", "figures/keeper-maren.html#hand", false},
                  {"elsewhere", "https://example.org/?a=1&b=2", false},
                  {"nowhere", "javascript:alert(1)", false},
                  {"up", "../../x.html", false}};
  const std::string html = rendered(page_of(PageKind::figure, {paragraph("about", text)}));
  CHECK(holds(html, "<a href=\"../accessories/lantern/ring-top/brass.html#made\">run</a>"));
  CHECK(holds(html, "<a href=\"#hand\">here</a>"));
  CHECK(holds(html, "<a href=\"https://example.org/?a=1&amp;b=2\" rel=\"external noopener noreferrer "
                    "nofollow\">elsewhere</a>nowhereup"));
  CHECK(holds(html, "href=\"../styles/site.css\""));
  CHECK(holds(html, "src=\"../scripts/site.js\""));
  CHECK(holds(html, "data-root=\"../\""));
  CHECK(holds(html, "href=\"#content\""));
}

TEST_CASE("a page that stands for any missing one counts its paths from the site's address") {
  Page page = page_of(PageKind::not_found, {paragraph("intro", {{"home", "index.html", false}})});
  page.path = "404.html";
  RenderOptions options;
  CHECK(holds(rendered(page, options), "<a href=\"index.html\">home</a>"));
  options.base_url = "https://example.org/reference/";
  CHECK(holds(rendered(page, options), "<a href=\"https://example.org/reference/index.html\">home</a>"));
  CHECK_FALSE(holds(rendered(page, options), "canonical"));
}

TEST_CASE("the head names the page, its policy and its address") {
  RenderOptions options;
  options.base_url = "https://example.org/reference/";
  options.site_name = "Saltmere Patrol";
  const std::string html = rendered(sample_page(PageKind::accessory), options);
  CHECK(html.starts_with("<!DOCTYPE html>\n<html lang=\"en\""));
  CHECK(holds(html, "<title>Signal lantern – Saltmere Patrol</title>"));
  CHECK(holds(html, "<link rel=\"canonical\" href=\"https://example.org/reference/accessories/signal-lantern.html\">"));
  const std::size_t policy = html.find(
      "http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; script-src 'self'; style-src 'self';");
  REQUIRE(policy != std::string::npos);
  CHECK(policy < html.find("<link"));
  CHECK(policy < html.find("<script"));
  CHECK(html.find("<meta charset=\"utf-8\">") < 1024);
}

TEST_CASE("an id is on a page once, and the page itself is marked in the contents") {
  Page page = page_of(PageKind::index_of, {{"intro", "hand", {{"One", "", false}}, {}},
                                           {"list", "hand", {{"Two", "", false}}, {}},
                                           {"more", "not an id", {{"Three", "", false}}, {}}});
  page.path = "figures.html";
  const std::string html = rendered(page);
  CHECK(count(html, "id=\"hand\"") == 1);
  CHECK_FALSE(holds(html, "not an id"));
  CHECK(count(html, "href=\"figures.html\" aria-current=\"page\"") == 2);
  CHECK(count(html, "aria-current") == 2);
  std::set<std::string> ids;
  const std::string sample = rendered(sample_page(PageKind::accessory));
  const std::regex id{" id=\"([^\"]*)\""};
  for (std::sregex_iterator found{sample.begin(), sample.end(), id}, end; found != end; ++found)
    CHECK(ids.insert((*found)[1]).second);
  CHECK(ids.size() > 20);
}

TEST_CASE("pictures bring their size and text, and one that is missing its text") {
  Page page =
      page_of(PageKind::figure,
              {{"plate", "", {}, {Plate{{{"drawings/a.svg", "a \"lantern\"", "", {}}, {"b.svg", "gone", "", {}}}}}}});
  RenderOptions options;
  options.picture = [](const std::string& file) {
    return file == "b.svg" ? PublishedPicture{} : PublishedPicture{"data/kb/" + file, 24, 18};
  };
  const std::string html = rendered(page, options);
  CHECK(holds(html, "<img src=\"../data/kb/drawings/a.svg\" alt=\"a &quot;lantern&quot;\" width=\"24\" height=\"18\" "
                    "loading=\"lazy\">"));
  CHECK(holds(html, "<span class=\"no-picture\">gone</span>"));
}

TEST_CASE("the same page gives the same bytes, from any thread") {
  const Page page = sample_page(PageKind::accessory);
  const std::string expected = rendered(page);
  std::vector<std::string> results(4);
  std::vector<std::thread> threads;
  for (std::string& result : results)
    threads.emplace_back([&page, &result] {
      for (int i = 0; i < 5; ++i) result = rendered(page);
    });
  for (std::thread& thread : threads) thread.join();
  for (const std::string& result : results) CHECK(result == expected);
}

// The primaries and the grey of sRGB in CIELAB under D65, as they are widely printed; from memory.
TEST_CASE("a colour of CIELAB is shown as sRGB has it") {
  CHECK(srgb_of({100, 0, 0}) == "#ffffff");
  CHECK(srgb_of({0, 0, 0}) == "#000000");
  CHECK(srgb_of({53.2408, 80.0925, 67.2032}) == "#ff0000");
  CHECK(srgb_of({87.7347, -86.1827, 83.1793}) == "#00ff00");
  CHECK(srgb_of({32.2970, 79.1875, -107.8602}) == "#0000ff");
  CHECK(srgb_of({53.5850, 0, 0}) == "#808080");
  CHECK(srgb_of({100, 200, 200}).size() == 7);
}

TEST_CASE("feeds are XML with the texts as texts") {
  CHECK(sitemap_xml({{"index.html", ""}}, "").empty());
  CHECK(sitemap_xml({{"index.html", ""}, {"figures.html", "2026-11-25"}}, "https://example.org/r/") ==
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<urlset "
        "xmlns=\"http://www.sitemaps.org/schemas/sitemap/0.9\"><url><loc>https://example.org/r/</loc></url>"
        "<url><loc>https://example.org/r/figures.html</loc><lastmod>2026-11-25</lastmod></url></urlset>\n");
  Feed feed;
  feed.title = "Changes <b>";
  feed.entries = {{"2026-11", "One & two", "2026-11-01", "changes.html", "<script>"}};
  const std::string atom = atom_xml(feed);
  CHECK(holds(atom, "<title>Changes &lt;b&gt;</title>"));
  CHECK(holds(atom, "<title>One &amp; two</title>"));
  CHECK(holds(atom, "<updated>2026-11-01T00:00:00Z</updated>"));
  CHECK(std::regex_search(
      atom, std::regex{"<id>urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}</id>"}));
  CHECK(atom_xml(feed) == atom);
  const std::string manifest = webmanifest({"Saltmere \"Patrol\"", "", "", {{"icons/icon.svg", "any"}}});
  CHECK(holds(manifest, R"("name": "Saltmere \"Patrol\"")"));
  CHECK(holds(manifest, R"("src": "icons/icon.svg")"));
}
