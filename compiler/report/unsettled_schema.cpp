// What do the documents about what is open, claimed or disputed hold?
#include "report/schema_parts.hpp"

namespace coeval {

using namespace schema_parts;

Json agenda_members() {
  Json become = Json::object();
  for (const std::string_view word : {"fits", "stale", "misrouted", "anachronistic"})
    become[std::string{word}] = whole("how many verdicts become that");
  const Json step =
      object({{"from", day("null: no first day is known")},
              {"to", day("null: no last day is known")},
              {"settled", whole("verdicts that are settled on these days")},
              {"become", object(become, {"fits", "stale", "misrouted", "anachronistic"})},
              {"no-later-is-enough", flag("all of that follows from the end being no later than the last day")},
              {"no-earlier-is-enough", flag("or from its being no earlier than the first")}});
  const Json settled = object({{"from", day("null: no first day is known")},
                               {"to", day("null: no last day is known")},
                               {"verdict", verdict()}});
  const Json pair = object({{"run", text("address")},
                            {"issue", text("address")},
                            {"whatever-the-day", flag("settled on every day that it can have been")},
                            {"settled", list(settled, "on which days it becomes what; on all others it stays open")}});
  const Json find = object({{"step", whole("a place in `steps`, from 0, whose verdicts it would settle")},
                            {"find", text("what to look for")},
                            {"such-as", list(text("address"), "cards, marks or issues that would do")}});
  const Json end = object({{"point", text("ADDRESS.start or ADDRESS.end")},
                           {"happened", text("the point in words")},
                           {"earliest", day("null: unbounded")},
                           {"latest", day("null: unbounded")},
                           {"least", whole("verdicts settled on the day that settles fewest")},
                           {"most", whole("and on the one that settles most")},
                           {"whatever-the-day", whole("verdicts settled on every day")},
                           {"steps", list(step, "every day that it can have been, the earliest first")},
                           {"verdicts", list(pair, "open verdicts that it can settle")},
                           {"finds", list(find, "examples that would show one side of it")}});
  return {{"open", whole("verdicts that are open")},
          {"undecided-in-time", whole("of them: the days do not decide it, alone or with something else")},
          {"days", list(end, "unknown days, those that settle most whatever the day first")},
          {"more-days", whole("that were not asked for")},
          {"plants", list(object({{"of", text("a run or an issue whose plant is not known")},
                                  {"waiting", whole("open verdicts that wait for it")}}),
                          "the most awaited first")},
          {"more-plants", whole("that were not asked for")}};
}

Json claims_members() {
  const Json stated = object({{"states", text("one sentence")},
                              {"evidence", {{"enum", {"proven", "ruled out", "allowed"}}}},
                              {"basis", basis_or_null()},
                              {"proof", proof()}});
  return {{"claims", list(object({{"claim", text("address")},
                                  {"name", text("a short title; may be empty")},
                                  {"says", text("what is repeated")},
                                  {"standing", {{"enum", {"supported", "open", "refuted"}}}},
                                  {"evidence", {{"enum", {"proven", "ruled out", "allowed", "not stated"}}}},
                                  {"basis", basis_or_null()},
                                  {"stated", list(stated, "pairings and orders in time; empty for words only")}}),
                          "in the order of the entries")}};
}

Json disputes_members() {
  const Json bounds = object({{"earliest", day("null: unbounded")}, {"latest", day("null: unbounded")}});
  const Json conflict =
      object({{"statements", list(reason(), "that cannot all be true beside it")},
              {"set-aside",
               {{"type", {"integer", "null"}}, {"description", "the place, from 0, of the one that would be wrong"}}}});
  const Json change =
      object({{"run", text("address")}, {"issue", text("address")}, {"before", verdict()}, {"after", verdict()}});
  const Json moved = object({{"point", text("ADDRESS.start or ADDRESS.end")}, {"before", bounds}, {"after", bounds}});
  return {{"disputes",
           list(object({{"statement", reason()},
                        {"cannot-be-right", flag("it contradicts itself, and nothing follows")},
                        {"contradicts", list(conflict, "each remains if only what earlier ones set aside is wrong")},
                        {"verdicts", list(change, "that would differ if it were right")},
                        {"bounds", list(moved, "days that would be known otherwise")}}),
                "in the order of the entries")}};
}

} // namespace coeval
