// Is what is written HTML, by the rules of the HTML Living Standard ("Serializing HTML fragments", "Void elements")?
#include <catch2/catch.hpp>

#include "html/serialise.hpp"

using namespace coeval;

namespace {

std::string written(const char* xml) {
  pugi::xml_document tree;
  REQUIRE(tree.load_string(xml, pugi::parse_default | pugi::parse_ws_pcdata));
  std::string out;
  serialise_children(tree, out);
  return out;
}

} // namespace

TEST_CASE("void elements have no end tag, and every other element has one") {
  for (const std::string name :
       {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}) {
    const std::string text = written(("<b><" + name + "/></b>").c_str());
    CHECK(text.find("<" + name + ">") != std::string::npos);
    CHECK(text.find("</" + name) == std::string::npos);
    CHECK(text.find("/>") == std::string::npos);
  }
  CHECK(written("<b><i/></b>") == "<b><i></i></b>");
  CHECK(written("<b><script src=\"x.js\"/></b>") == "<b>\n<script src=\"x.js\"></script></b>");
  CHECK(written("<svg viewBox=\"0 0 1 1\"><path d=\"M0 0\"/></svg>") ==
        "<svg viewBox=\"0 0 1 1\"><path d=\"M0 0\"></path></svg>");
}

TEST_CASE("text and attributes are escaped, script and style are raw") {
  CHECK(written("<b title=\"&lt;&amp;&quot;'&gt;\">&lt;i&gt; &amp;amp; \"'</b>") ==
        "<b title=\"&lt;&amp;&quot;'&gt;\">&lt;i&gt; &amp;amp; \"'</b>");
  CHECK(written("<b><script>1 &lt; 2 &amp;&amp; 3</script></b>") == "<b>\n<script>1 < 2 && 3</script></b>");
  CHECK(written("<b><style>a &gt; b{}</style></b>") == "<b><style>a > b{}</style></b>");
}

TEST_CASE("comments and instructions are left out, white space between words is kept") {
  CHECK(written("<b>one<!-- two --> <i>three</i><?four?></b>") == "<b>one <i>three</i></b>");
}
