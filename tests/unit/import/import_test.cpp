#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "export/export.hpp"
#include "import/import.hpp"
#include "import/toml_text.hpp"
#include "in_memory_kb.hpp"

namespace {

using namespace coeval;
using Json = nlohmann::ordered_json;

constexpr std::string_view base = R"(
[line]
id = "patrol"
name = "Patrol"
slots = ["hand"]
[line.leftover]
at-most = "P1Y6M"
[[source]]
id = "log"
title = "=cmd|' /C calc'!A0 \"\\ \u0000\u0007\u001b \U0001F469"
kind = "book"
notes = """
First.

'''\"\"\" \\ last"""
[[plant]]
id = "cork"
name = "Cork"
[[feature]]
id = "height-mm"
name = "Height"
kind = "measure"
unit = "mm"
[[feature]]
id = "shade"
name = "Shade"
kind = "colour"
tolerance = 3
[[feature]]
id = "top"
name = "Top"
kind = "choice"
values = ["ring", "notch"]
[[feature.value]]
id = "ring"
look = "a ring"
[[claim]]
id = "together"
says = "They came together."
standing = "open"
[[claim.pairing]]
run = "lantern/ring/brass"
issue = "maren/first"
)";
constexpr std::string_view accessory = R"(
[accessory]
id = "lantern"
name = "Lantern"
slot = "hand"
[[mould]]
id = "ring"
used = { start = "1976-02~", end = "[1977-03..]" }
features = { top = ["ring", "notch"], height-mm = { value = 21.5, tolerance = 0.3 }, shade = { lab = [50, -1.5, 1e1], tolerance = 2 } }
basis = "documented"
source = ["log p. 14", "log"]
[[mould.timing]]
this = "end"
before = "route/sea.start"
at-least = "P2W"
[[mould.run]]
id = "brass"
plant = "cork"
made = "1976-03-01/1976-06-30"
colour = { name = "brass", lab = [72.1, -6.0, 48.5] }
[[mould.run.picture]]
file = "pictures/brass.svg"
alt = "A lantern"
credit = "Drawn for this test"
)";
constexpr std::string_view figure = R"(
[figure]
id = "maren"
name = "Maren"
[[issue]]
id = "first"
packer = "cork"
market = ["gb", "ie"]
packed = "1976-02-01/1976-12-31"
bare = false
[[issue.takes]]
accessory = "lantern"
[[route]]
id = "sea"
from = "cork"
to = "cork-2"
[[plant]]
id = "cork-2"
name = "Cork, the second"
)";

std::string exported(const in_memory::Kb& kb) {
  return export_document({kb.kb, kb.dates, kb.sources, {}}, ExportAs::json, GraphOf::links);
}

// The entries as text, without their places, in no order.
std::vector<std::string> entries_of(const std::string& json) {
  std::vector<std::string> texts;
  const Json document = Json::parse(json);
  for (Json entry : document.at("entries")) {
    entry.erase("file");
    entry.erase("line");
    texts.push_back(entry.dump());
  }
  std::ranges::sort(texts);
  return texts;
}

struct Reported {
  Diagnostics out;
  Imported imported;
  explicit Reported(const Json& json) : imported(import_json(json.dump(), "kb.json", out)) {}
  // "code place", of all that is wrong with the shape.
  [[nodiscard]] std::vector<std::string> wrong() const {
    std::vector<std::string> list;
    for (const Diagnostic& diagnostic : out.sorted())
      list.push_back(std::string{row(diagnostic.code).name} + " " + diagnostic.path);
    return list;
  }
};

Json document(Json entries) { return {{"format", "coeval-kb"}, {"version", 2}, {"entries", std::move(entries)}}; }
Json entry(std::string_view kind, Json address, Json parent, Json fields) {
  return {
      {"kind", kind}, {"address", std::move(address)}, {"parent", std::move(parent)}, {"fields", std::move(fields)}};
}

TEST_CASE("what was exported is written as TOML that says the same") {
  const in_memory::Kb kb{{{"deep/below/a.toml", std::string{base}},
                          {"deep/figure.toml", std::string{figure}},
                          {"deep/lantern.toml", std::string{accessory}}}};
  REQUIRE(kb.troubles().empty());
  const std::string json = exported(kb);
  Diagnostics out;
  const Imported imported = import_json(json, "kb.json", out);
  CHECK(in_memory::shown(imported.sources, out.sorted()).empty());
  std::vector<std::string> paths;
  for (const SourceFile& file : imported.sources.files) paths.push_back(file.path());
  CHECK(paths == std::vector<std::string>{"accessories/lantern.toml", "claims.toml", "features.toml",
                                          "figures/maren.toml", "lines/patrol.toml", "plants.toml", "routes.toml",
                                          "sources.toml"});
  CHECK(imported.sources.assets == std::set<std::string, std::less<>>{"deep/pictures/brass.svg"});
  const in_memory::Kb back{imported.sources.files};
  CHECK(back.troubles().empty());
  CHECK(entries_of(exported(back)) == entries_of(json));
}

TEST_CASE("every kind that others belong to has an address that they can name") {
  for (const KindSpec& spec : schema())
    for (const Kind parent : spec.parents) CHECK(spec_of(parent).has_id());
}

TEST_CASE("kinds are told by their words alone") {
  std::set<std::string_view> words;
  for (const KindSpec& spec : schema()) {
    CHECK(words.insert(kind_word(spec.kind)).second);
    CHECK(find_kind_word(kind_word(spec.kind)) == &spec);
  }
}

