// The single-file edition: ids and links of many pages in one document, and a policy that allows what is in it alone.
#include <catch2/catch.hpp>

#include <map>
#include <set>

#include <pugixml.hpp>

#include "html/data_uri.hpp"
#include "html/one_file.hpp"
#include "html/parts.hpp"
#include "html/relocate.hpp"
#include "html/sha256.hpp"
#include "sample.hpp"

using namespace coeval;

namespace {

constexpr std::string_view lantern = "<svg xmlns=\"http://www.w3.org/2000/svg\">\n  <path d=\"M0 0\"/>\n</svg>\n";

std::string picture(const std::string&) { return std::string{lantern}; }

// One page of each kind, the home page first, as in a site.
std::vector<Page> sample_pages() {
  std::vector<Page> pages;
  for (const PageKindSpec& spec : page_kinds()) {
    Page page = sample_page(spec.kind);
    page.path = spec.kind == PageKind::home ? "index.html" : "things/" + std::string{spec.name} + ".html";
    pages.push_back(std::move(page));
  }
  return pages;
}

std::string rendered(const std::vector<Page>& pages, const RenderOptions& options = {},
                     const std::string& index = R"({"texts": ["</script><script>alert(1)</script>"]})") {
  return render_one_file(*sample_templates(), pages, index, options, picture);
}

// Every value of an attribute, as it is written.
std::vector<std::string> values(const std::string& html, const std::string& attribute) {
  std::vector<std::string> all;
  const std::string start = " " + attribute + "=\"";
  for (std::size_t at = html.find(start); at != std::string::npos; at = html.find(start, at)) {
    at += start.size();
    all.push_back(html.substr(at, html.find('"', at) - at));
  }
  return all;
}

// What stands between the tags of the one element that starts so.
std::string inside(const std::string& html, const std::string& start, const std::string& end) {
  const std::size_t begin = html.find(start);
  REQUIRE(begin != std::string::npos);
  const std::size_t after = begin + start.size();
  return html.substr(after, html.find(end, after) - after);
}

// The document without its style sheet and script, whose texts are no markup.
std::string markup(std::string html) {
  for (const auto& [start, end] : {std::pair{"<style>", "</style>"}, std::pair{"<script>", "</script>"}}) {
    const std::size_t begin = html.find(start);
    if (begin != std::string::npos) html.erase(begin, html.find(end, begin) - begin);
  }
  return html;
}

// How often each tag is there, "/p" for end tags.
std::map<std::string, int> tags(const std::string& html) {
  std::map<std::string, int> all;
  for (std::size_t at = html.find('<'); at != std::string::npos; at = html.find('<', at + 1))
    ++all[html.substr(at + 1, html.find_first_of(" >", at) - at - 1)];
  return all;
}

} // namespace

TEST_CASE("one file: every id is there once, and everything that refers to one finds it") {
  const std::string html = markup(rendered(sample_pages()));
  std::set<std::string> ids;
  for (const std::string& id : values(html, "id")) {
    INFO(id);
    CHECK(ids.insert(id).second);
  }
  CHECK(ids.contains("index.html"));
  CHECK(ids.contains("things/figure.html"));
  CHECK(ids.size() > 100);
  std::size_t links = 0;
  for (const std::string& to : values(html, "href")) {
    INFO(to);
    if (to.starts_with("http")) continue;
    REQUIRE(to.starts_with("#"));
    CHECK(ids.contains(to.substr(1)));
    ++links;
  }
  CHECK(links > 100);
  std::size_t references = 0;
  for (const char* attribute : {"aria-labelledby", "aria-describedby", "for", "headers", "aria-controls"})
    for (const std::string& id : values(html, attribute)) {
      INFO(attribute << " " << id);
      CHECK(ids.contains(id));
      ++references;
    }
  CHECK(references > 10);
  for (const std::string& fill : values(html, "fill"))
    if (fill.starts_with("url(#")) CHECK(ids.contains(fill.substr(5, fill.size() - 6)));
}

