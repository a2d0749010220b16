// Can a program rely on the shape of the JSON and of the SARIF?
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "diagnose/render.hpp"

using namespace coeval;
using Json = nlohmann::json;

namespace {

const FileIndex first_file{0};

SourceSet sources() {
  SourceSet set;
  set.root = "kb";
  set.files.emplace_back("figures/keeper maren #1.toml", "[figure]\nn\xC3\xB6me = \"x\"\n[[issue]]\n");
  return set;
}

// One of everything.
std::vector<Diagnostic> list() {
  Diagnostic key;
  key.code = Code::unknown_key;
  key.place = {first_file, 9, 14}; // nöme
  key.message = "[figure] has no key `n\xC3\xB6me`";
  key.help = "did you mean `name`?";
  key.labels.push_back({{first_file, 0, 8}, "in this table"});
  key.fix = Fix{key.place, "name", true};
  Diagnostic clash;
  clash.code = Code::contradiction;
  clash.place = {first_file, 21, 30};
  clash.message = "these 2 statements cannot all be true";
  clash.reasons.push_back({.statement = "a came after b",
                           .place = {first_file, 21, 30},
                           .basis = Basis::observed,
                           .sources = {"log p. 1", "log p. 2"},
                           .weakest = true});
  clash.reasons.push_back({.statement = "b came after a", .basis = Basis::documented, .definition = true});
  Diagnostic file;
  file.code = Code::unreadable_file;
  file.path = "cards.toml";
  file.message = "this file could not be read";
  Diagnostic nowhere;
  nowhere.code = Code::no_outfit;
  nowhere.message = "m\xFF";
  return {key, clash, file, nowhere, key};
}

} // namespace

TEST_CASE("the JSON has every part of every diagnostic") {
  const Json document = Json::parse(render_json(list(), sources()));
  CHECK(document.size() == 3);
  CHECK(document.at("format") == "coeval-diagnostics");
  CHECK(document.at("version") == 1);
  REQUIRE(document.at("diagnostics").size() == 5);
  const Json& key = document["diagnostics"][0];
  CHECK(key == Json::parse(R"({
    "code": "unknown-key", "severity": "error", "message": "[figure] has no key `nöme`", "help": "did you mean `name`?",
    "place": {"file": "figures/keeper maren #1.toml", "line": 2, "column": 1, "end-line": 2, "end-column": 5, "begin": 9,
              "end": 14},
    "labels": [{"text": "in this table",
                "place": {"file": "figures/keeper maren #1.toml", "line": 1, "column": 1, "end-line": 1, "end-column": 9,
                          "begin": 0, "end": 8}}],
    "reasons": [],
    "fix": {"place": {"file": "figures/keeper maren #1.toml", "line": 2, "column": 1, "end-line": 2, "end-column": 5,
                      "begin": 9, "end": 14},
            "replacement": "name", "certain": true}})"));
  const Json& reasons = document["diagnostics"][1]["reasons"];
  REQUIRE(reasons.size() == 2);
  CHECK(reasons[0]["statement"] == "a came after b");
  CHECK(reasons[0]["basis"] == "observed");
  CHECK(reasons[0]["sources"] == Json{"log p. 1", "log p. 2"});
  CHECK(reasons[0]["weakest"] == true);
  CHECK(reasons[0]["place"]["line"] == 3);
  CHECK(reasons[1]["basis"].is_null());
  CHECK(reasons[1]["definition"] == true);
  CHECK(reasons[1]["place"].is_null());
  CHECK(document["diagnostics"][2]["place"] == Json{{"file", "cards.toml"}});
  CHECK(document["diagnostics"][2]["fix"].is_null());
  CHECK(document["diagnostics"][3]["place"].is_null());
  CHECK(document["diagnostics"][3]["severity"] == "warning");
  CHECK(document["diagnostics"][3]["message"] == "m\xEF\xBF\xBD"); // bytes that are not UTF-8 do no harm
  CHECK(Json::parse(render_json({}, {}))["diagnostics"] == Json::array());
}

