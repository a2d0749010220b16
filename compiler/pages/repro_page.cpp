#include <algorithm>

#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/part_facts.hpp"
#include "pages/paths.hpp"
#include "pages/records.hpp"

namespace coeval {
namespace {

std::string_view method_words(std::string_view method) {
  if (method == "recast") return "recast: cast in a mould taken from an original";
  if (method == "cut-down") return "cut down from another part";
  if (method == "recoloured") return "recoloured";
  if (method == "assembled") return "assembled from several parts";
  if (method == "new-mould") return "made in a new mould";
  if (method == "later-reissue") return "a later reissue";
  return method;
}

void add_about(const Site& site, const Repro& repro, Page& page) {
  const LinkedKb& kb = site.kb();
  const Entry& entry = kb.entries[repro.entry];
  Facts facts;
  add_fact(facts, "Copies", {full_link_to(kb, copied_by(kb, repro))});
  add_fact(facts, "Method", {plain(std::string{method_words(entry.text("method"))})});
  add_fact(facts, "How it was made", {plain(std::string{entry.text("how")})});
  if (repro.donor) add_fact(facts, "Made from", {full_link_to(kb, *repro.donor)});
  if (const auto* since = entry.get<WrittenDate>("since")) add_fact(facts, "Known since", {plain(since->text)});
  add_fact(facts, "Material", {plain(std::string{entry.text("material")})});
  add_colour(site, repro.entry, facts);
  add_fact(facts, "Address", {address_piece(kb, repro.entry)});
  std::vector<Block> about{std::move(facts)};
  add_notes_and_evidence(site, repro.entry, about);
  add_section(page, "about", {}, std::move(about));
}

// A row for what both state in words outside of their features.
void add_words(Table& table, std::string label, std::string original, std::string copy) {
  if (original.empty() && copy.empty()) return;
  const bool differs = !original.empty() && !copy.empty() && original != copy;
  const auto cell = [&](std::string words) {
    Cell result{.text = {plain(words.empty() ? "not stated" : std::move(words))}};
    result.differs = differs;
    return result;
  };
  table.rows.push_back({{.text = {plain(std::move(label))}}, cell(std::move(original)), cell(std::move(copy))});
}

// Original and reproduction side by side, in every feature that the reproduction states or differs in.
Table side_by_side(const Site& site, const Repro& repro) {
  const LinkedKb& kb = site.kb();
  const EntryIndex original = copied_by(kb, repro);
  Cell head{.text = {plain("Original: "), link_to(kb, original)}};
  head.lab = lab_of(site, original);
  Cell copy_head{.text = {plain("Reproduction: " + name_of(kb, repro.entry))}};
  copy_head.lab = lab_of(site, repro.entry);
  std::vector<Picture> pictures = pictures_of(site, original);
  if (pictures.empty() && repro.of_mould) pictures = pictures_of(site, kb.moulds[at(*repro.of_mould)].entry);
  if (!pictures.empty()) head.picture = std::move(pictures.front());
  if (pictures = pictures_of(site, repro.entry); !pictures.empty()) copy_head.picture = std::move(pictures.front());
  Table table = comparison(site, "Original and reproduction; what tells them apart is marked",
                           {{std::move(head), original}, {std::move(copy_head), repro.entry}}, repro.entry);
  add_words(table, "Colour", std::string{colour_name_of(site, original)},
            std::string{colour_name_of(site, repro.entry)});
  add_words(table, "Material", std::string{kb.entries[original].text("material")},
            std::string{kb.entries[repro.entry].text("material")});
  return table;
}

// How to look at what gives it away, and what can go wrong.
void add_looking(const Site& site, const Repro& repro, std::vector<Block>& blocks) {
  const LinkedKb& kb = site.kb();
  List::Group looks{"How to look", {}, {}};
  std::vector<Block> cautions;
  for (const GivenAway& given : gives_away(site, repro)) {
    const Feature& feature = kb.features[at(given.copy.feature)];
    const Entry& entry = kb.entries[feature.entry];
    if (feature.destructive) {
      cautions.emplace_back(Caution{feature.name + ": this look harms the part, and is not proposed."});
      continue;
    }
    Text note{plain(effort_words(feature) + ".")};
    for (const Text& paragraph : paragraphs(entry.text("look")).texts) {
      note.push_back(plain(" "));
      append(note, paragraph);
    }
    looks.items.push_back({{feature_link(kb, given.copy.feature),
                            plain(fmt::format(": {} on the original, {} on the reproduction",
                                              look_words(kb, given.original), look_words(kb, given.copy)))},
                           std::move(note)});
    if (const std::string_view caution = entry.text("caution"); !caution.empty())
      cautions.emplace_back(Caution{feature.name + ": " + std::string{caution}});
  }
  if (looks.items.empty())
    blocks.emplace_back(paragraphs("Nothing that is stated tells it from the original. Its notes say what is known."));
  else
    blocks.emplace_back(List{{std::move(looks)}});
  blocks.insert(blocks.end(), std::make_move_iterator(cautions.begin()), std::make_move_iterator(cautions.end()));
}

} // namespace

void build_repro(const Site& site, const PlannedPage& planned, Page& page) {
  const LinkedKb& kb = site.kb();
  const ReproIndex index{kb.position[at(planned.entry)]};
  const Repro& repro = kb.repros[at(index)];
  page.eyebrow = singular_of(Kind::repro);
  page.summary = fmt::format("{}: a reproduction of {}, and what gives it away.", page.title,
                             full_name_of(kb, copied_by(kb, repro)));
  add_about(site, repro, page);
  std::vector<EntryIndex> pictured{copied_by(kb, repro), planned.entry};
  if (repro.of_run && repro.of_mould) pictured.insert(pictured.begin(), kb.moulds[at(*repro.of_mould)].entry);
  add_plate(site, pictured, page);

  std::vector<Block> blocks;
  if (Table table = side_by_side(site, repro); !table.rows.empty()) blocks.emplace_back(std::move(table));
  add_looking(site, repro, blocks);
  blocks.emplace_back(Caution{"Keep old and unknown plastics, paints and metal away from food and from children: they "
                              "may hold lead, cadmium or "
                              "phthalates. Nothing here is an appraisal or a certificate."});
  blocks.emplace_back(not_every_repro());
  add_section(page, "give-away", "What gives it away", std::move(blocks));

  if (const auto looks = looks_of(site, planned.entry); !looks.empty())
    add_section(page, "looks", "What can be seen and measured",
                {paragraphs("What it does not state itself is as in what it copies."),
                 looks_table(site, "What is stated of it", looks)});

  List::Group group;
  const Accessory& accessory = kb.accessories[at(repro.accessory)];
  group.items.push_back({{{"Identification key", path_of_key(kb, repro.accessory), false}},
                         {plain("with its reproductions, look by look")}});
  for (const ReproIndex other : accessory.repros)
    if (other != index) group.items.push_back({{full_link_to(kb, kb.repros[at(other)].entry)}, {plain("also known")}});
  add_section(page, "more", "Other reproductions of the same accessory", {List{{std::move(group)}}});
  add_disputed(site, {planned.entry}, page);
}

} // namespace coeval
