#include "report/output_schema.hpp"

#include <algorithm>

#include <nlohmann/json.hpp>

namespace coeval {
namespace {

using Json = nlohmann::ordered_json;

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

const Json bases{"documented", "observed", "reported", "conjectured"};
Json basis() { return {{"enum", bases}}; }
Json basis_or_null() { return {{"enum", {"documented", "observed", "reported", "conjectured", nullptr}}}; }

// An object with exactly these members; all are required unless listed as optional.
Json object(Json properties, const std::vector<std::string>& optional = {}) {
  Json required = Json::array();
  for (const auto& [key, value] : properties.items())
    if (std::find(optional.begin(), optional.end(), key) == optional.end()) required.push_back(key);
  return {{"type", "object"},
          {"properties", std::move(properties)},
          {"required", std::move(required)},
          {"additionalProperties", false}};
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

Json short_members() {
  return {{"run", text("address")},
          {"issue", text("address")},
          {"verdict",
           {{"enum",
             {"attested", "fits", "open", "stale", "misrouted", "reserved", "refuted", "anachronistic", "no-place"}}}},
          {"basis", basis_or_null()},
          {"gap-days", {{"type", {"integer", "null"}}, {"description", "for a no on time: the smallest proven gap"}}},
          {"gap", text_or_null("the gap in words")}};
}

Json ground() {
  return object({{"answer", {{"enum", {"yes", "no", "undecided"}}}},
                 {"basis", basis_or_null()},
                 {"words", text("why, in one line")},
                 {"proof", proof()}});
}

Json belongs() {
  Json answer = short_members();
  answer["grounds"] = object({{"place", ground()}, {"time", ground()}, {"route", ground()}, {"record", ground()}});
  answer["would-settle"] = list(text("what to find out"), "for an open verdict");
  return {{"answers", list(object(std::move(answer)), "one for each run asked about")},
          {"instead", list(object(short_members()), "runs of the same accessory that do belong, for a single no")}};
}

Json outfit() {
  return {{"issue", text("address")},
          {"slots", list(object({{"slot", text("its name")},
                                 {"accessory", text("id")},
                                 {"complete", flag("some run is attested or fits")},
                                 {"runs", list(object(short_members()), "the best first")}}),
                         "what the issue takes")},
          {"complete", flag("every slot is")}};
}

Json homes() {
  return {{"runs",
           list(object({{"run", text("address")},
                        {"homes", list(object(short_members()), "issues that take its accessory, the best first")}}),
                "one for each run asked about")}};
}

Json why() {
  const Json side = object({{"day", day("null: unbounded")}, {"basis", basis_or_null()}, {"proof", proof()}});
  return {{"points", list(object({{"point", text("ADDRESS.start or ADDRESS.end")},
                                  {"happened", text("the point in words")},
                                  {"bounds", list(object({{"basis", basis()},
                                                          {"earliest", day("null: unbounded")},
                                                          {"latest", day("null: unbounded")}}),
                                                  "on evidence of each basis or stronger")},
                                  {"earliest", side},
                                  {"latest", side}}),
                          "the ends asked about")}};
}

Json entry_list() {
  return {{"entries", list(object({{"kind", text("as in TOML")},
                                   {"address", text("address")},
                                   {"name", text("may be empty")},
                                   {"file", text("relative path")},
                                   {"line", whole("from 1")}}),
                           "sorted by address")}};
}

Json explain() {
  return {{"codes", list(object({{"code", text("as in diagnostics")},
                                 {"severity", {{"enum", {"error", "warning", "note"}}}},
                                 {"title", text("what it stands for")},
                                 {"why", text("why it matters")},
                                 {"example", text("a short example")},
                                 {"repair", text("what to do")}}),
                         "the code asked about, or all")}};
}

// A range of bytes in a file; a file as a whole; or null where neither is known.
Json place() {
  Json range = object({{"file", text("relative to the knowledge base")},
                       {"line", whole("first line")},
                       {"column", whole("first column")},
                       {"end-line", whole("last line")},
                       {"end-column", whole("after the last column")},
                       {"begin", whole("first byte")},
                       {"end", whole("after the last byte")}});
  range["description"] = "lines and columns from 1 in code points, bytes from 0; ends are exclusive";
  Json file = object({{"file", text("relative to the knowledge base where it lies in it, else as asked for")}});
  file["description"] = "a file or folder as a whole";
  return {{"anyOf", {std::move(range), std::move(file), {{"type", "null"}}}}};
}

Json check() {
  Json label = object({{"text", text("what a second place has to do with the first")}, {"place", place()}});
  Json told = object({{"statement", text("one sentence")},
                      {"basis", basis_or_null()},
                      {"sources", list(text("a citation"), "as written")},
                      {"definition", flag("true: it holds by the meaning of the words")},
                      {"weakest", flag("true: of the statements that exclude each other, doubt this one first")},
                      {"place", place()}});
  Json fix = object({{"place", place()},
                     {"replacement", text("what to write there")},
                     {"certain", flag("true: it cannot change what was meant")}});
  Json diagnostic = object({{"code", text("see `coeval explain CODE`")},
                            {"severity", {{"enum", {"error", "warning", "note"}}}},
                            {"message", text("what was found")},
                            {"help", text("the repair; may be empty")},
                            {"place", place()},
                            {"labels", list(std::move(label), "other places that matter")},
                            {"reasons", list(std::move(told), "the statements that it follows from")},
                            {"fix", {{"anyOf", {std::move(fix), {{"type", "null"}}}}}}});
  return {{"diagnostics", list(std::move(diagnostic), "sorted by file, byte and code")}};
}

} // namespace

std::vector<std::string_view> output_formats() {
  return {"check", "belongs", "outfit", "homes", "why", "list", "explain"};
}

std::optional<std::string> output_json_schema(std::string_view command) {
  Json members = command == "belongs"   ? belongs()
                 : command == "outfit"  ? outfit()
                 : command == "homes"   ? homes()
                 : command == "why"     ? why()
                 : command == "list"    ? entry_list()
                 : command == "explain" ? explain()
                 : command == "check"   ? check()
                                        : Json{};
  if (members.is_null()) return {};
  const std::string format = command == "check" ? "coeval-diagnostics" : "coeval-" + std::string{command};
  Json properties{{"format", {{"const", format}}}, {"version", {{"const", 1}}}};
  if (command != "list" && command != "check" && command != "explain") properties["weakest-basis"] = basis();
  for (const auto& [key, value] : members.items()) properties[key] = value;
  Json schema{{"$schema", "https://json-schema.org/draft/2020-12/schema"},
              {"title", "What `coeval " + std::string{command} + " --format json` writes"}};
  schema.update(object(std::move(properties)));
  return schema.dump(2) + "\n";
}

} // namespace coeval