TEST_CASE("one file: one document with an article for each page but that for missing ones") {
  const std::vector<Page> pages = sample_pages();
  const std::string html = markup(rendered(pages));
  std::size_t articles = 0;
  for (const Page& page : pages) {
    const bool there = html.find("<article class=\"page\" id=\"" + page.path + "\">") != std::string::npos;
    INFO(page.path);
    CHECK(there == (page.kind != PageKind::not_found));
    articles += there ? 1 : 0;
  }
  CHECK(articles == page_kinds().size() - 1);
  CHECK(tags(html)["main"] == 1);
  CHECK(tags(html)["h1"] == static_cast<int>(articles) + 1); // and that of the statements
  for (const char* none :
       {"<link", " src=\"scripts", " src=\"styles", "application/ld+json", "class=\"drawing wide\""}) {
    INFO(none);
    CHECK(html.find(none) == std::string::npos);
  }
  CHECK(html.find("class=\"drawing narrow\"") != std::string::npos);
}

TEST_CASE(
    "one file: the policy allows its own style sheet and script by their hashes, data: pictures, and nothing else") {
  const std::string html = rendered(sample_pages());
  const std::string style = inside(html, "<style>", "</style>");
  const std::string script = inside(html, "<script>", "</script>");
  CHECK(style.size() > 1000);
  CHECK(script.find("coeval") != std::string::npos);
  const std::string policy = inside(html, "http-equiv=\"Content-Security-Policy\" content=\"", "\"");
  CHECK(policy == "default-src 'none'; script-src " + policy_hash(script) + "; style-src " + policy_hash(style) +
                      "; img-src data:; base-uri 'none'; form-action 'none'");
  for (const std::string& source : values(markup(html), "src")) CHECK(source.starts_with("data:image/svg+xml"));
  CHECK(markup(html).find(" style=\"") == std::string::npos);
}

TEST_CASE("one file: the index is whole, and cannot end its element") {
  const std::string html = rendered(sample_pages());
  const std::string index = inside(html, "<script type=\"application/json\" id=\"reader-index\">", "</script>");
  CHECK(index == R"({"texts": ["\u003c/script\u003e\u003cscript\u003ealert(1)\u003c/script\u003e"]})");
}

TEST_CASE("one file: hostile texts stay text") {
  const std::string plain = markup(rendered({sample_page(PageKind::home), hostile_page("plain words")}));
  for (const std::string text :
       {"</article></main><script>alert(1)</script>", "\"><img src=x onerror=alert(1)>", "' onload='alert(1)",
        "</style><style>*{display:none}", "<!-- ", "javascript:alert(1)", "#\" id=\"index.html"}) {
    INFO(text);
    const std::string html = markup(rendered({sample_page(PageKind::home), hostile_page(text)}));
    std::map<std::string, int> difference = tags(plain);
    for (const auto& [tag, count] : tags(html)) difference[tag] -= count;
    // A hostile target is no link, and where it is none there is no <a>; nothing else may come or go.
    for (const auto& [tag, count] : difference) {
      INFO(tag);
      if (tag != "a" && tag != "/a") CHECK(count == 0);
    }
    for (const std::string& to : values(html, "href")) CHECK((to.starts_with("#") || to.starts_with("http")));
    for (const char* handler : {"onerror", "onload"}) CHECK(values(html, handler).empty());
  }
}

TEST_CASE("one file: the same pages give the same bytes") {
  CHECK(rendered(sample_pages()) == rendered(sample_pages()));
}

TEST_CASE("one file: links to files lead to the published site, or are none") {
  const std::vector<Page> pages{sample_page(PageKind::home)};
  const std::string alone = markup(rendered(pages));
  CHECK(alone.find("href=\"data/") == std::string::npos);
  CHECK(alone.find("saltmere/accessories/signal-lantern.toml:31") != std::string::npos);
  RenderOptions options;
  options.base_url = "https://example.org/reference/";
  CHECK(markup(rendered(pages, options))
            .find("href=\"https://example.org/reference/data/kb/saltmere/accessories/signal-lantern.toml\" "
                  "rel=\"external noopener noreferrer nofollow\"") != std::string::npos);
}

