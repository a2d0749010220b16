// Which values does each type of key take, and what is said of the others?
#include <catch2/catch.hpp>

#include "reading.hpp"

using namespace coeval;
using reading::read;

namespace {

constexpr std::string_view in_mould = "[accessory]\nid = \"lantern\"\nname = \"Lantern\"\nslot = \"hand\"\n"
                                      "[[mould]]\nid = \"ring\"\n";
constexpr std::string_view in_issue = "[figure]\nid = \"maren\"\nname = \"Maren\"\n[[issue]]\nid = \"first\"\n";
constexpr std::string_view in_line = "[line]\nid = \"patrol\"\nname = \"Patrol\"\n";
constexpr std::string_view in_source = "[[source]]\nid = \"log\"\ntitle = \"Log\"\nkind = \"book\"\n";
constexpr std::string_view in_plant = "[[plant]]\nid = \"cork\"\nname = \"Cork\"\n";

std::string in_timing() { return std::string{in_mould} + "[[mould.timing]]\n"; }
std::string in_colour() {
  return std::string{in_mould} + "[[mould.run]]\nid = \"brass\"\n[mould.run.colour]\nname = \"brass\"\n";
}
std::string in_picture() { return std::string{in_line} + "[[line.picture]]\nalt = \"A\"\ncredit = \"B\"\n"; }
std::string in_leftover() { return std::string{in_line} + "[line.leftover]\n"; }

struct Sample {
  std::string before;
  std::string key;
  std::string value;
  std::string code; // empty: taken
};

std::vector<Sample> samples() {
  const std::string mould{in_mould};
  const std::string in_feature = "[[feature]]\nid = \"top\"\nname = \"Top\"\nkind = \"present\"\n";
  const std::string in_mark = "[[mark]]\nid = \"patent\"\nname = \"P\"\n[[mark.number]]\non = \"1975\"\n";
  const std::string issue{in_issue};
  const std::string line{in_line};
  const std::string source{in_source};
  const std::string plant{in_plant};
  const std::string long_id(80, 'a');
  return {
      // text
      {mould, "name", "\"Ring top\"", ""},
      {mould, "name", "'''\nTwo\n\nparagraphs'''", ""},
      {mould, "name", "7", "wrong-type"},
      {mould, "name", "[\"Ring top\"]", "wrong-type"},
      {mould, "name", "\" \\n \"", "empty-text"},
      // flag
      {mould, "clean", "true", ""},
      {mould, "clean", "false", ""},
      {mould, "clean", "\"true\"", "wrong-type"},
      {mould, "clean", "1", "wrong-type"},
      // count
      {in_mark, "from", "1", ""},
      {in_mark, "from", "999999999999999", ""},
      {in_mark, "from", "0", "wrong-value"},
      {in_mark, "from", "-1", "wrong-value"},
      {in_mark, "from", "1000000000000000", "wrong-value"},
      {in_mark, "from", "1.0", "wrong-type"},
      {in_mark, "from", "\"1\"", "wrong-type"},
      // marks
      {mould, "marks", "[\"roundel\", \"mark/cross\"]", ""},
      {mould, "marks", "[\"copyright=1977\", \"us-patent=3,858,241\"]", ""},
      {mould, "marks", "\"roundel\"", "wrong-type"},
      {mould, "marks", "[\"Roundel\"]", "broken-address"},
      {mould, "marks", "[\"=1977\"]", "broken-address"},
      {mould, "marks", "[\"copyright =1977\"]", "broken-address"},
      {mould, "marks", "[\"copyright=1977\", \"copyright=1977\"]", "duplicate-value"},
      // numbers
      {in_colour(), "lab", "[72.1, 6, -48.5]", ""},
      {in_colour(), "lab", "[0, -200, 200]", ""},
      {in_colour(), "lab", "[100.1, 0, 0]", "broken-colour"},
      {in_colour(), "lab", "[-0.1, 0, 0]", "broken-colour"},
      {in_colour(), "lab", "[50, 201, 0]", "broken-colour"},
      {in_colour(), "lab", "[50, 0, -201]", "broken-colour"},
      {in_colour(), "lab", "[50, 0]", "broken-colour"},
      {in_colour(), "lab", "[50, 0, 0, 0]", "broken-colour"},
      {in_colour(), "lab", "[50, nan, 0]", "broken-colour"},
      {in_colour(), "lab", "[50, \"0\", 0, 0]", "broken-colour"},
      {in_colour(), "lab", "50", "broken-colour"},
      // choice
      {mould, "basis", "\"observed\"", ""},
      {mould, "basis", "\"Observed\"", "wrong-value"},
      {mould, "basis", "\"hearsay\"", "wrong-value"},
      {mould, "basis", "true", "wrong-type"},
      // word list
      {line, "slots", "[\"hand\", \"off-hand\"]", ""},
      {line, "slots", "\"hand\"", "wrong-type"},
      {line, "slots", "[]", "empty-text"},
      {line, "slots", "[\" \"]", "wrong-value"},
      {line, "slots", "[1]", "wrong-type"},
      {line, "slots", "[\"hand\", \"hand\"]", "duplicate-value"},
      // date
      {source, "published", "\"1979-06~\"", ""},
      {source, "published", "\"[1979..1980]\"", ""},
      {source, "published", "\"1979/1980\"", "broken-date"},
      {source, "published", "\"June 1979\"", "broken-date"},
      {source, "published", "1979-06-30", "wrong-type"},
      {source, "published", "1979", "wrong-type"},
      // dates
      {mould, "used", "\"1979\"", ""},
      {mould, "used", "\"1979/1980\"", ""},
      {mould, "used", "\"../1980\"", ""},
      {mould, "used", "\"{1979-03,1980}\"", ""},
      {mould, "used", "{ start = \"1979\" }", ""},
      {mould, "used", "{ start = \"[1979..1980]\", end = \"198X\" }", ""},
      {mould, "used", "{ start = \"1979/1980\" }", "broken-date"},
      {mould, "used", "{ end = \"{1979, 1980}\" }", "broken-date"},
      {mould, "used", "{ from = \"1979\" }", "unknown-key"},
      {mould, "used", "{ start = 1979 }", "wrong-type"},
      {mould, "used", "{ start = \"1980\", end = \"1979\" }", "impossible-interval"},
      {mould, "used", "[\"1979\", \"1980\"]", "wrong-type"},
      // duration
      {in_leftover(), "at-most", "\"P1Y6M\"", ""},
      {in_leftover(), "at-most", "\"P2W\"", ""},
      {in_leftover(), "at-most", "\"6 months\"", "broken-duration"},
      {in_leftover(), "at-most", "\"PT5H\"", "broken-duration"},
      {in_leftover(), "at-most", "6", "wrong-type"},
      // url
      {source, "url", "\"https://example.org/log?p=1#a\"", ""},
      {source, "url", "\"http://example.org\"", ""},
      {source, "url", "\"ftp://example.org\"", "broken-url"},
      {source, "url", "\"javascript:alert(1)\"", "broken-url"},
      {source, "url", "\"https://\"", "broken-url"},
      {source, "url", "\"https:///log\"", "broken-url"},
      {source, "url", "\"https://example.org/a b\"", "broken-url"},
      {source, "url", "\"https://example.org/\\\"><script>\"", "broken-url"},
      {source, "url", "\"https://example.org/" + std::string(2000, 'a') + "\"", "broken-url"},
      {source, "url", "[\"https://example.org\"]", "wrong-type"},
      // country, country list
      {plant, "country", "\"hk\"", ""},
      {plant, "country", "\"ddde\"", ""},
      {plant, "country", "\"HK\"", "broken-country"},
      {plant, "country", "\"uk\"", "broken-country"},
      {plant, "country", "[\"hk\"]", "wrong-type"},
      {issue, "market", "[\"gb\", \"ie\"]", ""},
      {issue, "market", "[\"gb\", \"xx\"]", "broken-country"},
      {issue, "market", "[\"gb\", \"gb\"]", "duplicate-value"},
      {issue, "market", "\"gb\"", "wrong-type"},
      // address, address list
      {issue, "packer", "\"cork\"", ""},
      {issue, "packer", "\"plant/cork\"", ""},
      {issue, "packer", "\"plant//cork\"", "broken-address"},
      {issue, "packer", "\"Cork\"", "broken-address"},
      {issue, "packer", "\"cork/\"", "broken-address"},
      {issue, "packer", "\"\"", "broken-address"},
      {issue, "packer", "[\"cork\"]", "wrong-type"},
      {issue, "card", "[\"six-back\", \"card/ten-back\"]", ""},
      {issue, "card", "\"six-back\"", "wrong-type"},
      {issue, "card", "[\"six back\"]", "broken-address"},
      {issue, "card", "[\"six-back\", \"six-back\"]", "duplicate-value"},
      // span list, span
      {mould, "within", "[\"period/first-voyage\"]", ""},
      {mould, "within", "[\"period/first voyage\"]", "broken-address"},
      {mould, "within", "\"period/first-voyage\"", "wrong-type"},
      {in_timing(), "span", "\"period/first-voyage\"", ""},
      {in_timing(), "span", "\"period/first-voyage.start\"", "broken-address"},
      {in_timing(), "span", "[\"period/first-voyage\"]", "wrong-type"},
      // point
      {in_timing(), "after", "\"period/first-voyage.start\"", ""},
      {in_timing(), "after", "\"ring.end\"", ""},
      {in_timing(), "after", "\"period/first-voyage\"", "broken-address"},
      {in_timing(), "after", "\"period/first-voyage.middle\"", "broken-address"},
      {in_timing(), "after", "\".start\"", "broken-address"},
      {in_timing(), "after", "3", "wrong-type"},
      // citations
      {mould, "source", "[\"log p. 14\"]", ""},
      {mould, "source", "[\"log\"]", ""},
      {mould, "source", "[\"The log, p. 14\"]", "broken-address"},
      {mould, "source", "[\"log p. 1\", \"log p. 1\"]", "duplicate-value"},
      {mould, "source", "\"log p. 14\"", "wrong-type"},
      // features
      {mould, "features", "{ top = \"ring\", vents = 4, glows = true, sink = [\"a\", 2] }", ""},
      {mould, "features", "{ height = { value = 21.5, tolerance = 0.3 }, body = { lab = [50, 0, 0] } }", ""},
      {mould, "features", "{ Top = \"ring\" }", "broken-id"},
      {mould, "features", "{ top = [] }", "wrong-feature-value"},
      {mould, "features", "{ top = \"\" }", "wrong-feature-value"},
      {mould, "features", "{ top = [[\"ring\"]] }", "wrong-feature-value"},
      {mould, "features", "{ height = { value = 21.5, tolerance = -1 } }", "wrong-feature-value"},
      {mould, "features", "{ height = { tolerance = 1 } }", "wrong-feature-value"},
      {mould, "features", "{ height = { value = 1, lab = [50, 0, 0] } }", "wrong-feature-value"},
      {mould, "features", "{ body = { lab = [500, 0, 0] } }", "broken-colour"},
      {mould, "features", "{ height = inf }", "wrong-feature-value"},
      {mould, "features", "\"ring\"", "wrong-type"},
      // number
      {in_feature, "effort", "0.5", ""},
      {in_feature, "effort", "2", ""},
      {in_feature, "effort", "0", "wrong-value"},
      {in_feature, "effort", "-1", "wrong-value"},
      {in_feature, "effort", "inf", "wrong-type"},
      {in_feature, "effort", "\"2\"", "wrong-type"},
      // file
      {in_picture(), "file", "\"drawings/maren.svg\"", ""},
      {in_picture(), "file", "\" \"", "wrong-value"},
      {in_picture(), "file", "1", "wrong-type"},
      // id
      {"[line]\nname = \"Patrol\"\n", "id", "\"" + long_id + "\"", ""},
      {"[line]\nname = \"Patrol\"\n", "id", "\"" + long_id + "a\"", "broken-id"},
      {"[line]\nname = \"Patrol\"\n", "id", "\"Saltmere Patrol\"", "broken-id"},
      {"[line]\nname = \"Patrol\"\n", "id", "\"\"", "broken-id"},
      {"[line]\nname = \"Patrol\"\n", "id", "7", "wrong-type"},
  };
}

// Required keys that the table of a sample still lacks are none of its business.
std::vector<std::string> without_missing(std::vector<std::string> codes) {
  std::erase(codes, "missing-key");
  return codes;
}

const FeatureValue& feature(const Entry& entry, std::string_view id) {
  const auto& list = std::get<Features>(entry.find("features")->value);
  return *std::ranges::find(list, id, &FeatureValue::feature);
}

template <class Type> std::vector<Type> all(const Kept<Type>& list) { return {list.begin(), list.end()}; }

} // namespace

