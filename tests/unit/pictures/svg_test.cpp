#include <chrono>

#include <catch2/catch.hpp>

#include "pictures/inspect.hpp"

using namespace coeval;

namespace {

const std::string open =
    R"(<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 40 30">)";

std::string svg(const std::string& inside) { return open + "\n" + inside + "</svg>"; }

std::variant<PictureFacts, PictureFault> inspect(const std::string& text) { return inspect_picture(text, "a.svg"); }

std::string broken_words(const std::string& text) {
  const auto result = inspect(text);
  const auto* fault = std::get_if<PictureFault>(&result);
  return fault != nullptr && fault->kind == PictureFault::Kind::broken ? fault->words : "not refused as broken";
}

std::string unsafe_words(const std::string& text) {
  const auto result = inspect(text);
  const auto* fault = std::get_if<PictureFault>(&result);
  return fault != nullptr && fault->kind == PictureFault::Kind::unsafe ? fault->words : "not refused as unsafe";
}

std::string fault_words(const std::string& text) {
  const auto result = inspect(text);
  const auto* fault = std::get_if<PictureFault>(&result);
  return fault == nullptr ? "" : fault->words;
}

std::pair<unsigned, unsigned> size_of(const std::string& attributes) {
  const auto result = inspect("<svg xmlns='http://www.w3.org/2000/svg' " + attributes + "/>");
  const auto* facts = std::get_if<PictureFacts>(&result);
  return facts == nullptr ? std::pair{0U, 0U} : std::pair{facts->width, facts->height};
}

} // namespace

