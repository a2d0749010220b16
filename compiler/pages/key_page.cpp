#include <algorithm>

#include <fmt/format.h>

#include "examine/key.hpp"
#include "pages/builders.hpp"
#include "pages/looks.hpp"
#include "pages/part_facts.hpp"
#include "pages/paths.hpp"

namespace coeval {
namespace {

class KeyPage {
public:
  // `full_names`: the candidates are of several accessories.
  KeyPage(const LinkedKb& kb, std::vector<Candidate> candidates, bool full_names)
      : kb_(kb), candidates_(std::move(candidates)), full_names_(full_names),
        key_(make_key(tabulate(kb, candidates_))) {}

  // Whether some look tells some of them apart.
  [[nodiscard]] bool tells() const { return !key_.nodes.empty() && key_.nodes.front().look.has_value(); }

  [[nodiscard]] Paragraphs measure() const {
    Paragraphs words;
    words.texts.push_back(
        {plain(fmt::format("On average it takes {:.1f} looks and {:.1f} minutes, each of the {} candidates being "
                           "equally likely; no key that "
                           "ends with as much known can do with fewer than {:.1f} looks.",
                           key_.expected_steps, key_.expected_minutes, candidates_.size(), key_.least_steps))});
    words.texts.push_back({plain(key_.optimal ? "Every order of looks was tried: none takes less effort on average."
                                              : "There are too many candidates to try every order: each time, the look "
                                                "that tells most for its effort is taken. A better order may exist.")});
    if (!key_.complete)
      words.texts.push_back({plain("The key was cut short; where it ends early, several candidates are left.")});
    return words;
  }

  // A couplet for each look, numbered from 1 in the order in which they are reached.
  [[nodiscard]] KeyView couplets() const {
    std::vector<std::size_t> numbers(key_.nodes.size(), 0);
    std::size_t count = 0;
    for (std::size_t i = 0; i < key_.nodes.size(); ++i)
      if (key_.nodes[i].look) numbers[i] = ++count;
    KeyView view;
    std::map<FeatureIndex, std::size_t> told; // the couplet that says how to look
    for (std::size_t i = 0; i < key_.nodes.size(); ++i) {
      const KeyNode& node = key_.nodes[i];
      if (!node.look) continue;
      const Feature& feature = kb_.features[at(*node.look)];
      KeyView::Couplet couplet{numbers[i], {feature_link(kb_, *node.look)}, {}, {}, {}};
      const auto [first, fresh] = told.try_emplace(*node.look, numbers[i]);
      if (full_names_) { // a long key: how to look is told where the question leads
        if (fresh) couplet.look = effort_words(feature) + ".";
        if (fresh) couplet.caution = kb_.entries[feature.entry].text("caution");
      } else if (fresh) {
        couplet.look = how_to_look(feature);
        couplet.caution = kb_.entries[feature.entry].text("caution");
      } else {
        couplet.look = fmt::format("How to look: as at {}.", first->second);
      }
      for (const KeyBranch& branch : node.branches) {
        KeyView::Answer answer{branch.words, numbers[branch.node], {}};
        if (answer.go_to == 0) answer.results = results(key_.nodes[branch.node].candidates);
        couplet.answers.push_back(std::move(answer));
      }
      view.couplets.push_back(std::move(couplet));
    }
    return view;
  }

  [[nodiscard]] std::vector<Text> results(const std::vector<std::size_t>& left) const {
    std::vector<Text> list;
    for (const std::size_t candidate : left) list.push_back(told(candidates_[candidate]));
    return list;
  }
  [[nodiscard]] std::vector<Text> all() const {
    std::vector<Text> list;
    for (const Candidate& candidate : candidates_) list.push_back(told(candidate));
    return list;
  }

private:
  [[nodiscard]] Text told(const Candidate& candidate) const {
    if (const auto* run = std::get_if<RunIndex>(&candidate.what)) {
      const EntryIndex entry = kb_.runs[at(*run)].entry;
      return {full_names_ ? full_link_to(kb_, entry) : Piece{run_name_of(kb_, *run), path_of(kb_, entry), false}};
    }
    const EntryIndex entry = kb_.repros[at(std::get<ReproIndex>(candidate.what))].entry;
    return {plain("reproduction: "), full_names_ ? full_link_to(kb_, entry) : link_to(kb_, entry)};
  }

  [[nodiscard]] std::string how_to_look(const Feature& feature) const {
    std::string words = effort_words(feature) + ".";
    for (const Text& paragraph : paragraphs(kb_.entries[feature.entry].text("look")).texts)
      words += " " + paragraph.front().text;
    return words;
  }

  const LinkedKb& kb_;
  std::vector<Candidate> candidates_;
  bool full_names_;
  Key key_;
};

List see_also(std::vector<List::Item> items) { return List{{{{}, {}, std::move(items)}}}; }

} // namespace

void build_key(const Site& site, const PlannedPage& planned, Page& page) {
  const LinkedKb& kb = site.kb();
  const bool of_slot = planned.entry == no_entry; // everything that goes into the slot that the topic names
  const AccessoryIndex index{of_slot ? 0 : kb.position[at(planned.entry)]};
  const KeyPage key{kb, of_slot ? candidates_in_slot(kb, planned.topic) : candidates_of(kb, index), of_slot};
  const std::string name = of_slot ? "Parts for the slot " + planned.topic : kb.accessories[at(index)].name;
  if (of_slot) page.title = name + ": identification key";
  page.eyebrow = "Identification key";
  page.summary = fmt::format("{}: which run or known reproduction is it? Look by look, the most telling first.", name);

  std::vector<Block> intro{paragraphs(
      "Begin at 1. Look as it says, choose the answer that the part shows, and go on to the number that it "
      "names, until what is left is named. Where no answer fits, the part is not entered, or one of the looks "
      "misled: begin again with another photograph or a better light.")};
  if (key.tells()) intro.emplace_back(key.measure());
  intro.emplace_back(
      Caution{"Nothing that harms the part is in the key. Keep old plastics and paints away from food and "
              "from children: they may hold lead, cadmium or phthalates."});
  intro.emplace_back(not_every_repro());
  add_section(page, "intro", "How to use it", std::move(intro));

  const std::vector<Text> all = key.all();
  if (key.tells()) {
    add_section(page, "key", "The key", {key.couplets()});
  } else {
    List::Group group;
    for (const Text& candidate : all) group.items.push_back({candidate, {}});
    std::vector<Block> blocks{paragraphs(all.empty() ? "Neither a run nor a reproduction of it is entered."
                                                     : "No look on record tells these apart.")};
    if (!group.items.empty()) blocks.emplace_back(List{{std::move(group)}});
    add_section(page, "key", "The key", std::move(blocks));
  }
  if (of_slot) {
    List::Group accessories;
    for (const Accessory& accessory : kb.accessories)
      if (accessory.slot == planned.topic)
        accessories.items.push_back(
            {{link_to(kb, accessory.entry)}, {plain("its own key is shorter, where it is known")}});
    add_section(page, "more", "What goes there", {List{{std::move(accessories)}}});
    return;
  }
  const std::string& slot = kb.accessories[at(index)].slot;
  add_section(page, "more", "See also",
              {see_also({{{link_to(kb, planned.entry)}, {plain("its moulds side by side")}},
                         {{{"Issues against runs", path_of_matrix(kb, index), false}}, {plain("where each belongs")}},
                         {{{"Everything for the slot " + slot, path_of_slot_key(slot), false}},
                          {plain("where even the kind of part is unknown")}}})});
}

} // namespace coeval
