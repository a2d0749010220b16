#include "report/schema_parts.hpp"

#include <algorithm>

namespace coeval::schema_parts {

Json text(std::string_view doc) { return {{"type", "string"}, {"description", doc}}; }
Json text_or_null(std::string_view doc) { return {{"type", {"string", "null"}}, {"description", doc}}; }
Json whole(std::string_view doc) { return {{"type", "integer"}, {"description", doc}}; }
Json flag(std::string_view doc) { return {{"type", "boolean"}, {"description", doc}}; }
Json list(Json items, std::string_view doc) {
  return {{"type", "array"}, {"items", std::move(items)}, {"description", doc}};
}
Json day(std::string_view doc) {
  return {{"type", {"string", "null"}}, {"pattern", "^[+-]?\\d{4,}-\\d\\d-\\d\\d$"}, {"description", doc}};
}

Json basis() { return {{"enum", {"documented", "observed", "reported", "conjectured"}}}; }
Json basis_or_null() { return {{"enum", {"documented", "observed", "reported", "conjectured", nullptr}}}; }

Json object(Json properties, const std::vector<std::string>& optional) {
  Json required = Json::array();
  for (const auto& [key, value] : properties.items())
    if (std::find(optional.begin(), optional.end(), key) == optional.end()) required.push_back(key);
  return {{"type", "object"},
          {"properties", std::move(properties)},
          {"required", std::move(required)},
          {"additionalProperties", false}};
}

Json verdict() {
  return {
      {"enum", {"attested", "fits", "open", "stale", "misrouted", "reserved", "refuted", "anachronistic", "no-place"}}};
}

Json verdict_or_null() {
  Json either = verdict();
  either["enum"].push_back(nullptr);
  return either;
}

Json short_members() {
  return {{"run", text("address")},
          {"issue", text("address")},
          {"verdict", verdict()},
          {"basis", basis_or_null()},
          {"gap-days", {{"type", {"integer", "null"}}, {"description", "for a no on time: the smallest proven gap"}}},
          {"gap", text_or_null("the gap in words")}};
}

Json reason() {
  return object({{"statement", text("one sentence")},
                 {"basis", basis_or_null()},
                 {"sources", list(text("a citation"), "as written")},
                 {"definition", flag("true: it holds by the meaning of the words")},
                 {"file", text("relative to the knowledge base")},
                 {"line", whole("from 1")}},
                {"file", "line"});
}

Json proof() { return list(reason(), "the statements that prove it, in order"); }

} // namespace coeval::schema_parts