// The members that the schema of SARIF 2.1.0 requires, and the rules that its text adds.
TEST_CASE("the SARIF is one run with rules, results and places") {
  const SourceSet set = sources();
  const Json log = Json::parse(render_sarif(list(), set));
  CHECK(log.at("version") == "2.1.0");
  CHECK(log.at("$schema").get<std::string>().ends_with("/sarif-schema-2.1.0.json"));
  REQUIRE(log.at("runs").size() == 1);
  const Json& run = log["runs"][0];
  CHECK(run.at("columnKind") == "unicodeCodePoints");
  const Json& driver = run.at("tool").at("driver");
  CHECK(driver.at("name") == "coeval");
  const Json& rules = driver.at("rules");
  REQUIRE(rules.size() == 4); // each code once
  for (const Json& rule : rules) {
    const CatalogueRow* kind = find_row(rule.at("id").get<std::string>());
    REQUIRE(kind != nullptr);
    CHECK(rule.at("shortDescription").at("text") == kind->title);
    CHECK(rule.at("fullDescription").at("text").get<std::string>().find(kind->why) != std::string::npos);
    CHECK(rule.at("help").at("text").get<std::string>().find(kind->repair) == 0);
    CHECK(rule.at("help").at("markdown").get<std::string>().find(kind->example) != std::string::npos);
    CHECK(rule.at("defaultConfiguration").at("level") == name(kind->severity));
  }
  REQUIRE(run.at("results").size() == 5);
  for (const Json& result : run["results"]) {
    const auto index = result.at("ruleIndex").get<std::size_t>();
    REQUIRE(index < rules.size());
    CHECK(rules[index]["id"] == result.at("ruleId"));
    CHECK(result.at("level") == rules[index]["defaultConfiguration"]["level"]);
    CHECK_FALSE(result.at("message").at("text").get<std::string>().empty());
    CHECK(result.at("locations").is_array());
  }
  const Json& key = run["results"][0];
  const Json& place = key["locations"][0].at("physicalLocation");
  CHECK(place.at("artifactLocation").at("uri") == "figures/keeper%20maren%20%231.toml");
  CHECK(run.at("originalUriBaseIds").contains(place["artifactLocation"].at("uriBaseId").get<std::string>()));
  CHECK(place.at("region") == Json{{"startLine", 2}, {"startColumn", 1}, {"endLine", 2}, {"endColumn", 5}});
  CHECK(key["message"]["text"] == "[figure] has no key `n\xC3\xB6me`\nhelp: did you mean `name`?");
  REQUIRE(key.at("relatedLocations").size() == 1);
  CHECK(key["relatedLocations"][0].at("message").at("text") == "in this table");
  CHECK(key["relatedLocations"][0].at("physicalLocation").at("region").at("startLine") == 1);
  const Json& fix = key.at("fixes").at(0);
  CHECK(fix.at("description").at("text") == "did you mean `name`?");
  CHECK(fix.at("properties").at("certain") == true);
  const Json& change = fix.at("artifactChanges").at(0);
  CHECK(change.at("artifactLocation").at("uri") == "figures/keeper%20maren%20%231.toml");
  CHECK(change.at("replacements").at(0).at("deletedRegion") == place["region"]);
  CHECK(change["replacements"][0].at("insertedContent").at("text") == "name");

  const Json& related = run["results"][1].at("relatedLocations");
  REQUIRE(related.size() == 2);
  CHECK(related[0].at("id") != related[1].at("id"));
  CHECK(related[0]["message"]["text"] == "1. a came after b (observed: log p. 1; log p. 2), doubt this one first");
  CHECK(related[1]["message"]["text"] == "2. b came after a (by definition)");
  CHECK_FALSE(related[1].contains("physicalLocation"));

  const Json& file = run["results"][2];
  CHECK(file["locations"][0]["physicalLocation"] ==
        Json::parse(R"({"artifactLocation": {"uri": "cards.toml", "uriBaseId": "KB"}})"));
  CHECK_FALSE(file.contains("fixes"));
  CHECK(run["results"][3]["locations"].empty());
}

TEST_CASE("SARIF names the root without telling where it lies, and bytes of a path that are not UTF-8") {
  SourceSet set;
  set.root = "elsewhere/kb";
  set.files.emplace_back("caf\xE9.toml", "x\n");
  Diagnostic root;
  root.code = Code::no_entries;
  root.path = set.root;
  root.message = "no file here ends in .toml";
  Diagnostic odd;
  odd.code = Code::broken_toml;
  odd.place = {first_file, 0, 1};
  odd.message = "m";
  const Json results = Json::parse(render_sarif({root, odd}, set))["runs"][0]["results"];
  const auto uri = [&](std::size_t i) {
    return results[i]["locations"][0]["physicalLocation"]["artifactLocation"]["uri"].get<std::string>();
  };
  CHECK(uri(0) == "./");
  CHECK(uri(1) == "caf%E9.toml");
}

TEST_CASE("quoted text makes neither a link nor a placeholder in a SARIF message") {
  Diagnostic diagnostic;
  diagnostic.code = Code::wrong_value;
  const auto text = [&](std::string message) {
    diagnostic.message = std::move(message);
    return Json::parse(render_sarif({diagnostic}, {}))["runs"][0]["results"][0]["message"]["text"].get<std::string>();
  };
  CHECK(text("[[mould]] takes { lab = [1, 2, 3] }") == "[[mould]] takes { lab = [1, 2, 3] }");
  CHECK(text("`[look](http://x.example)`") == "`\\[look\\](http://x.example)`");
  CHECK(text("`{0}` is no id") == "`{{0}}` is no id");
}

TEST_CASE("an empty SARIF is a run without results") {
  const Json run = Json::parse(render_sarif({}, {}))["runs"][0];
  CHECK(run["results"] == Json::array());
  CHECK(run["tool"]["driver"]["rules"] == Json::array());
}