TEST_CASE("every type takes its values and refuses the others where they stand") {
  for (const Sample& sample : samples()) {
    const reading::Read result = read(sample.before + sample.key + " = " + sample.value + "\n");
    INFO(sample.key << " = " << sample.value << "\n" << result.troubles());
    const Entry& entry = result.entries.entries.back();
    if (sample.code.empty()) {
      CHECK(without_missing(result.codes()).empty());
      REQUIRE(entry.find(sample.key) != nullptr);
      CHECK(result.at(entry.find(sample.key)->place) == sample.value);
      CHECK_FALSE(entry.broken);
      continue;
    }
    CHECK(without_missing(result.codes()) == std::vector{sample.code});
    for (const Diagnostic& diagnostic : result.diagnostics) {
      if (diagnostic.code == Code::missing_key) continue;
      const Span all = {diagnostic.place.file, static_cast<std::uint32_t>(sample.before.size() + sample.key.size() + 3),
                        static_cast<std::uint32_t>(result.sources.files[0].text().size())};
      CHECK(diagnostic.place.begin >= all.begin);
      CHECK(diagnostic.place.end <= all.end);
    }
    // Of a list with one bad word the others are kept, so the entry must say that something is amiss. A word that is
    // only there twice is no loss.
    CHECK(entry.broken == (sample.code != "duplicate-value"));
  }
}