TEST_CASE("one file: a picture without bytes is told in words") {
  const std::string html =
      markup(render_one_file(*sample_templates(), {sample_page(PageKind::home)}, "{}", {}, nullptr));
  CHECK(html.find("<img") == std::string::npos);
  CHECK(html.find("class=\"no-picture\"") != std::string::npos);
}

TEST_CASE("one file: it begins with the home page") {
  CHECK_THROWS(render_one_file(*sample_templates(), {}, "{}", {}, picture));
  CHECK_THROWS(render_one_file(*sample_templates(), {sample_page(PageKind::figure)}, "{}", {}, picture));
}

TEST_CASE("relocate: ids and what refers to them say which page they mean") {
  Surroundings around;
  around.pages = {{"a/b.html", {"x", "y"}}, {"c.html", {"z"}}};
  around.shared = {"contents"};
  around.image = [](std::string_view path) { return "data:," + std::string{path}; };
  const auto moved = [&](std::string_view html) { return relocate(html, "a/b.html", around); };
  CHECK(moved("<p id=\"x\">x</p>") == "<p id=\"a/b.html:x\">x</p>");
  CHECK(moved("<a href=\"#y\">y</a>") == "<a href=\"#a/b.html:y\">y</a>");
  CHECK(moved("<a href=\"#none\">y</a>") == "<a href=\"#a/b.html\">y</a>");
  CHECK(moved("<a href=\"#contents\">y</a>") == "<a href=\"#contents\">y</a>");
  CHECK(moved("<a href=\"c.html\">y</a>") == "<a href=\"#c.html\">y</a>");
  CHECK(moved("<a href=\"c.html#z\">y</a>") == "<a href=\"#c.html:z\">y</a>");
  CHECK(moved("<a href=\"c.html#none\">y</a>") == "<a href=\"#c.html\">y</a>");
  CHECK(moved("<p><a href=\"d.toml\"><b>y</b></a></p>") == "<p><b>y</b></p>");
  CHECK(moved("<a href=\"https://example.org/\" rel=\"external\">y</a>") ==
        "<a href=\"https://example.org/\" rel=\"external\">y</a>");
  CHECK(moved("<i aria-labelledby=\"x y\"></i>") == "<i aria-labelledby=\"a/b.html:x a/b.html:y\"></i>");
  CHECK(moved("<use href=\"#sign-open\"></use>") == "<use href=\"#sign-open\"></use>");
  CHECK(moved("<img src=\"p.png\" alt=\"id=&quot;x&quot;\">") == "<img src=\"data:,p.png\" alt=\"id=&quot;x&quot;\">");
  CHECK(moved("<script>a<b id=\"x\"</script>") == "<script>a<b id=\"x\"</script>");
  CHECK(moved("a &lt;p id=\"x\"&gt;") == "a &lt;p id=\"x\"&gt;");
  CHECK(relocate("<p id=\"x\"><a href=\"c.html#z\">z</a>", {}, around) == "<p id=\"x\"><a href=\"#c.html:z\">z</a>");
}

TEST_CASE("ids of a piece of HTML") {
  CHECK(ids_in("<p id=\"x\">id=\"no\"</p><i class=\"k\" id=\"y\"></i><style>id=\"z\"</style>") == Ids{"x", "y"});
}

TEST_CASE("data: the shorter way to hold an SVG, and base64 for the rest") {
  CHECK(data_uri("a/lantern.svg", lantern) ==
        "data:image/svg+xml,%3Csvg%20xmlns='http://www.w3.org/2000/svg'%3E%3Cpath%20d='M0%200'/%3E%3C/svg%3E");
  CHECK(data_uri("a.svg", "<text>a\n  b</text>") == "data:image/svg+xml,%3Ctext%3Ea%20b%3C/text%3E");
  CHECK(data_uri("a.svg", "<<<<>>>>").starts_with("data:image/svg+xml;base64,"));
  CHECK(data_uri("a.png", "foobar") == "data:image/png;base64,Zm9vYmFy");
  CHECK(data_uri("a.webp", "f") == "data:image/webp;base64,Zg==");
  CHECK(data_uri("a.exe", "f") == "data:,");
}
