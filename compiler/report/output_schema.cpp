#include "report/output_schema.hpp"

#include <algorithm>
#include <array>

#include "report/schema_parts.hpp"

namespace coeval {
namespace {

using namespace schema_parts;

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

Json cautions() { return list(text("one sentence"), "what whoever relies on the answer must know"); }

Json mark_members() {
  return {{"mark", text("address")},
          {"name", text("as readers see it")},
          {"kind", text_or_null("what it is about")},
          {"text", text_or_null("what it looks like or reads")},
          {"where", text_or_null("where it is found")},
          {"country", text_or_null("ISO 3166 code, lower case")},
          {"jurisdiction", text_or_null("whose law or scheme it is, where that is not one country's")},
          {"caution", text_or_null("what it does not prove")}};
}

Json marks() {
  Json mark = mark_members();
  mark["reading"] = {{"enum", {"year", "number", nullptr}}};
  mark["first-day"] = day("nothing that carries it is older; null: unknown");
  mark["last-day"] = day("null: unknown");
  mark["end-binds"] = flag("true: nothing that carries it is younger than its last day");
  mark["numbers"] = list(object({{"from", whole("the first number given out then")}, {"on", text("EDTF")}}),
                         "of a mark that reads a number, rising");
  mark["dates"] = text("what it says about the age of what carries it");
  return {{"marks", list(object(std::move(mark)), "by kind, then by id")}, {"cautions", cautions()}};
}

Json dated() {
  const Json bound = object({{"day", day("null: unbounded")}, {"basis", basis_or_null()}, {"proof", proof()}});
  Json mark = mark_members();
  mark["reading"] = {{"type", {"integer", "null"}}, {"description", "the year or the number"}};
  mark["earliest"] = bound;
  mark["latest"] = bound;
  mark["last-day"] = day("its own, binding or not");
  mark["read-first"] = day("the first day of the year, or on which the number can have been given out");
  mark["read-last"] = day("the last such day; null: unknown");
  mark["below-first-number"] = flag("true: nothing is entered about so low a number");
  Json end =
      object({{"day", day("what it cannot be beyond")}, {"mark", whole("which mark decides: a place in `marks`")}});
  const Json end_or_null{{"anyOf", {std::move(end), {{"type", "null"}}}}, {"description", "null: unbounded"}};
  return {{"contradictory", flag("true: nothing can carry all of them")},
          {"earliest", end_or_null},
          {"latest", end_or_null},
          {"bounds",
           list(object({{"basis", basis()}, {"earliest", day("null: unbounded")}, {"latest", day("null: unbounded")}}),
                "on evidence of each basis or stronger")},
          {"marks", list(object(std::move(mark)), "as asked, each by itself")},
          {"contradictions", list(object({{"early", whole("a place in `marks`: gone before the other came up")},
                                          {"late", whole("a place in `marks`")},
                                          {"gap-days", whole("at least")},
                                          {"basis", basis()},
                                          {"proof", proof()}}),
                                  "pairs that nothing carries both of")},
          {"cautions", cautions()}};
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

Json number(std::string_view doc) { return {{"type", "number"}, {"description", doc}}; }

Json candidate_members() {
  return {{"address", text("of a run or reproduction")},
          {"original", flag("false: a reproduction")},
          {"copies", text_or_null("for a reproduction: the run or mould that it copies")}};
}
Json candidates(std::string_view doc) { return list(object(candidate_members()), doc); }

Json looks() {
  return list(object({{"feature", text("id")},
                      {"name", text("as readers see it")},
                      {"bits", number("what the look tells of the question, on average")},
                      {"minutes", number("what it takes")},
                      {"bits-per-minute", number("the order of the list")},
                      {"by", {{"enum", {"in-hand", "photograph", "measurement"}}}},
                      {"tool", text("what it takes")},
                      {"look", text("how to look")},
                      {"caution", text("may be empty")}}),
              "what to look at next, the most telling for the effort first; nothing that harms the part");
}

void add_outcome(Json& members) {
  Json left = candidate_members();
  left["agrees"] = list(text("an observation"), "that agree with it");
  left["undecided"] = list(text("an observation"), "measured too roughly to decide");
  Json excluded = candidate_members();
  excluded["by"] = list(object({{"seen", text("an observation")}, {"stated", text("what it states of that")}}),
                        "the observations that exclude it");
  const Json ruling = object({{"mark", text("with what it reads")},
                              {"words", text("why, in one line")},
                              {"gap-days", whole("at least")},
                              {"basis", basis()}});
  excluded["by-mark"] = {{"anyOf", {ruling, {{"type", "null"}}}}, {"description", "a mark that it cannot carry"}};
  Json claimed = ruling;
  claimed["properties"]["proof"] = proof();
  claimed["required"].push_back("proof");
  members["marks"] = list(
      object({{"mark", text("with what it reads")},
              {"caution", text("may be empty")},
              {"excludes", {{"anyOf", {std::move(claimed), {{"type", "null"}}}}, {"description", "the claimed run"}}}}),
      "the marks that it carries");
  members["remaining"] = {{"enum", {"originals", "reproductions", "mixed", "nothing"}}};
  members["candidates"] = whole("how many runs and reproductions were compared");
  members["left"] =
      list(object(std::move(left)), "candidates that nothing excludes, those that most observations agree with first");
  members["excluded"] = list(object(std::move(excluded)), "the others");
  members["nearest"] = candidates("where nothing is left: those that the fewest observations exclude");
  members["look-again"] = list(text("an observation"), "where nothing is left: which to doubt first");
  members["next"] = looks();
}

Json seen() { return list(object({{"feature", text("id")}, {"seen", text("as given")}}), "what was looked at"); }

Json identify() {
  Json members{{"of", text("an accessory, a slot, or empty for all accessories")}, {"seen", seen()}};
  add_outcome(members);
  members["cautions"] = cautions();
  return members;
}

Json key() {
  Json branch = object({{"shows", text("what is seen")},
                        {"probability", number("once the look is reached; 0 for anything else than is entered")},
                        {"node", whole("where it leads: a place in `nodes`, from 0")}});
  Json node = object({{"candidates", list(whole("a place in `candidates`, from 0"), "what is left here")},
                      {"look", text_or_null("a feature; null: an end of the key")},
                      {"branches", list(std::move(branch), "what the look can show")}});
  return {{"of", text("an accessory or a slot")},
          {"candidates", candidates("the runs and reproductions that it tells apart")},
          {"optimal", flag("every order was tried; false: the most telling look was taken each time")},
          {"complete", flag("false: cut short because it grew too large")},
          {"expected-looks", number("on average, all candidates being equally likely")},
          {"expected-minutes", number("the same in minutes")},
          {"least-looks", number("no key that ends with as much known needs fewer on average")},
          {"least-minutes", number("the same in minutes")},
          {"nodes", list(std::move(node), "the first is where to begin")},
          {"cautions", cautions()}};
}

Json with() {
  Json answer = short_members();
  answer["grounds"] = object({{"place", ground()}, {"time", ground()}, {"route", ground()}, {"record", ground()}});
  answer["would-settle"] = list(text("what to find out"), "for an open verdict");
  return {{"anyOf", {object(std::move(answer)), {{"type", "null"}}}},
          {"description", "whether what is claimed belongs with the issue asked about"}};
}

Json examine() {
  Json members{
      {"claimed", object(candidate_members())},
      {"answer", {{"enum", {"consistent", "excluded", "undecided"}}}},
      {"seen", list(object({{"feature", text("id")},
                            {"seen", text("as given")},
                            {"as-claimed", text_or_null("what the claimed run states")},
                            {"stands", {{"enum", {"agrees", "excludes", "too rough to decide", "not stated"}}}}}),
                    "what was looked at")},
      {"could-also-be", candidates("left, and a look can tell them from what is claimed")},
      {"not-told-apart", candidates("left, and no look is sure to")}};
  add_outcome(members);
  members["with"] = with();
  members["cautions"] = cautions();
  return members;
}

Json ask() {
  const Json request = object({{"feature", text("id")},
                               {"name", text("as readers see it")},
                               {"bits", number("what it tells of whether it is what is claimed")},
                               {"by", {{"enum", {"in-hand", "photograph", "measurement"}}}},
                               {"look", text("how to take it")},
                               {"caution", text("may be empty")},
                               {"as-claimed", text_or_null("what the claimed run should show")},
                               {"rules-out", candidates("that are excluded if it shows that")},
                               {"may-rule-out", candidates("that are excluded if it shows that clearly")}});
  return {{"claimed", object(candidate_members())},
          {"excluded", flag("what is known already rules it out; nothing is asked")},
          {"seen", seen()},
          {"could-also-be", candidates("before anything is asked")},
          {"ask-the-seller", list(request, "by photograph or measurement, the most telling first")},
          {"in-the-hand", list(request, "what a seller cannot tell from afar")},
          {"never-ruled-out", candidates("what no look tells from it for sure")},
          {"with", with()},
          {"cautions", cautions()}};
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

// What a command writes: its members, beside "format" and "version".
struct WrittenDocument {
  std::string_view command;
  Json (*members)();
  bool names_basis = true; // the weakest basis that was allowed stands in its head
};
constexpr std::array documents{
    WrittenDocument{"check", check, false},
    WrittenDocument{"belongs", belongs},
    WrittenDocument{"outfit", outfit},
    WrittenDocument{"homes", homes},
    WrittenDocument{"why", why},
    WrittenDocument{"list", entry_list, false},
    WrittenDocument{"explain", explain, false},
    WrittenDocument{"marks", marks},
    WrittenDocument{"dated", dated},
    WrittenDocument{"identify", identify},
    WrittenDocument{"key", key},
    WrittenDocument{"examine", examine},
    WrittenDocument{"ask", ask},
    WrittenDocument{"drift", drift_members},
    WrittenDocument{"agenda", agenda_members},
    WrittenDocument{"claims", claims_members},
    WrittenDocument{"disputes", disputes_members},
    WrittenDocument{"swap", swap_members},
    WrittenDocument{"audit", audit_members},
    WrittenDocument{"wants", wants_members},
    WrittenDocument{"checklist", checklist_members},
    WrittenDocument{"ledger", ledger_members, false},
    WrittenDocument{"ceiling", ceiling_members, false},
    WrittenDocument{"comparables", comparables_members, false},
    WrittenDocument{"parcel", parcel_members, false},
    WrittenDocument{"convert", convert_members, false},
};

} // namespace

std::vector<std::string_view> output_formats() {
  std::vector<std::string_view> commands;
  for (const WrittenDocument& document : documents) commands.push_back(document.command);
  return commands;
}

std::optional<std::string> output_json_schema(std::string_view command) {
  const auto* document = std::ranges::find(documents, command, &WrittenDocument::command);
  if (document == documents.end()) return {};
  const std::string format = command == "check" ? "coeval-diagnostics" : "coeval-" + std::string{command};
  Json properties{{"format", {{"const", format}}}, {"version", {{"const", 1}}}};
  if (document->names_basis) properties["weakest-basis"] = basis();
  const Json members = document->members();
  for (const auto& [key, value] : members.items()) properties[key] = value;
  Json schema{{"$schema", "https://json-schema.org/draft/2020-12/schema"},
              {"title", "What `coeval " + std::string{command} + " --format json` writes"}};
  schema.update(object(std::move(properties)));
  return schema.dump(2) + "\n";
}

} // namespace coeval