TEST_CASE("every type of the schema has samples of both kinds") {
  std::vector<ValueType> taken;
  std::vector<ValueType> refused;
  for (const Sample& sample : samples()) {
    const reading::Read result = read(sample.before + sample.key + " = " + sample.value + "\n");
    const KeySpec* key = spec_of(result.entries.entries.back().kind).find(sample.key);
    REQUIRE(key != nullptr);
    (sample.code.empty() ? taken : refused).push_back(key->type);
  }
  for (const KindSpec& kind : schema())
    for (const KeySpec& key : kind.keys) {
      INFO(kind.name << "." << key.name);
      CHECK(std::ranges::find(taken, key.type) != taken.end());
      CHECK(std::ranges::find(refused, key.type) != refused.end());
    }
}

TEST_CASE("a table that repeats is written with two brackets, one that does not with one") {
  const reading::Read single = read("[source]\nid = \"log\"\ntitle = \"Log\"\nkind = \"book\"\n");
  CHECK(single.codes() == std::vector<std::string>{"wrong-type"});
  CHECK(single.first(Kind::source).id == "log"); // what it says still counts
  const reading::Read several = read("[[line]]\nid = \"patrol\"\nname = \"Patrol\"\n");
  CHECK(several.codes() == std::vector<std::string>{"wrong-type"});
  CHECK(several.first(Kind::line).id == "patrol");
  const reading::Read none = read("line = 7\n");
  CHECK(none.codes() == std::vector<std::string>{"wrong-type"});
  CHECK(none.entries.entries.empty());
}

