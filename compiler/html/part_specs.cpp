// The parts that a template must hold, with their slots.
#include "html/parts.hpp"

namespace coeval {

std::span<const SlotSpec> document_slots() {
  static constexpr std::array<SlotSpec, 9> all{{
      {"head", "title, description, content policy, canonical link, JSON-LD; stands before every link and script"},
      {"site-name", "the name of the reference"},
      {"crumbs", "list items: the way from the home page down to the parent"},
      {"eyebrow", "what kind of thing the page is of"},
      {"title", "the title of the page"},
      {"summary", "the page in one sentence"},
      {"main", "the page itself, arranged by pages/KIND.html"},
      {"edition", "the day that the edition is dated"},
      {"signs", "the shapes that the page uses; nothing that is seen by itself"},
  }};
  return all;
}

const std::vector<PartSpec>& part_specs() {
  static const SlotSpec basis{"basis", "how strong that is: documented, observed, reported, conjectured"};
  static const SlotSpec sources{"sources", "the citations"};
  static const SlotSpec place{"place", "the file and line where it is written"};
  static const SlotSpec number{"number", "the number of the plate on its page"};
  static const SlotSpec caption{"caption", "what it shows"};
  static const SlotSpec proof{"proof", "the steps of the proof, as list items"};
  static const std::vector<SlotSpec> verdict_short{{"sign", "the sign of the verdict"},
                                                   {"word", "the word of the verdict"},
                                                   {"subject", "what is judged"},
                                                   {"gap", "by how much it misses"},
                                                   basis};
  static const std::vector<PartSpec> all = [] {
    std::vector<SlotSpec> verdict = verdict_short;
    verdict[2].doc = "what is judged, without its link: a button may not hold one";
    verdict.push_back({"page", "what is judged, with its link"});
    verdict.push_back({"grounds", "place, time, route and record, each with its proof"});
    verdict.push_back({"settle", "list items: what would settle an open verdict"});
    std::vector<PartSpec> parts{
        {"section", "a stretch of a page under a title", {{"title", "its heading"}, {"body", "what stands in it"}}},
        {"details", "what opens on demand", {{"summary", "what is seen before"}, {"body", "what opens"}}},
        {"caution", "what can go wrong, or hurt", {{"text", "the caution"}}},
        {"evidence", "how an entry is backed", {basis, sources, place, {"dispute", "that it is disputed"}}},
        {"span", "a span of time", {{"label", "what lasted"}, {"start", "its first day"}, {"end", "its last day"}}},
        {"point", "a day, and how it is known", {{"words", "the day in words"}, {"bounds", "both of its bounds"}}},
        {"bound", "one bound of a day", {{"side", "earliest or latest"}, {"day", "the day"}, basis, proof}},
        {"verdict", "a verdict that opens to its proof", verdict},
        {"verdict-short", "a verdict whose proof stands elsewhere", verdict_short},
        {"ground",
         "one of a verdict's grounds",
         {{"name", "place, time, route or record"},
          {"answer", "yes, no or undecided"},
          basis,
          {"words", "why"},
          proof}},
        {"step", "a statement that a proof rests on", {{"statement", "the statement"}, basis, sources, place}},
        {"plate", "pictures side by side", {number, {"pictures", "the pictures"}}},
        {"picture",
         "a picture of the knowledge base",
         {{"image", "the picture"}, {"letter", "which of the plate it is"}, caption, {"credit", "who made it"}}},
        {"drawing",
         "a drawing made by the compiler",
         {number, caption, {"drawing", "the drawing, for a phone and for a desk"}, {"words", "the same in words"}}},
        {"table", "a table", {number, caption, {"table", "the table"}}},
        {"couplet",
         "one question of a key",
         {{"number", "its number in the key"},
          {"question", "what is asked"},
          {"look", "how to look"},
          {"caution", "what to mind"},
          {"answers", "list items: each answer and where it leads"}}},
        {"checker", "where a script lets a reader choose an issue and a part", {}},
        {"search", "where a script lets a reader search", {}},
    };
    static constexpr std::array<std::string_view, verdict_count> signs{
        "sign-attested", "sign-fits",    "sign-open",          "sign-stale",   "sign-misrouted",
        "sign-reserved", "sign-refuted", "sign-anachronistic", "sign-no-place"};
    for (const std::string_view sign : signs)
      parts.push_back({sign, "the sign of a verdict: one svg with a viewBox, told apart by its shape alone", {}});
    return parts;
  }();
  return all;
}

} // namespace coeval
