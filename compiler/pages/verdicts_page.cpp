// The page of the verdicts: what each word means, and how an answer comes about.
#include "pages/builders.hpp"
#include "pages/paths.hpp"
#include "pages/tell.hpp"

namespace coeval {
namespace {

void add_ground(Page& page, Ground ground, std::string_view title, std::vector<std::string> texts) {
  Paragraphs paragraphs_of_it;
  for (std::string& text : texts) paragraphs_of_it.texts.push_back({plain(std::move(text))});
  add_section(page, "grounds", title, {std::move(paragraphs_of_it)}, std::string{name(ground)});
}

} // namespace

void build_verdicts(const Site&, const PlannedPage&, Page& page) {
  page.title = "Verdicts";
  page.eyebrow = "How to read the answers";
  page.summary = "What each verdict means, the four grounds that it rests on, and what it does not say.";
  add_section(page, "legend", "The signs", {Legend{}}, "signs");
  add_section(
      page, "grounds", "Four grounds",
      {Paragraphs{
          {{plain("Does this production run belong with this issue? Four grounds are looked at, and each is answered "
                  "yes, no or undecided, with the statements that prove it.")},
           {plain("A proven no on any ground is the verdict, the most basic ground first: place, time, record, route. "
                  "Else a pairing on record makes it attested. Else, where place, time and route are all proven, it "
                  "fits. Everything else is open, and the page says what would settle it.")}}}},
      "grounds");
  add_ground(page, Ground::place, "Place",
             {"Does the issue take this accessory at all, in one of its slots? If its outfit is entered and the "
              "accessory is not in it, the verdict is no-place."});
  add_ground(page, Ground::time, "Time",
             {"Some day on which the run was made, and some later day on which the issue was packed, must lie no "
              "further apart than stock was kept. A part can wait in a bin for a figure; a figure cannot wait for a "
              "part.",
              "If the run surely began only after the issue was last packed, it is anachronistic, with the smallest "
              "gap that is proven. If it surely ended too long before the issue was first packed, it is stale."});
  add_ground(page, Ground::route, "Route",
             {"Could parts get from the plant that moulded them to the plant that packed the issue, in one hop or "
              "several, while each route was open? If every route into a plant is said to be entered and none would "
              "do, the verdict is misrouted. Where the list of routes may be incomplete, silence is not a no."});
  add_ground(page, Ground::record, "Record",
             {"Was the run found with the issue, or examined and found not to belong, or reserved for other issues? "
              "No record at all never speaks against a pairing."});
  add_section(page, "grounds", "How it is known",
              {Paragraphs{{{plain("Every statement has a basis: documented, observed, reported or conjectured, in that "
                                  "order. An answer carries the strongest basis that already proves it. Days come "
                                  "from all statements together: what they entail is known, and nothing else is.")}}},
               List{{{{},
                      {},
                      {{{plain("documented")}, {plain("papers of the time: ledgers, logs, catalogues")}},
                       {{plain("observed")}, {plain("seen or measured on pieces, sealed ones first")}},
                       {{plain("reported")}, {plain("said by somebody, in an interview, a letter or a book")}},
                       {{plain("conjectured")}, {plain("concluded, with no source that says it")}}}}}}},
              "basis");
  add_section(
      page, "more", "What a verdict does not say",
      {Caution{"A verdict is about a run and an issue as this reference knows them. It does not say that a part "
               "in hand is that run: not every reproduction is catalogued. It is no appraisal and no "
               "certificate; for those, turn to licensed appraisers and graders."},
       List{{{{},
              {},
              {{{{"Features", path_of_index(Kind::feature), false}}, {plain("how to look at a part")}},
               {{{"Reproductions", path_of_index(Kind::repro), false}}, {plain("those that are known")}},
               {{{"Agenda", "agenda.html", false}}, {plain("what would settle open verdicts")}}}}}}},
      "limits");
}

} // namespace coeval