TEST_CASE("a drawing is let through") {
  CHECK(fault_words("\xEF\xBB\xBF<?xml version='1.0' encoding=\"UTF-8\" standalone='no'?>\n<!-- drawn by hand -->\n" +
                    open + R"svg(
    <title>Ring top &amp; handle — é &#x2014;</title>
    <desc><![CDATA[a < b]]></desc>
    <style type="text/css">.a { fill: url(#shade); stroke: #333 } /* no harm */</style>
    <defs><linearGradient id="shade"><stop offset="0" stop-color="#fff"/></linearGradient>
    <g id="bolt"><circle r="2"/></g></defs>
    <use href="#bolt" x="3"/><use xlink:href=" #bolt"/>
    <path d="M0,0 L1 1" style="marker-end: url('#shade')" aria-label="only url(http://x) in words"/>
    <image href="data:image/png;base64,iVBORw0KGgo=" width="3" height="3"/>
    <text x="1" y="2" font-family="serif">off &lt; on<tspan>1</tspan></text>
  </svg>
  <!-- end -->
)svg") == "");
}

TEST_CASE("the size is what width and height say, else the view box") {
  using Size = std::pair<unsigned, unsigned>;
  CHECK(size_of("width='40' height='30'") == Size{40, 30});
  CHECK(size_of("width='40px' height=' 30.2 '") == Size{40, 31});
  CHECK(size_of("viewBox='0 0 40 30'") == Size{40, 30});
  CHECK(size_of("viewBox='-5,-5,40.5,30'") == Size{41, 30});
  CHECK(size_of("width='100%' height='100%' viewBox='0 0 40 30'") == Size{40, 30});
  CHECK(size_of("width='80' viewBox='0 0 40 30'") == Size{80, 60});
  CHECK(size_of("height='60' viewBox='0 0 40 30'") == Size{80, 60});
  CHECK(size_of("width='1in' height='2.54cm'") == Size{96, 96}); // CSS Values and Units 3, 6.2
  CHECK(size_of("width='72pt' height='6pc'") == Size{96, 96});
  CHECK(size_of("width='25.4mm' height='101.6Q'") == Size{96, 96});
  CHECK(size_of("width='1e2' height='+7'") == Size{100, 7});
  for (const std::string text : {"", "width='40'", "viewBox='0 0 40'", "viewBox='0 0 -1 30'", "viewBox='0 0 0 0'",
                                 "width='wide' height='30'", "width='nan' height='30'", "width='1e999' height='3'"})
    CHECK(size_of(text) == Size{0, 0});
  CHECK(fault_words("<svg xmlns='http://www.w3.org/2000/svg' width='0' height='30'/>") == "its width or height is 0");
  CHECK(unsafe_words("<svg xmlns='http://www.w3.org/2000/svg' width='1e12' height='30'/>") != "not refused as unsafe");
}

TEST_CASE("what runs is refused, with its line") {
  CHECK(unsafe_words(svg("<script>alert(1)</script>")) == "line 2: `script` runs in the reader's browser");
  CHECK(unsafe_words(svg("<g>\n<path onclick='alert(1)'/></g>")) == "line 3: `onclick` runs in the reader's browser");
  CHECK(unsafe_words(svg("<path oNlOaD='alert(1)'/>")) == "line 2: `oNlOaD` runs in the reader's browser");
  CHECK(unsafe_words(svg("<foreignObject/>")) == "line 2: `foreignObject` runs in the reader's browser");
  for (const std::string element :
       {"SCRIPT", "a", "animate", "set", "iframe", "audio", "video", "feImage", "metadata", "html", "link", "object",
        "animateTransform", "handler", "listener", "discard", "cursor", "font-face-uri"})
    CHECK(unsafe_words(svg("<" + element + "/>")) != "not refused as unsafe");
}

TEST_CASE("the name of another space does not smuggle anything in") {
  const std::string svg_space = "http://www.w3.org/2000/svg";
  CHECK(unsafe_words(svg("<x:script xmlns:x='" + svg_space + "'/>")) ==
        "line 2: `x:script` is no element of a still drawing; save the picture as plain SVG");
  CHECK(unsafe_words(svg("<g xmlns='http://www.w3.org/1999/xhtml'><style/></g>")) ==
        "line 2: `xmlns` leads out of SVG");
  CHECK(unsafe_words(svg("<use xmlns:y='http://www.w3.org/1999/xlink' y:href='http://x/y.svg#a'/>")) ==
        "line 2: `y:href` leads out of the file");
  CHECK(unsafe_words(svg("<g xml:base='http://x/'/>")) == "line 2: `xml:base` leads out of the file");
}

TEST_CASE("what leads out of the file is refused") {
  for (const std::string target :
       {"http://x/a.png", "//x/a.png", "a.svg#b", "javascript:alert(1)", "java&#115;cript:alert(1)", "data:text/html,x",
        "data:image/svg+xml;base64,AAAA", "data:image/svg+xml,&lt;svg/>", "\tjavascript:x", "", "file:///etc/passwd"}) {
    INFO(target);
    CHECK(unsafe_words(svg("<use href='" + target + "'/>")) == "line 2: `href` leads out of the file");
    CHECK(unsafe_words(svg("<image xlink:href='" + target + "'/>")) == "line 2: `xlink:href` leads out of the file");
  }
}

TEST_CASE("styles that load something are refused, however they are written") {
  for (const std::string css : {"fill: url(http://x/a.svg#b)", "fill: URL( 'http://x' )", "fill: url(\"//x\")",
                                "fill: u\\72l(http://x)", "background: image-set('a.png' 1x)",
                                "fill: url(#a) url(b.svg#c)", "behavior: url(#default)", "fill: url(&#104;ttp://x)"}) {
    INFO(css);
    std::string quoted;
    for (const char c : css) quoted += c == '\'' ? std::string{"&apos;"} : std::string{c};
    CHECK(unsafe_words(svg("<path style='" + quoted + "'/>")) != "not refused as unsafe");
    CHECK(unsafe_words(svg("<style>path { " + css + " }</style>")) != "not refused as unsafe");
    CHECK(unsafe_words(svg("<style><![CDATA[path { " + css + " }]]></style>")) ==
          unsafe_words(svg("<style>path { " + css + " }</style>")));
  }
  CHECK(unsafe_words(svg("<path fill='url(http://x#a)'/>")) ==
        "line 2: `fill` holds url() of another file, which could load another file");
  CHECK(unsafe_words(svg("<style>@import 'x.css';</style>")) ==
        "line 2: the style sheet holds @import, which could load another file");
  CHECK(unsafe_words(svg("<style>@imp<!-- -->ort 'x.css';</style>")) != "not refused as unsafe");
  CHECK(fault_words(svg("<style>path { fill: url( \"#a\" ) }</style>")) == "");
}

TEST_CASE("a document type and processing instructions are refused") {
  CHECK(unsafe_words("<!DOCTYPE svg [<!ENTITY a 'aaaa'>]>" + svg("&a;")) ==
        "line 1: a document type can name other files; leave `<!DOCTYPE …>` out");
  CHECK(unsafe_words("<?xml version='1.0'?>\n<?xml-stylesheet href='http://x'?>" + svg("")) ==
        "line 2: a processing instruction can load other files; leave it out");
  CHECK(broken_words("<?xml version='1.0' encoding='UTF-7'?>" + svg("")) ==
        "line 1: it is said to be in another encoding: save it as UTF-8");
}

TEST_CASE("what is not well-formed is refused, since browsers show nothing of it") {
  const std::vector<std::string> wrong{
      open,
      svg("<g>"),
      svg("</g>"),
      svg("<g></h>"),
      svg("<g/>") + "<g/>",
      svg("") + "text",
      "text" + svg(""),
      svg("<g a='1' a='2'/>"),
      svg("<g a=1/>"),
      svg("<g a/>"),
      svg("<g a='1'b='2'/>"),
      svg("<g a='<'/>"),
      svg("<g a='&'/>"),
      svg("a & b"),
      svg("&nbsp;"),
      svg("&#0;"),
      svg("&#xD800;"),
      svg("&#99999999999;"),
      svg("&#x;"),
      svg("]]>"),
      svg("<!-- a -- b -->"),
      svg("<!-- a --->"),
      svg("<![CDATA[ a"),
      svg("< g/>"),
      svg("<g / >"),
      svg("<g"),
      svg("<g a='"),
      svg("<:g/>"),
      svg("<a:b:c/>"),
      svg("<g x:a='1'/>"),
      svg("\x01"),
      svg("\xFF"),
      svg("\xEF\xBF\xBF"),
      " <?xml version='1.0'?>" + svg(""),
      "<?xml encoding='UTF-8'?>" + svg(""),
      "<!-- only a comment -->",
      "<",
      "<svg",
  };
  for (const std::string& text : wrong) {
    INFO(text);
    CHECK_FALSE(fault_words(text).empty());
    const auto whole = svg("");
    CHECK(fault_words(whole).empty());
  }
  CHECK(broken_words(svg("<g>\n\n<path></g>")) == "line 4: `path` is not closed where it should be");
  CHECK(broken_words("<html xmlns='http://www.w3.org/1999/xhtml'/>") == "the root element is `html`, not `svg`");
  CHECK(broken_words("<svg viewBox='0 0 1 1'/>") == "the root element lacks xmlns=\"http://www.w3.org/2000/svg\"");
}

TEST_CASE("a drawing that is cut off anywhere is refused") {
  const std::string whole = svg("<g id='a'><path d='M0 0'/><!-- c --><text>a&amp;b<![CDATA[c]]></text></g>");
  REQUIRE(fault_words(whole).empty());
  for (std::size_t size = 0; size < whole.size(); ++size) REQUIRE_FALSE(fault_words(whole.substr(0, size)).empty());
}

TEST_CASE("a few lines that would draw for hours are refused") {
  std::string bomb = "<g id='u0'><path/></g>";
  for (int i = 1; i < 12; ++i) {
    bomb += "<g id='u" + std::to_string(i) + "'>";
    for (int j = 0; j < 10; ++j) bomb += "<use href='#u" + std::to_string(i - 1) + "'/>";
    bomb += "</g>";
  }
  CHECK(unsafe_words(svg(bomb)).find("draw more than") != std::string::npos);
  CHECK(unsafe_words(svg("<g id='a'><use href='#b'/></g><g id='b'><use href='#a'/></g>")) != "not refused as unsafe");
  CHECK(unsafe_words(svg("<g id='a'><use href='#a'/></g>")) != "not refused as unsafe");
  CHECK(fault_words(svg("<g id='a'><path/></g><use href='#a'/><use href='#a'/><use href='#gone'/>")).empty());
}

TEST_CASE("hostile drawings are refused or read in time that grows with their length only") {
  const auto repeated = [](const std::string& part, int times) {
    std::string text;
    for (int i = 0; i < times; ++i) text += part;
    return text;
  };
  const auto begin = std::chrono::steady_clock::now();
  CHECK_FALSE(fault_words(svg(repeated("<g>", 100'000))).empty());
  CHECK(fault_words(svg(repeated("<g/>", 150'000))).empty());
  CHECK(fault_words(svg("<style>" + repeated("a{fill:url(#b)}", 100'000) + "</style>" + repeated("<style/>", 50'000)))
            .empty());
  CHECK_FALSE(fault_words(svg("<g " + repeated("xmlns:a='b' ", 50'000) + "/>")).empty());
  CHECK(fault_words(svg("<path fill='" + repeated("url(#a) ", 100'000) + "'/>")).empty());
  std::string chain;
  for (int i = 0; i < 50'000; ++i)
    chain += "<g id='c" + std::to_string(i) + "'/><use href='#c" + std::to_string(i + 1) + "'/>";
  CHECK(fault_words(svg(chain)).empty());
  const auto seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
  CHECK(seconds < 20); // squares of these lengths would take hours
}
