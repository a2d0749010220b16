// Does the one table of kinds and keys hang together, and does the editors' schema say the same?
#include <catch2/catch.hpp>

#include <set>

#include <nlohmann/json.hpp>

#include "entries/json_schema.hpp"
#include "reading.hpp"

using namespace coeval;

TEST_CASE("every kind stands at its own place in the schema") {
  REQUIRE(schema().size() == static_cast<std::size_t>(kind_count));
  for (std::size_t i = 0; i < schema().size(); ++i) CHECK(schema()[i].kind == static_cast<Kind>(i));
}

TEST_CASE("every key is named once and says what it is for") {
  for (const KindSpec& kind : schema()) {
    INFO("table " << kind.name);
    CHECK_FALSE(kind.doc.empty());
    std::set<std::string_view> names;
    for (const KeySpec& key : kind.keys) {
      INFO("key " << key.name);
      CHECK(names.insert(key.name).second);
      CHECK_FALSE(key.doc.empty());
      CHECK((key.type == ValueType::choice) == !key.choices.empty());
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
