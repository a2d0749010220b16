// Does the one table of kinds and keys hang together, and does the editors' schema say the same?
#include <catch2/catch.hpp>

#include <set>

#include <nlohmann/json.hpp>

#include "entries/json_schema.hpp"
#include "reading.hpp"

using namespace coeval;

TEST_CASE("every kind stands at its own place in the schema") {
  std::size_t place = 0;
  for (const Language language : {Language::knowledge_base, Language::shelf})
    for (const KindSpec& spec : schema(language)) {
      CHECK(spec.kind == static_cast<Kind>(place++));
      CHECK(spec.language() == language);
    }
  CHECK(place == static_cast<std::size_t>(kind_count));
}

TEST_CASE("every key is named once and says what it is for") {
  std::vector<KindSpec> kinds(schema().begin(), schema().end());
  for (const KindSpec& kind : schema(Language::shelf)) kinds.push_back(kind);
  for (const KindSpec& kind : kinds) {
    INFO("table " << kind.name);
    CHECK_FALSE(kind.doc.empty());
    std::set<std::string_view> names;
    for (const KeySpec& key : kind.keys) {
      INFO("key " << key.name);
      CHECK(names.insert(key.name).second);
      CHECK_FALSE(key.doc.empty());
      CHECK((key.type == ValueType::choice || key.type == ValueType::choice_list) == !key.choices.empty());
      CHECK((key.type == ValueType::address || key.type == ValueType::address_list ||
             key.type == ValueType::mark_list) == !key.targets.empty());
    }
    // A table inside another must not be taken for a key, nor the other way round.
    for (const KindSpec* child : children_of(kind.kind))
      if (child->standing == Standing::inside) CHECK(names.insert(child->name).second);
    const std::string_view dates = dates_key(kind.kind);
    if (!dates.empty()) {
      REQUIRE(kind.find(dates) != nullptr);
      CHECK(kind.find(dates)->type == ValueType::dates);
    }
  }
}

TEST_CASE("tables are found by name where they may stand and nowhere else") {
  CHECK(find_top("mould")->kind == Kind::mould);
  CHECK(find_top("takes") == nullptr);
  CHECK(find_child(Kind::mould, "run")->kind == Kind::run);
  CHECK(find_child(Kind::issue, "pairing")->kind == Kind::pairing);
  CHECK(find_child(Kind::claim, "pairing")->kind == Kind::claimed_pairing);
  CHECK(find_child(Kind::figure, "issue") == nullptr); // beside, not inside
}

TEST_CASE("the editors' schema has every table and key with its meaning") {
  const nlohmann::json root = nlohmann::json::parse(file_json_schema(Language::knowledge_base));
  CHECK(root.at("$schema") == "https://json-schema.org/draft/2020-12/schema");
  const std::string all = root.dump();
  for (const KindSpec& kind : schema())
    for (const KeySpec& key : kind.keys) {
      INFO(kind.name << "." << key.name);
      CHECK(all.find(nlohmann::json(key.doc).dump()) != std::string::npos);
    }
  for (const KindSpec& kind : schema())
    if (kind.standing != Standing::inside) CHECK(root.at("properties").contains(kind.name));
}