TEST_CASE("values are read as what they say") {
  const reading::Read result =
      read(std::string{in_mould} + "clean = true\nsource = [\"log p. 1\", \"log p. 2\"]\n"
                                   "features = { vents = [4, 5], glows = false, height = { value = 21.5, tolerance = "
                                   "0.3 }, body = { lab = [72.1, 6, -48.5], tolerance = 2 } }\n");
  REQUIRE(result.troubles() == "");
  const Entry& mould = result.first(Kind::mould);
  CHECK(mould.flag("clean"));
  CHECK_FALSE(mould.flag("no-such-key"));
  CHECK(mould.text("id") == "ring");
  CHECK(mould.get<Words>("source")->back().text == "log p. 2");
  CHECK(all(feature(mould, "vents").alternatives) == std::vector<FeatureAtom>{4.0, 5.0});
  CHECK(all(feature(mould, "glows").alternatives) == std::vector<FeatureAtom>{false});
  CHECK(all(feature(mould, "height").alternatives) == std::vector<FeatureAtom>{21.5});
  CHECK(feature(mould, "height").tolerance == 0.3);
  CHECK(all(feature(mould, "body").lab) == std::vector<double>{72.1, 6.0, -48.5});
  CHECK(feature(mould, "body").tolerance == 2.0);
}

