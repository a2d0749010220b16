// What comes through of odd text, and where may a link lead?
#include <catch2/catch.hpp>

#include "html/target.hpp"
#include "html/text.hpp"

using namespace coeval;

namespace {

std::string safe(std::string_view text) {
  std::string scratch;
  return std::string{safe_text(text, scratch)};
}

bool leads_nowhere(std::string_view to) {
  return target_of(to, "figures/a.html", "../").kind == LinkTarget::Kind::none;
}

} // namespace

TEST_CASE("plain text is handed on as it is, without a copy") {
  const std::string_view text = "Signal lantern, 21.5 mm <b> & \"quotes\"\nand a second line";
  std::string scratch;
  CHECK(safe_text(text, scratch).data() == text.data());
  CHECK(safe("Kwun Tong 觀塘, Größe, עברית, 🔦") == "Kwun Tong 觀塘, Größe, עברית, 🔦");
}

TEST_CASE("what no document may hold is replaced or left out") {
  CHECK(safe(std::string_view{"a\0b\x01\x7f"
                              "c\t\rd",
                              9}) == "a b  c  d");
  CHECK(safe("a\xC2\x85"
             "b") == "a b"); // U+0085, a C1 control
  CHECK(safe("a\xE2\x80\xA8"
             "b") == "a b");                               // U+2028
  CHECK(safe("a\xFF\xC3") == "a\xEF\xBF\xBD\xEF\xBF\xBD"); // not UTF-8
  CHECK(safe("\xED\xA0\x80").find("\xEF\xBF\xBD") == 0);   // a lone surrogate
  CHECK(safe("a\xEF\xBF\xBF"
             "b") == "a\xEF\xBF\xBD"
                     "b"); // U+FFFF
  CHECK(safe("\xEF\xBB\xBF"
             "a\xF3\xA0\x81\xA1") == "a"); // a byte order mark, a tag
}

TEST_CASE("nothing turns the direction of what stands around it") {
  CHECK(safe("a\xE2\x80\xAE"
             "b\xE2\x80\xAC"
             "c") == "abc"); // U+202E … U+202C
  CHECK(safe("a\xE2\x81\xA6"
             "b\xE2\x81\xA9") == "ab"); // U+2066 … U+2069
  CHECK(runs_right_to_left("abc עברית"));
  CHECK(runs_right_to_left("عربى"));
  CHECK_FALSE(runs_right_to_left("abc 觀塘 Größe 🔦"));
}

TEST_CASE("combining marks stand on something, and are not piled up") {
  CHECK(safe("\xCC\x81"
             "a") == "\xE2\x97\x8C\xCC\x81"
                     "a"); // U+25CC, U+0301
  CHECK(safe("e\xCC\x81") == "e\xCC\x81");
  std::string pile = "e";
  for (int i = 0; i < 100; ++i) pile += "\xCC\x81";
  CHECK(safe(pile).size() == 1 + 8 * 2);
}

TEST_CASE("a path of the site is made relative to the page") {
  CHECK(way_to_root("index.html").empty());
  CHECK(way_to_root("figures/keeper-maren/painted-buttons.html") == "../../");
  const auto href = [](std::string_view to) { return target_of(to, "figures/a.html", "../").href; };
  CHECK(href("accessories/b.html") == "../accessories/b.html");
  CHECK(href("accessories/b.html#ring-top") == "../accessories/b.html#ring-top");
  CHECK(href("data/kb/_53altmere/x_20y.toml") == "../data/kb/_53altmere/x_20y.toml");
  CHECK(href("figures/a.html#hand") == "#hand");
  CHECK(href("#hand") == "#hand");
  CHECK(href("figures/a.html") == "../figures/a.html");
}

TEST_CASE("no link leads out of the site but by http and https") {
  for (const std::string_view to : {"",
                                    "#",
                                    "javascript:alert(1)",
                                    "JAVASCRIPT:alert(1)",
                                    "java\nscript:alert(1)",
                                    " javascript:alert(1)",
                                    "data:text/html,<script>",
                                    "vbscript:x",
                                    "file:///etc/passwd",
                                    "mailto:a@example.org",
                                    "ftp://example.org/",
                                    "//example.org/x",
                                    "/etc/passwd",
                                    "../x.html",
                                    "a/../b.html",
                                    "a//b.html",
                                    "a/./b.html",
                                    ".git/config",
                                    "a b.html",
                                    "a.html#x y",
                                    "a.html?x",
                                    "a\\b",
                                    "a.html#\"onclick=",
                                    "http:",
                                    "http://",
                                    "https:///x",
                                    "https://a@example.org/",
                                    "https://-x/",
                                    "https://exa mple.org/",
                                    "https:example.org"}) {
    INFO(to);
    CHECK(leads_nowhere(to));
  }
  CHECK(leads_nowhere(std::string(10'000, ':')));
}

TEST_CASE("an address keeps its meaning and holds no byte that RFC 3986 does not allow") {
  const auto href = [](std::string_view to) { return target_of(to, {}, {}).href; };
  CHECK(href("https://example.org/a?b=c&d=%20#e") == "https://example.org/a?b=c&d=%20#e");
  CHECK(href("HTTP://example.org") == "http://example.org");
  CHECK(href("https://example.org/a b\"<>\\^`{|}é%zz#x#y") ==
        "https://example.org/a%20b%22%3C%3E%5C%5E%60%7B%7C%7D%C3%A9%25zz#x%23y");
  CHECK(href("https://example.org:8080/") == "https://example.org:8080/");
}
