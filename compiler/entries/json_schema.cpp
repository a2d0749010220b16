#include "entries/json_schema.hpp"

#include <nlohmann/json.hpp>

#include "entries/countries.hpp"
#include "entries/schema.hpp"
#include "money/currency.hpp"

namespace coeval {
namespace {

using Json = nlohmann::ordered_json;

constexpr const char* id_pattern = "^[a-z0-9-]{1,80}$";
constexpr const char* address_pattern = "^[a-z0-9-]+(/[a-z0-9-]+)*$";

Json reference(std::string_view name) { return {{"$ref", "#/$defs/" + std::string{name}}}; }
Json list_of(Json items) {
  return {{"type", "array"}, {"items", std::move(items)}, {"minItems", 1}, {"uniqueItems", true}};
}

Json type_of(const KeySpec& key) {
  switch (key.type) {
  case ValueType::id:
    return reference("id");
  case ValueType::text:
    return reference("text");
  case ValueType::flag:
    return {{"type", "boolean"}};
  case ValueType::number:
    return {{"type", "number"}, {"exclusiveMinimum", 0}};
  case ValueType::count:
    return {{"type", "integer"}, {"exclusiveMinimum", 0}};
  case ValueType::numbers:
    return reference("lab");
  case ValueType::choice:
    return {{"enum", key.choices}};
  case ValueType::word_list:
    return list_of(reference("text"));
  case ValueType::date:
    return reference("date");
  case ValueType::dates:
    return reference("dates");
  case ValueType::duration:
    return reference("duration");
  case ValueType::url:
    return reference("url");
  case ValueType::country:
    return reference("country");
  case ValueType::country_list:
    return list_of(reference("country"));
  case ValueType::address:
  case ValueType::span:
    return reference("address");
  case ValueType::address_list:
  case ValueType::span_list:
    return list_of(reference("address"));
  case ValueType::mark_list:
    return list_of(reference("carried-mark"));
  case ValueType::point:
    return reference("point");
  case ValueType::citations:
    return list_of(reference("citation"));
  case ValueType::features:
    return reference("features");
  case ValueType::file:
    return reference("text");
  case ValueType::day:
    return reference("day");
  case ValueType::weight:
    return {{"type", "integer"}, {"minimum", 1}, {"maximum", greatest_weight}};
  case ValueType::text_list:
    return list_of(reference("text"));
  case ValueType::choice_list:
    return list_of({{"enum", key.choices}});
  case ValueType::condition:
    return reference("condition");
  case ValueType::currency:
    return reference("currency");
  case ValueType::money:
    return reference("money");
  case ValueType::percent:
    return reference("percent");
  case ValueType::rate:
    return reference("rate");
  }
  return {};
}

Json table_reference(const KindSpec& spec) {
  const Json one = reference(kind_word(spec.kind));
  return spec.repeated ? Json{{"type", "array"}, {"items", one}, {"description", spec.doc}}
                       : Json{{"$ref", one["$ref"]}, {"description", spec.doc}};
}

Json kind_schema(const KindSpec& spec) {
  Json properties = Json::object();
  Json required = Json::array();
  for (const KeySpec& key : spec.keys) {
    Json value = type_of(key);
    value["description"] = key.doc;
    properties[std::string{key.name}] = std::move(value);
    if (key.required) required.push_back(key.name);
  }
  for (const KindSpec* child : children_of(spec.kind))
    if (child->standing == Standing::inside) properties[std::string{child->name}] = table_reference(*child);
  Json schema{{"type", "object"}, {"description", spec.doc}, {"properties", std::move(properties)}};
  if (!required.empty()) schema["required"] = std::move(required);
  schema["additionalProperties"] = false;
  return schema;
}

Json basic_definitions(Language language) {
  Json defs = Json::object();
  defs["id"] = {{"type", "string"}, {"pattern", id_pattern}};
  defs["text"] = {{"type", "string"}, {"pattern", "\\S"}};
  defs["address"] = {{"type", "string"}, {"pattern", address_pattern}};
  defs["point"] = {{"type", "string"}, {"pattern", "^[a-z0-9-]+(/[a-z0-9-]+)*\\.(start|end)$"}};
  defs["carried-mark"] = {{"type", "string"}, {"pattern", "^[a-z0-9-]+(/[a-z0-9-]+)*(=.*)?$"}};
  defs["citation"] = {{"type", "string"}, {"pattern", "^[a-z0-9-]+( .*)?$"}};
  defs["date"] = {
      {"type", "string"}, {"pattern", "\\S"}, {"$comment", "EDTF, Library of Congress 2019, without intervals"}};
  defs["dates"] = {{"oneOf",
                    {{{"type", "string"}, {"pattern", "\\S"}, {"$comment", "EDTF, Library of Congress 2019"}},
                     {{"type", "object"},
                      {"properties", {{"start", reference("date")}, {"end", reference("date")}}},
                      {"additionalProperties", false}}}}};
  defs["duration"] = {{"type", "string"}, {"pattern", "^P(\\d+W|(?=\\d)(\\d+Y)?(\\d+M)?(\\d+D)?)$"}};
  defs["url"] = {{"type", "string"}, {"pattern", "^https?://[^\\s/?][^\\s]*$"}};
  defs["country"] = {{"enum", std::vector<std::string_view>(country_codes().begin(), country_codes().end())}};
  defs["lab"] = {{"type", "array"}, {"items", {{"type", "number"}}}, {"minItems", 3}, {"maxItems", 3}};
  const Json atom{{"type", {"string", "number", "boolean"}}};
  defs["features"] = {
      {"type", "object"},
      {"propertyNames", {{"pattern", id_pattern}}},
      {"additionalProperties",
       {{"anyOf",
         {atom,
          {{"type", "array"}, {"items", atom}, {"minItems", 1}},
          {{"type", "object"},
           {"properties",
            {{"value", atom}, {"tolerance", {{"type", "number"}, {"minimum", 0}}}, {"lab", reference("lab")}}},
           {"additionalProperties", false}}}}}}};
  if (language == Language::shelf) {
    const std::vector<std::string_view> codes(currency_codes().begin(), currency_codes().end());
    defs["day"] = {{"type", "string"}, {"pattern", "^\\d{4}-\\d{2}-\\d{2}$"}};
    defs["condition"] = {{"anyOf",
                          {{{"type", "string"}, {"pattern", "^(C([1-9](\\.5)?|10)|\\d{1,2}|100)$"}},
                           {{"type", "integer"}, {"minimum", 0}, {"maximum", 100}}}}};
    defs["currency"] = {{"enum", codes}};
    defs["money"] = {{"type", "string"}, {"pattern", "^\\d{1,15}(\\.\\d{1,4})? [A-Z]{3}$"}};
    defs["percent"] = {{"type", "string"}, {"pattern", "^\\d{1,18}(\\.\\d{1,18})?( ?%)?$"}};
    defs["rate"] = {{"type", "string"}, {"pattern", "^\\d{1,18}(\\.\\d{1,18})?$"}};
  }
  return defs;
}

} // namespace

std::string file_json_schema(Language language) {
  Json properties = Json::object();
  Json defs = basic_definitions(language);
  Json dependent = Json::object();
  const std::span<const KindSpec> kinds = schema(language);
  for (const KindSpec& spec : kinds) {
    defs[std::string{kind_word(spec.kind)}] = kind_schema(spec);
    if (spec.standing == Standing::inside) continue;
    properties[std::string{spec.name}] = table_reference(spec);
    if (spec.standing == Standing::beside) dependent[std::string{spec.name}] = {spec_of(spec.parents.front()).name};
  }
  const Json schema{{"$schema", "https://json-schema.org/draft/2020-12/schema"},
                    {"title", language == Language::shelf ? "A Coeval shelf" : "One file of a Coeval knowledge base"},
                    {"type", "object"},
                    {"properties", std::move(properties)},
                    {"dependentRequired", std::move(dependent)},
                    {"additionalProperties", false},
                    {"$defs", std::move(defs)}};
  return schema.dump(2) + "\n";
}

} // namespace coeval
