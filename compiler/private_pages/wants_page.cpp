#include <fmt/format.h>

#include "private_pages/tell.hpp"

namespace coeval {
namespace {

constexpr std::size_t most_runs = 12; // of one slot; the rest is counted

// What is looked for, as the line that one takes to a fair.
Text wanted_words(const PrivatePagesInput& input, const PrivateTeller& tell, const Wanted& wanted) {
  const LinkedKb& kb = input.report.kb;
  if (!wanted.want)
    return {words(input.judge.slots(wanted.issue)[wanted.slot].name + " of "),
            tell.entry(kb.issues[at(wanted.issue)].entry)};
  const Want& want = input.shelf.wants[*wanted.want];
  if (want.issue) return {tell.entry(kb.issues[at(*want.issue)].entry)};
  if (want.figure) return {tell.entry(kb.figures[at(*want.figure)].entry)};
  if (want.run) return {tell.entry(kb.runs[at(*want.run)].entry)};
  if (want.accessory) return {tell.entry(kb.accessories[at(*want.accessory)].entry)};
  return {coded(want.id)};
}

// For whom, how dear, how urgent.
std::string wanted_note(const PrivatePagesInput& input, const Wanted& wanted) {
  std::string note;
  for (const PieceIndex piece : wanted.pieces)
    note += fmt::format("{}{}", note.empty() ? "for " : ", ", input.shelf[piece].id);
  if (wanted.priority != 1) note += fmt::format("{}priority {}", note.empty() ? "" : "; ", wanted.priority);
  if (wanted.want)
    if (const auto& limit = input.shelf.wants[*wanted.want].limit)
      note += fmt::format("{}at most {}", note.empty() ? "" : "; ", text(*limit));
  return note;
}

Table runs_of(const PrivateTeller& tell, const Wanted& wanted) {
  Table table;
  table.caption = "Runs that would do, the best first";
  table.columns = {{{words("Run")}}, {{words("Verdict")}}, {{words("Found so, on record")}}};
  for (std::size_t i = 0; i < wanted.runs.size() && i < most_runs; ++i) {
    const WantedRun& run = wanted.runs[i];
    Cell verdict{{words(run.judgement == nullptr ? "–" : std::string{name(run.judgement->verdict)})}};
    if (run.judgement != nullptr) verdict.verdict = run.judgement->verdict;
    table.rows.push_back({{{tell.entry(tell.kb().runs[at(run.run)].entry)}},
                          std::move(verdict),
                          {{words(std::to_string(run.pairings))}}});
  }
  if (wanted.runs.size() > most_runs)
    table.rows.push_back({{{words(fmt::format("and {} more", wanted.runs.size() - most_runs))}}, {}, {}});
  return table;
}

} // namespace

Page wants_page(const PrivatePagesInput& input) {
  const PrivateTeller tell{input};
  Page page{.path = "wants.html", .title = "Wants"};
  page.summary =
      fmt::format("What is still missing after the best swap, and what else is looked for: {}.", input.wanted.size());
  if (input.wanted.empty()) {
    page.sections.push_back({"intro", {}, {}, {Paragraphs{{{words("Nothing is missing.")}}}}});
    return page;
  }
  Checklist list;
  list.groups.emplace_back();
  for (const Wanted& wanted : input.wanted)
    list.groups.back().items.push_back({wanted_words(input, tell, wanted), wanted_note(input, wanted)});
  add_to_list(page, "To take along", {std::move(list)});

  std::vector<Block> blocks;
  for (const Wanted& wanted : input.wanted) {
    if (wanted.runs.empty() && wanted.ask.empty()) continue;
    Details details{wanted_words(input, tell, wanted), {}};
    if (!wanted.runs.empty()) details.inside.push_back(runs_of(tell, wanted));
    if (!wanted.ask.empty()) {
      List ask{{{"Ask a seller to show or measure", {}, {}}}};
      for (const FeatureIndex feature : wanted.ask)
        ask.groups.front().items.push_back(
            {{words(input.report.kb.features[at(feature)].name)},
             {words(std::string{input.report.kb.entries[input.report.kb.features[at(feature)].entry].text("look")})}});
      details.inside.push_back(std::move(ask));
    }
    blocks.push_back(std::move(details));
  }
  add_to_list(page, "What would do, and what to ask", std::move(blocks));
  return page;
}

} // namespace coeval
