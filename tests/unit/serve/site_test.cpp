// Is the right page answered, as what it is, with the script that reloads it?
#include <catch2/catch.hpp>

#include "serve/site.hpp"

using namespace coeval;

namespace {

const PreviewSite site{{{"index.html", "<html><body><p>home</p></body></html>"},
                        {"figures/index.html", "<BODY>figures</BODY>"},
                        {"figures/keeper-maren.html", "no body is named"},
                        {"404.html", "<body>not here</body>"},
                        {"style.css", "body { color: black } /* </body> */"},
                        {"data/kb.json", "{}"}},
                       "7-1"};
const std::string script = R"(<script src="/-/reload.js?after=7-1" defer></script>)";

} // namespace

TEST_CASE("a page is found by its path, a folder by its index.html") {
  CHECK(site.answer("/").file.bytes == "<html><body><p>home</p>" + script + "</body></html>");
  CHECK(site.answer("/index.html").file.bytes == site.answer("/").file.bytes);
  CHECK(site.answer("/").status == 200);
  CHECK(site.answer("/figures/").file.bytes == "<BODY>figures" + script + "</BODY>");
  CHECK(site.answer("/figures/keeper-maren.html").file.bytes == "no body is named" + script);
}

TEST_CASE("a folder without its last slash is sent on, so that relative links lead on from it") {
  const PreviewSite::Answer answer = site.answer("/figures");
  CHECK(answer.status == 302);
  CHECK(answer.moved_to == "/figures/");
}

TEST_CASE("only pages get the script") {
  CHECK(site.answer("/style.css").file.bytes == "body { color: black } /* </body> */");
  CHECK(site.answer("/data/kb.json").file.bytes == "{}");
}

TEST_CASE("the script goes before the last end of a body") {
  const auto with_script = [](const std::string& page) {
    return PreviewSite{{{"index.html", page}}, "7-1"}.answer("/").file.bytes;
  };
  CHECK(with_script("<body>&lt;/body></body>") == "<body>&lt;/body>" + script + "</body>");
  CHECK(with_script("</body></body\n></html>") == "</body>" + script + "</body\n></html>");
  CHECK(with_script("") == script);
  CHECK(with_script("</") == "</" + script);
  CHECK(with_script("</bod") == "</bod" + script);
  CHECK(with_script("</body") == script + "</body");
}

TEST_CASE("what does not exist is answered with the site's own page for that, and else with one of ours") {
  for (const std::string path : {"/no", "/no/", "/figures/no.html", "//index.html", "/../index.html", "/index.html/",
                                 "/%2e%2e", "/style.css/", "/.", "/data", "/INDEX.HTML", "/-/", "/-/x"}) {
    INFO(path);
    CHECK(site.answer(path).status == 404);
    CHECK(site.answer(path).file.bytes == "<body>not here" + script + "</body>");
    CHECK(site.answer(path).file.type == "text/html; charset=utf-8");
  }
  const PreviewSite::Answer own = PreviewSite{{{"a.css", "x"}}, "7-1"}.answer("/");
  CHECK(own.status == 404);
  CHECK(own.file.type == "text/html; charset=utf-8");
  CHECK(own.file.bytes.find(script) != std::string::npos);
  CHECK(own.file.bytes.find("Not found") != std::string::npos);
}

TEST_CASE("types are told by the end of the name") {
  // IANA's registry of media types, https://www.iana.org/assignments/media-types: names from memory.
  CHECK(content_type("index.html") == "text/html; charset=utf-8");
  CHECK(content_type("a/b.css") == "text/css; charset=utf-8");
  CHECK(content_type("site.js") == "text/javascript; charset=utf-8"); // RFC 9239
  CHECK(content_type("maren.svg") == "image/svg+xml");
  CHECK(content_type("maren.jpg") == "image/jpeg");
  CHECK(content_type("kb.json") == "application/json"); // RFC 8259: no charset
  CHECK(content_type("kb.csv") == "text/csv; charset=utf-8");
  CHECK(content_type("kb.sqlite") == "application/vnd.sqlite3");
  CHECK(content_type("feed.atom") == "application/atom+xml");
  CHECK(content_type("sitemap.xml") == "application/xml");
  CHECK(content_type("site.webmanifest") == "application/manifest+json");
  for (const std::string path : {"x", "x.unknown", "x.", "a.html/b", "", "HTML"}) {
    INFO(path);
    CHECK(content_type(path) == "application/octet-stream");
  }
}
