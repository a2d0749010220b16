// What is in the JSON about two versions?
#include "report/schema_parts.hpp"
#include "verdicts/verdict.hpp"

namespace coeval {

using namespace schema_parts;

Json drift_members() {
  const auto side = [] {
    return object({{"name", text("the folder or revision, as asked for")},
                   {"commit", text_or_null("of a revision: its hash")},
                   {"day", day("of a revision: when it was committed")}});
  };
  const auto change = [](Json question, const Json& answer) {
    question["from"] = answer;
    question["to"] = answer;
    return object(std::move(question));
  };
  Json verdicts = Json::array();
  Json counts = Json::object();
  for (std::size_t i = 0; i < verdict_count; ++i) {
    const std::string verdict{name(Verdict{static_cast<std::uint8_t>(i)})};
    verdicts.push_back(verdict);
    counts[verdict] = whole("pairs with this verdict");
  }
  const Json piece =
      object({{"kind", {{"enum", {"run", "issue"}}}}, {"address", text("address")}, {"verdicts", object(counts)}});
  const Json statement = object({{"statement", text("one sentence")},
                                 {"basis", basis_or_null()},
                                 {"sources", list(text("a citation"), "as written")},
                                 {"definition", flag("true: it holds by the meaning of the words")},
                                 {"file", text("relative to the knowledge base")},
                                 {"line", whole("from 1")},
                                 {"weakest", flag("true: doubt this one first")}},
                                {"file", "line"});
  const Json edit = object({{"edit", {{"enum", {"added", "removed", "edited"}}}},
                            {"kind", text("of its table, as in TOML")},
                            {"address", text("of the entry, or of the one around it that has an address")},
                            {"key", text_or_null("null: the entry as a whole")},
                            {"was", text_or_null("as written")},
                            {"is", text_or_null("as written")},
                            {"basis", basis_or_null()},
                            {"sources", list(text("a citation"), "as written")},
                            {"version", {{"enum", {"from", "to"}}}},
                            {"file", text("in that version")},
                            {"line", whole("from 1")}});
  const Json cause = object(
      {{"edits", list(whole("position in `edits`, from 0"), "made alone, they give every new answer below")},
       {"certainty", {{"enum", {"smallest", "irreducible", "untried"}}}},
       {"verdicts", list(change({{"run", text("address")}, {"issue", text("address")}},
                                object({{"verdict", {{"enum", verdicts}}},
                                        {"basis", basis_or_null()},
                                        {"gap-days", {{"type", {"integer", "null"}}}}})),
                         "sorted by run, then issue")},
       {"bounds",
        list(change({{"point", text("ADDRESS.start or ADDRESS.end")}, {"side", {{"enum", {"earliest", "latest"}}}}},
                    object({{"day", day("null: unbounded")}, {"basis", basis_or_null()}})),
             "of days")},
       {"claims", list(change({{"claim", text("address")}},
                              object({{"standing", {{"enum", {"supported", "open", "refuted"}}}},
                                      {"evidence", {{"enum", {"unstated", "ruled-out", "possible", "proven"}}}}})),
                       "what collectors repeat")}});
  return {{"from", side()},
          {"to", side()},
          {"answers-compared", flag("false: a version contradicts itself, and no question can be asked of it")},
          {"verdicts-compared", whole("pairs of a run and an issue that both versions hold")},
          {"edits", list(edit, "sorted by address")},
          {"causes", list(cause, "the one that explains most first")},
          {"new", list(piece, "runs and issues that only `to` holds")},
          {"gone", list(piece, "runs and issues that only `from` holds")},
          {"contradictions", list(object({{"change", {{"enum", {"came", "gone"}}}},
                                          {"statements", list(statement, "they cannot all be true")}}),
                                  "in one version only")},
          {"perhaps-renamed",
           list(object({{"kind", text("as in TOML")}, {"from", text("address")}, {"to", text("address")}}),
                "a guess: they say the same but for the id")}};
}

} // namespace coeval
