#include <nlohmann/json.hpp>

#include "entries/json_schema.hpp"
#include "export/export.hpp"
#include "export/kb_json.hpp"

namespace coeval {
namespace {

using Json = nlohmann::ordered_json;

Json object_of(Json properties, const std::vector<std::string_view>& required) {
  return {{"type", "object"},
          {"properties", std::move(properties)},
          {"required", required},
          {"additionalProperties", false}};
}
Json or_null(Json schema) { return {{"anyOf", Json::array({std::move(schema), {{"type", "null"}}})}}; }
Json defined(std::string_view name) { return {{"$ref", "#/$defs/" + std::string{name}}}; }

// Dates and features say more in an export than in TOML.
void define_values(Json& defs) {
  defs["iso-day"] = {{"type", "string"}, {"pattern", "^-?\\d{4,}-\\d{2}-\\d{2}$"}};
  const Json day = or_null(defined("iso-day"));
  const Json flag{{"const", true}};
  defs["end-of-dates"] =
      object_of({{"first", day}, {"last", day}, {"approximate", flag}, {"uncertain", flag}}, {"first", "last"});
  defs["dates"] = object_of(
      {{"written", defs["dates"]}, {"start", defined("end-of-dates")}, {"end", defined("end-of-dates")}}, {"written"});
  const Json value{{"type", {"string", "number", "boolean"}}};
  defs["features"] = {{"type", "object"},
                      {"propertyNames", defined("id")},
                      {"additionalProperties", object_of({{"values", {{"type", "array"}, {"items", value}}},
                                                          {"lab", defined("lab")},
                                                          {"tolerance", {{"type", "number"}, {"minimum", 0}}}},
                                                         {"values"})}};
  Json bounds = Json::object();
  for (const Basis basis : all_bases)
    bounds[std::string{name(basis)}] = object_of({{"earliest", day}, {"latest", day}}, {});
  defs["days"] = object_of(std::move(bounds), {"documented", "observed", "reported", "conjectured"});
}

} // namespace

std::string export_json_schema() {
  // The keys of every kind are those of the language, without the tables inside it, which are entries of their own.
  Json defs = Json::parse(file_json_schema(Language::knowledge_base))["$defs"];
  Json kinds = Json::array();
  Json fields_by_kind = Json::array();
  for (const KindSpec& spec : schema()) {
    const std::string word{kind_word(spec.kind)};
    kinds.push_back(word);
    for (const KindSpec* child : children_of(spec.kind))
      if (child->standing == Standing::inside) defs[word]["properties"].erase(std::string{child->name});
    fields_by_kind.push_back({{"if", {{"properties", {{"kind", {{"const", word}}}}}}},
                              {"then", {{"properties", {{"fields", defined(word)}}}}}});
  }
  define_values(defs);
  Json bases = Json::array();
  for (const Basis basis : all_bases) bases.push_back(name(basis));
  Json entry =
      object_of({{"kind", {{"enum", std::move(kinds)}}},
                 {"address", or_null(defined("address"))},
                 {"parent", or_null(defined("address"))},
                 {"file", {{"type", "string"}}},
                 {"line", {{"type", "integer"}, {"minimum", 1}}},
                 {"fields", {{"type", "object"}}},
                 {"evidence", object_of({{"basis", {{"enum", std::move(bases)}}},
                                         {"sources", {{"type", "array"}, {"items", defined("citation")}}},
                                         {"disputed", {{"type", "boolean"}}}},
                                        {"basis", "sources", "disputed"})},
                 {"span", object_of({{"start", defined("days")}, {"end", defined("days")}}, {"start", "end"})}},
                {"kind", "fields"});
  entry["allOf"] = std::move(fields_by_kind);
  Json schema = object_of({{"format", {{"const", kb_json_format}}},
                           {"version", {{"const", kb_json_version}}},
                           {"entries", {{"type", "array"}, {"items", std::move(entry)}}}},
                          {"format", "version", "entries"});
  schema["$defs"] = std::move(defs);
  Json whole{{"$schema", "https://json-schema.org/draft/2020-12/schema"},
             {"title", "A Coeval knowledge base exported as JSON"}};
  whole.update(schema);
  return whole.dump(2) + "\n";
}

} // namespace coeval
