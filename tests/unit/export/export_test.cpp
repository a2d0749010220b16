#include <map>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "export/export.hpp"
#include "in_memory_kb.hpp"
#include "unit/csv/reading.hpp"
#include "verdicts/judge.hpp"

namespace {

using namespace coeval;
using Json = nlohmann::json;

constexpr std::string_view text = R"(
[line]
id = "patrol"
name = "Patrol"
slots = ["hand"]
[line.leftover]
at-most = "P1Y6M"
[[source]]
id = "log"
title = "=cmd|' /C calc'!A0"
kind = "book"
published = "1980~"
notes = """
First.

Second, with "quotes"."""
[[plant]]
id = "cork"
name = "Cork"
[[feature]]
id = "height-mm"
name = "Height"
kind = "measure"
unit = "mm"
[[feature]]
id = "top"
name = "Top"
kind = "choice"
values = ["ring", "notch"]
)";

constexpr std::string_view accessory = R"(
[accessory]
id = "lantern"
name = "Lantern"
slot = "hand"
[[mould]]
id = "ring"
used = { start = "1976-02", end = "[1977-03..]" }
features = { top = ["ring", "notch"], height-mm = { value = 21.5, tolerance = 0.3 } }
basis = "documented"
source = ["log p. 14", "log p. 15"]
[[mould.run]]
id = "brass"
plant = "cork"
made = "1976-03-01/1976-06-30"
colour = { name = "brass", lab = [72.1, -6.0, 48.5] }
[[mould.run]]
id = "grey"
made = "1979-01-01/1979-06-30"
[[mould.run.exclusive]]
to = ["maren/first"]
disputed = true
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
[[issue.takes]]
accessory = "lantern"
)";

struct Exported {
  in_memory::Kb kb{
      {{"a.toml", std::string{text}}, {"f.toml", std::string{figure}}, {"l.toml", std::string{accessory}}}};
  std::map<std::string, std::string> files;

  Exported() {
    REQUIRE(kb.troubles().empty());
    const ExportInput input{kb.kb, kb.dates, kb.sources, {}};
    const ExportSink sink = [&](const std::string& path, std::string_view bytes) { files[path] = bytes; };
    KeptDatabase kept;
    export_answers(input, sink, kept);
    export_entries(input, sink);
  }
  // A cell of the row that has `key` in the first column.
  [[nodiscard]] std::string cell(const std::string& path, std::string_view key, std::string_view column) const {
    const auto rows = reading::read_csv(files.at(path));
    const auto place = std::ranges::find(rows.at(0), column) - rows.at(0).begin();
    for (const auto& row : rows)
      if (row.at(0) == key) return row.at(static_cast<std::size_t>(place));
    FAIL("no row " << key);
    return {};
  }
};

TEST_CASE("the files that are promised are those that are made") {
  const Exported exported;
  const std::vector<ExportFile> promised = exported_files(exported.kb.kb);
  CHECK(promised.size() == exported.files.size());
  for (const ExportFile& file : promised) CHECK(exported.files.contains(file.path));
  CHECK(exported.files.contains("data/accessories.csv"));
  CHECK_FALSE(exported.files.contains("data/cards.csv")); // there are none
}

TEST_CASE("every table has a head and rows of the same length, one for each entry of the kind") {
  const Exported exported;
  for (const auto& [path, bytes] : exported.files) {
    if (!path.ends_with(".csv")) continue;
    INFO(path);
    const auto rows = reading::read_csv(bytes);
    REQUIRE(rows.size() > 1);
    for (const auto& row : rows) CHECK(row.size() == rows.at(0).size());
  }
  CHECK(reading::read_csv(exported.files.at("data/runs.csv")).size() == 3);
  CHECK(reading::read_csv(exported.files.at("data/features.csv")).size() == 3);
}

