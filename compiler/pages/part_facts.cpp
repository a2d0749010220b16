#include "pages/part_facts.hpp"

#include <fmt/format.h>

namespace coeval {

std::string_view colour_name_of(const Site& site, EntryIndex entry) {
  for (const EntryIndex child : site.backlinks().children[at(entry)])
    if (site.kb().entries[child].kind == Kind::colour) return site.kb().entries[child].text("name");
  return {};
}

void add_colour(const Site& site, EntryIndex entry, Facts& facts) {
  std::string words{colour_name_of(site, entry)};
  const auto lab = lab_of(site, entry);
  if (lab)
    words += fmt::format("{}CIELAB {:g}, {:g}, {:g}", words.empty() ? "" : "; ", (*lab)[0], (*lab)[1], (*lab)[2]);
  if (!words.empty()) facts.facts.push_back({"Colour", {plain(std::move(words))}, lab});
}

void add_plate(const Site& site, const std::vector<EntryIndex>& of, Page& page) {
  Plate plate;
  for (const EntryIndex entry : of)
    for (Picture& picture : pictures_of(site, entry)) {
      if (of.size() > 1) picture.caption = {link_to(site.kb(), entry)};
      plate.pictures.push_back(std::move(picture));
    }
  if (!plate.pictures.empty()) add_section(page, "plate", {}, {std::move(plate)});
}

EntryIndex copied_by(const LinkedKb& kb, const Repro& repro) {
  if (repro.of_run) return kb.runs[at(*repro.of_run)].entry;
  if (repro.of_mould) return kb.moulds[at(*repro.of_mould)].entry;
  return kb.accessories[at(repro.accessory)].entry;
}

std::vector<GivenAway> gives_away(const Site& site, const Repro& repro) {
  std::vector<GivenAway> list;
  const std::vector<StatedLook> original = looks_of(site, copied_by(site.kb(), repro));
  for (const StatedLook& look : looks_of(site, repro.entry)) {
    const StatedLook* copied = find_look(original, look.feature);
    if (copied != nullptr && tells_apart(site.kb(), *copied, look)) list.push_back({*copied, look});
  }
  return list;
}

Table repros_table(const Site& site, const std::vector<ReproIndex>& repros) {
  const LinkedKb& kb = site.kb();
  Table table;
  table.caption = "Reproductions on record";
  for (const std::string_view head : {"Reproduction", "Copies", "How it came about", "What gives it away"})
    table.columns.push_back({.text = {plain(std::string{head})}});
  for (const ReproIndex index : repros) {
    const Repro& repro = kb.repros[at(index)];
    const Entry& entry = kb.entries[repro.entry];
    Text away;
    for (const GivenAway& given : gives_away(site, repro)) {
      if (kb.features[at(given.copy.feature)].destructive) continue;
      if (!away.empty()) away.push_back(plain("; "));
      away.push_back(feature_link(kb, given.copy.feature));
      away.push_back(plain(fmt::format(": {}, not {}", look_words(kb, given.copy), look_words(kb, given.original))));
    }
    if (away.empty()) away = {plain("see its page")};
    std::string how{entry.text("method")};
    if (const std::string_view words = entry.text("how"); !words.empty())
      how += (how.empty() ? "" : ": ") + std::string{words};
    const EntryIndex copied = copied_by(kb, repro);
    table.rows.push_back({{.text = {link_to(kb, repro.entry)}, .lab = lab_of(site, repro.entry)},
                          {.text = {repro.of_run ? Piece{run_name_of(kb, *repro.of_run), link_to(kb, copied).to, false}
                                                 : link_to(kb, copied)}},
                          {.text = {plain(std::move(how))}},
                          {.text = std::move(away)}});
  }
  return table;
}

Paragraphs not_every_repro() {
  return paragraphs(
      "Not every reproduction is known or entered here. A part that shows none of these signs is consistent "
      "with an original, and no more is said than that.");
}

} // namespace coeval