TEST_CASE("what is no export is refused") {
  CHECK(Reported{Json::array()}.wrong() == std::vector<std::string>{"broken-json kb.json#/format"});
  CHECK(Reported{{{"format", "other"}}}.wrong() == std::vector<std::string>{"broken-json kb.json#/format"});
  CHECK(Reported{{{"format", "coeval-kb"}, {"version", 3}, {"entries", Json::array()}}}.wrong() ==
        std::vector<std::string>{"broken-json kb.json#/version"});
  CHECK(Reported{{{"format", "coeval-kb"}, {"version", 2}}}.wrong() ==
        std::vector<std::string>{"broken-json kb.json#/entries"});
}

TEST_CASE("every entry of the wrong shape is told, each with its pointer") {
  const Json maker{{"id", "toys"}, {"name", "Toys"}};
  const Json wrong = document({
      17,
      entry("makre", nullptr, nullptr, maker),
      entry("maker", "maker/toys", nullptr, maker),
      entry("maker", "maker/toys", nullptr, maker),
      entry("maker", "maker/other", nullptr, {{"id", "else"}, {"name", "Else"}}),
      entry("maker", 5, nullptr, {{"id", "five"}, {"name", "Five"}}),
      entry("run", "nobody/x/y", "nobody/x", {{"id", "y"}}),
      entry("run", "maker/toys/y", "maker/toys", {{"id", "y"}}),
      entry("maker", "maker/child", "maker/toys", {{"id", "child"}, {"name", "Child"}}),
      {{"kind", "maker"}, {"fields", nullptr}},
  });
  CHECK(Reported{wrong}.wrong() ==
        std::vector<std::string>{"wrong-type kb.json#/entries/0", "wrong-value kb.json#/entries/1/kind",
                                 "duplicate-id kb.json#/entries/3/address", "broken-address kb.json#/entries/4/address",
                                 "wrong-type kb.json#/entries/5/address", "unknown-address kb.json#/entries/6/parent",
                                 "wrong-kind kb.json#/entries/7/parent", "wrong-kind kb.json#/entries/8/parent",
                                 "wrong-type kb.json#/entries/9/fields"});
}

TEST_CASE("ids and paths never leave the folder") {
  for (const std::string_view id : {"../../etc/passwd", "/etc/passwd", "..", "a/b", "A", "", "con.toml", "a\nb"}) {
    const Reported reported{document({entry("figure", std::string{id}, nullptr, {{"id", id}, {"name", "N"}})})};
    CHECK(reported.imported.sources.files.empty());
    CHECK(reported.out.has_errors());
  }
  for (const std::string_view file :
       std::initializer_list<std::string_view>{"../x.svg", "/x.svg", "a/../../x.svg", "a//x.svg", "./x.svg", "a\\x.svg",
                                               "c:x.svg", std::string_view{"x\0.svg", 6}}) {
    const Reported reported{
        document({entry("figure", "f", nullptr, {{"id", "f"}, {"name", "F"}}),
                  entry("picture", nullptr, "f", {{"file", file}, {"alt", "A"}, {"credit", "C"}})})};
    CHECK(reported.wrong() == std::vector<std::string>{"wrong-type kb.json#/entries/1/fields/file"});
    CHECK(reported.imported.sources.assets.empty());
  }
}

TEST_CASE("values of the wrong shape are told with their pointers, and those of the wrong meaning by the compiler") {
  const Json wrong = document(
      {entry("accessory", "a", nullptr,
             {{"id", "a"}, {"name", "A"}, {"slot", "hand"}, {"features", {{"top", "ring"}}}}),
       entry("mould", "a/m", "a",
             {{"id", "m"}, {"used", "1976"}, {"colour", Json::object()}, {"source", {"log", nullptr}}}),
       entry("mould", "a/n", "a",
             {{"id", "n"}, {"used", {{"written", "1979-13"}}}, {"basis", "certain"}, {"source", {"nowhere"}}})});
  const Reported reported{wrong};
  CHECK(reported.wrong() == std::vector<std::string>{"wrong-type kb.json#/entries/0/fields/features/top",
                                                     "unknown-key kb.json#/entries/1/fields/colour",
                                                     "wrong-type kb.json#/entries/1/fields/source/1",
                                                     "wrong-type kb.json#/entries/1/fields/used"});
  const in_memory::Kb kb{reported.imported.sources.files};
  std::vector<std::string> told;
  for (const Diagnostic& diagnostic : told_of_json(reported.imported, kb.out.sorted()))
    told.push_back(std::string{row(diagnostic.code).name} + " " + diagnostic.path);
  CHECK(told == std::vector<std::string>{"broken-date kb.json#/entries/2/fields/used/written",
                                         "wrong-value kb.json#/entries/2/fields/basis",
                                         "unknown-source kb.json#/entries/2/fields/source/0"});
}

TEST_CASE("any text stands in TOML as one value") {
  CHECK(toml_string("plain") == "\"plain\"");
  CHECK(toml_string("a\"b\\c\td") == "\"a\\\"b\\\\c\\u0009d\"");
  CHECK(toml_string("one\ntwo") == "\"\"\"\none\ntwo\"\"\"");
  CHECK(toml_string("\n\"\"\"\r\n") == "\"\"\"\n\n\\\"\\\"\\\"\\u000D\n\"\"\"");
  CHECK(toml_scalar(1.0) == "1.0");
  CHECK(toml_scalar(1e300) == "1e+300");
  CHECK(toml_scalar(std::uint64_t{1} << 63U) == "9.223372036854776e+18");
  CHECK_FALSE(toml_scalar(nullptr));
  CHECK(toml_key("a b") == "\"a b\"");
}

} // namespace