TEST_CASE("a table gives what was entered, what follows of the days, and where it stands") {
  const Exported exported;
  CHECK(exported.cell("data/runs.csv", "lantern/ring/brass", "parent") == "lantern/ring");
  CHECK(exported.cell("data/runs.csv", "lantern/ring/brass", "made") == "1976-03-01/1976-06-30");
  CHECK(exported.cell("data/moulds.csv", "lantern/ring", "used") == "{ start = \"1976-02\", end = \"[1977-03..]\" }");
  CHECK(exported.cell("data/moulds.csv", "lantern/ring", "features") == "top = ring or notch; height-mm = 21.5 +- 0.3");
  CHECK(exported.cell("data/moulds.csv", "lantern/ring", "source") == "log p. 14; log p. 15");
  CHECK(exported.cell("data/moulds.csv", "lantern/ring", "start-earliest") == "1976-02-01");
  CHECK(exported.cell("data/moulds.csv", "lantern/ring", "start-latest") == "1976-02-29");
  CHECK(exported.cell("data/moulds.csv", "lantern/ring", "end-earliest") == "1979-06-30"); // the grey run
  CHECK(exported.cell("data/moulds.csv", "lantern/ring", "end-latest").empty());
  CHECK(exported.cell("data/moulds.csv", "lantern/ring", "file") == "l.toml");
  CHECK(exported.cell("data/moulds.csv", "lantern/ring", "line") == "7");
  CHECK(exported.cell("data/issues.csv", "maren/first", "market") == "gb; ie");
  CHECK(exported.cell("data/sources.csv", "source/log", "title") == "=cmd|' /C calc'!A0");
  CHECK(exported.cell("data/sources.csv", "source/log", "notes") == "First.\n\nSecond, with \"quotes\".");
  CHECK(exported.files.at("data/sources.csv").find(",'=cmd") != std::string::npos);
  CHECK(exported.cell("data/leftovers.csv", "", "at-most") == "P1Y6M");
}

TEST_CASE("the table of verdicts is what the judge says") {
  const Exported exported;
  const auto rows = reading::read_csv(exported.files.at("data/verdicts.csv"));
  REQUIRE(rows.size() == 3);
  Judge judge{exported.kb.kb, exported.kb.dates, Basis::conjectured};
  for (std::size_t i = 1; i < rows.size(); ++i) {
    CHECK(rows[i].at(0) == "maren/first");
    CHECK(rows[i].at(1) == "hand");
    const Judgement judgement = judge.judge(exported.kb.run(rows[i].at(2)), exported.kb.issue("maren/first"), false);
    CHECK(rows[i].at(3) == name(judgement.verdict));
    CHECK(rows[i].at(5) == (judgement.gap ? std::to_string(*judgement.gap) : ""));
    CHECK(rows[i].at(6) == gap_words(judgement));
  }
  CHECK(rows[1].at(3) == "fits");
  CHECK(rows[2].at(3) == "anachronistic");
  CHECK(rows[2].at(5) == "731"); // from 1976-12-31, when it was last packed, to 1979-01-01, when it was first made
}

TEST_CASE("the JSON holds every entry with its fields, its evidence and its days on each basis") {
  const Exported exported;
  const Json json = Json::parse(exported.files.at("data/kb.json"));
  CHECK(json.at("format") == "coeval-kb");
  CHECK(json.at("version") == 2);
  CHECK(json.at("entries").size() == exported.kb.kb.entries.entries.size());
  std::map<std::string, Json> by_address;
  std::size_t without = 0;
  for (const Json& entry : json.at("entries")) {
    if (entry.at("address").is_null())
      ++without;
    else
      by_address[entry.at("address")] = entry;
  }
  CHECK(without == 4); // leftover, takes, colour, exclusive
  const Json& mould = by_address.at("lantern/ring");
  CHECK(mould.at("kind") == "mould");
  CHECK(mould.at("parent") == "lantern");
  CHECK(mould.at("line") == 7);
  CHECK(mould.at("fields").at("features") == Json::parse(R"({"top": {"values": ["ring", "notch"]},
      "height-mm": {"values": [21.5], "tolerance": 0.3}})"));
  CHECK(mould.at("fields").at("used").at("start").at("first") == "1976-02-01");
  CHECK(mould.at("fields").at("used").at("end").at("last").is_null());
  CHECK(mould.at("evidence") == Json::parse(R"({"basis": "documented", "sources": ["log p. 14", "log p. 15"],
      "disputed": false})"));
  // The grey run, which has its mould's evidence, was made in 1979, so the mould was in the press till then.
  CHECK(mould.at("span").at("end").at("documented").at("earliest") == "1979-06-30");
  const Json& issue = by_address.at("maren/first");
  CHECK(issue.at("span").at("start").at("documented").at("earliest").is_null());
  CHECK(issue.at("span").at("start").at("conjectured").at("earliest") == "1976-02-01");
  CHECK(issue.at("fields").at("market") == Json::parse(R"(["gb", "ie"])"));
  CHECK(issue.at("fields").at("packer") == "cork");
}

TEST_CASE("the same knowledge base gives the same bytes") { CHECK(Exported{}.files == Exported{}.files); }

} // namespace
