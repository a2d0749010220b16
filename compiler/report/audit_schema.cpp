// What is in the JSON about what is right, missing and owned on a shelf.
#include "report/schema_parts.hpp"

namespace coeval {

using namespace schema_parts;

namespace {

Json findings() {
  return list(object({{"trouble",
                       {{"enum",
                         {"reproduction", "wrong", "nothing-fits", "misplaced", "undisclosed", "missing", "doubtful",
                          "open", "issue-unknown", "outfit-unknown", "unexamined"}}}},
                      {"wrong", flag("false: only an open question")},
                      {"part", text_or_null("id; null: the piece itself, or an empty slot")},
                      {"slot", text_or_null("of the issue: empty, or where the part is worn")},
                      {"words", text("why, or what is missing")}}),
              "the worst first");
}

} // namespace

Json audit_members() {
  Json slot = object({{"slot", text("its name")},
                      {"state", {{"enum", {"right", "open", "wrong", "reproduction", "empty"}}}},
                      {"accessories", list(text("id"), "that the issue takes there")},
                      {"part", text_or_null("id; null: empty")},
                      {"fit", {{"enum", {"right", "open", "doubtful", "unknown", "wrong", "reproduction", nullptr}}}},
                      {"verdict", verdict_or_null()},
                      {"basis", basis_or_null()},
                      {"could-be", list(text("address"), "every run and reproduction that it can be")},
                      {"judgements", list(object(short_members()), "of each run that it can be")}});
  Json piece = object({{"piece", text("id")},
                       {"issue", text_or_null("address; null: not known")},
                       {"figure", text_or_null("id")},
                       {"priority", whole("1 to 1000")},
                       {"complete", flag("every slot is right")},
                       {"findings", findings()},
                       {"slots", list(std::move(slot), "of the issue; none where that is not known")},
                       {"possible-issues", list(object({{"issue", text("address")},
                                                        {"right", whole("parts that would be right")},
                                                        {"open", whole("parts that would be open")},
                                                        {"wrong", whole("parts that would be wrong")}}),
                                                "where the issue is not known, the likeliest first")}});
  Json best = object(
      {{"piece", text("id")}, {"slot", text("its name")}, {"verdict", verdict_or_null()}, {"basis", basis_or_null()}});
  Json loose = object({{"part", text("id")},
                       {"can-be", {{"enum", {"originals", "reproductions", "mixed", "nothing"}}}},
                       {"could-be", list(text("address"), "every run and reproduction that it can be")},
                       {"findings", findings()},
                       {"takers", whole("slots of owned pieces that it may belong in")},
                       {"helped", whole("of them: empty, or filled less well")},
                       {"best", {{"anyOf", {std::move(best), {{"type", "null"}}}}}}});
  return {{"shelf", text("its name; may be empty")},
          {"slots", object({{"right", whole("slots")},
                            {"open", whole("slots")},
                            {"wrong", whole("slots")},
                            {"reproduction", whole("slots")},
                            {"empty", whole("slots")}})},
          {"pieces", list(piece, "the worst first, then by priority")},
          {"offered", list(piece, "offered or bid for, and not owned; counted nowhere")},
          {"loose", list(std::move(loose), "parts that no piece wears")},
          {"parcels", list(object({{"purchase", text("id")},
                                   {"state", {{"enum", {"offered", "bid", "won", "paid", "sent", "arrived"}}}},
                                   {"since", day("of that state")},
                                   {"unexamined", whole("pieces and parts")},
                                   {"days", {{"type", {"integer", "null"}}, {"description", "since then"}}}}),
                           "that have not arrived, or of which something is not examined")}};
}

Json wants_members() {
  const Json verdict{{"enum", {"attested", "fits", "open", nullptr}}};
  Json run =
      object({{"run", text("address")},
              {"verdict", verdict},
              {"basis", basis_or_null()},
              {"pairings", whole("attested, on record: with the issue, or with any where none is asked about")}});
  Json wanted = object({{"priority", whole("1 to 1000")},
                        {"want", text_or_null("id of what the owner looks for; null: a slot is missing")},
                        {"issue", text_or_null("address; of the missing slot, or looked for")},
                        {"slot", text_or_null("its name")},
                        {"pieces", list(text("id"), "that lack it, the greatest priority first")},
                        {"figure", text_or_null("looked for")},
                        {"run", text_or_null("looked for")},
                        {"accessory", text_or_null("looked for")},
                        {"limit", text_or_null("the most that it may cost: \"41.50 GBP\"")},
                        {"runs", list(std::move(run), "that would do, the best first")},
                        {"ask-the-seller", list(object({{"feature", text("id")},
                                                        {"name", text("as readers see it")},
                                                        {"by", {{"enum", {"in-hand", "photograph", "measurement"}}}}}),
                                                "about the first of the runs, the most telling first")}});
  return {{"shelf", text("its name; may be empty")},
          {"wanted", list(std::move(wanted), "the greatest priority first")}};
}

Json checklist_members() {
  const Json progress = object(
      {{"done", whole("so many")}, {"of", whole("of so many")}, {"percent", whole("rounded down; 100 of none")}});
  Json slot = object({{"slot", text("its name")},
                      {"state", {{"enum", {"right", "open", "wrong", "reproduction", "empty"}}}},
                      {"piece", text_or_null("id; that has it so")}});
  return {{"shelf", text("its name; may be empty")},
          {"owned", progress},
          {"complete", progress},
          {"slots-right", progress},
          {"issues", list(object({{"figure", text("id")},
                                  {"issue", text("address")},
                                  {"pieces", list(text("id"), "owned")},
                                  {"complete", flag("one of them has all, and right")},
                                  {"slots", list(std::move(slot), "the best that is owned")}}),
                          "figure by figure")},
          {"issue-unknown", list(text("id"), "owned pieces that no issue counts")}};
}

} // namespace coeval