TEST_CASE("a repair is offered where it is plain what was meant") {
  const auto fix_of = [](std::string text) {
    const reading::Read result = read(std::move(text));
    REQUIRE(result.diagnostics.size() == 1);
    REQUIRE(result.diagnostics[0].fix.has_value());
    return result.at(result.diagnostics[0].fix->place) + " -> " + result.diagnostics[0].fix->replacement;
  };
  CHECK(fix_of(std::string{in_mould} + "usde = \"1979\"\n") == "usde -> used");
  CHECK(fix_of(std::string{in_mould} + "basis = \"obsreved\"\n") == "\"obsreved\" -> \"observed\"");
  CHECK(fix_of(std::string{in_mould} + "source = \"log p. 1\"\n") == "\"log p. 1\" -> [\"log p. 1\"]");
  CHECK(fix_of(std::string{in_plant} + "country = \"HK\"\n") == "\"HK\" -> \"hk\"");
  CHECK(fix_of(std::string{in_source} + "published = 1979\n") == "1979 -> \"1979\"");
  CHECK(fix_of("[line]\nname = \"Patrol\"\nid = \"Saltmere Patrol!\"\n") ==
        "\"Saltmere Patrol!\" -> \"saltmere-patrol\"");
  CHECK(fix_of("[[perid]]\nid = \"first\"\nname = \"First\"\n") == "perid -> period");
}

TEST_CASE("a name like no other is answered with all there are") {
  const reading::Read result = read(std::string{in_mould} + "wombat = \"1979\"\n");
  REQUIRE(result.codes() == std::vector<std::string>{"unknown-key"});
  CHECK_FALSE(result.diagnostics[0].fix.has_value());
  CHECK(result.diagnostics[0].help.find("`used`") != std::string::npos);
  CHECK(result.diagnostics[0].help.find("`timing`") != std::string::npos); // tables may stand there, too
}

TEST_CASE("all mistakes of all files are reported in one run") {
  const reading::Read result = read({
      SourceFile{"a.toml",
                 "[[period]]\nid = \"A b\"\nname = 7\ndates = \"soon\"\nfoo = 1\n\n[[plant]]\nid = \"cork\"\n"},
      SourceFile{"b.toml", "[[period]\n"},
      SourceFile{"c.toml", "[[mould]]\nid = \"ring\"\n\n[[wibble]]\nid = \"x\"\n"},
  });
  CHECK(result.codes() == std::vector<std::string>{"broken-id", "wrong-type", "broken-date", "unknown-key",
                                                   "missing-key", "broken-toml", "misplaced-table", "unknown-table"});
  // What is sound is read all the same.
  CHECK(result.first(Kind::plant).id == "cork");
  CHECK(result.first(Kind::plant).broken);
}

TEST_CASE("a refused value breaks its entry, an unknown key does not") {
  CHECK(read(std::string{in_mould} + "used = \"soon\"\n").first(Kind::mould).broken);
  CHECK_FALSE(read(std::string{in_mould} + "foo = \"soon\"\n").first(Kind::mould).broken);
  CHECK(read("[[mould]]\nname = \"no id\"\n[accessory]\nid = \"a\"\nname = \"A\"\nslot = \"hand\"\n")
            .first(Kind::mould)
            .broken);
}
