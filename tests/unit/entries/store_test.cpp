// Where do the values of entries lie, and how long are they good?
#include <catch2/catch.hpp>

#include "reading.hpp"

using namespace coeval;

namespace {

constexpr std::string_view kb_text = "[figure]\n"
                                     "id = \"maren\"\n"
                                     "name = \"Mar\\u0065n\"\n"
                                     "role = '''\nPilot of\nthe ketch'''\n"
                                     "features = { \"plain\" = \"yes\", height-mm = 94.6 }\n"
                                     "source = [\"log p. 2\", 'log p. 3', \"log p.\\t4\"]\n"
                                     "notes = \"\"\"Räder,\\\n   and sails\"\"\"\n";

// Whether a text is a piece of the file itself and not a copy.
bool lies_in(const SourceSet& sources, std::string_view text) {
  const std::string_view all = sources.files.front().text();
  return text.data() >= all.data() && text.data() + text.size() <= all.data() + all.size();
}

} // namespace

TEST_CASE("a text lies in its file where it stands there as it is meant, and else says what is meant") {
  const reading::Read read = reading::read(std::string{kb_text});
  REQUIRE(read.troubles() == "");
  const Entry& figure = read.first(Kind::figure);
  CHECK(figure.id == "maren");
  CHECK(lies_in(read.sources, figure.id));
  CHECK(figure.text("name") == "Maren");
  CHECK_FALSE(lies_in(read.sources, figure.text("name")));
  CHECK(figure.text("role") == "Pilot of\nthe ketch");
  CHECK(lies_in(read.sources, figure.text("role")));
  CHECK(figure.text("notes") == "Räder,and sails");
  const Words& citations = *figure.get<Words>("source");
  REQUIRE(citations.size() == 3);
  CHECK(citations[0].text == "log p. 2");
  CHECK(lies_in(read.sources, citations[0].text));
  CHECK(citations[1].text == "log p. 3");
  CHECK(lies_in(read.sources, citations[1].text));
  CHECK(citations[2].text == "log p.\t4");
  const Features& features = *figure.get<Features>("features");
  REQUIRE(features.size() == 2);
  CHECK(features[0].feature == "plain");
  CHECK(features[0].alternatives.front() == FeatureAtom{KeptText{"yes"}});
  CHECK(features[1].feature == "height-mm");
}

TEST_CASE("entries are good without their sources, and a copy of them without the first") {
  EntrySet copy;
  {
    reading::Read read = reading::read(std::string{kb_text});
    copy = read.entries;
  }
  REQUIRE(copy.entries.size() == 1);
  CHECK(copy.entries.front().id == "maren");
  CHECK(copy.entries.front().text("role") == "Pilot of\nthe ketch");
  CHECK(copy.entries.front().get<Words>("source")->back().text == "log p.\t4");
}
