// Paragraphs, facts, lists, boxes to tick, keys and what opens on demand.
#include "html/composition.hpp"

#include <fmt/format.h>

namespace coeval {
namespace {

std::string letter(std::size_t position) { return std::string(1, static_cast<char>('a' + position % 26)); }

} // namespace

void add_block(Composition& page, Node into, const Paragraphs& block) {
  for (const Text& text : block.texts) add_text(page, add(into, "p"), text);
}

void add_block(Composition& page, Node into, const Caution& block) {
  add_part(page, Part::caution, into, [&](std::string_view, Node slot) { add_plain(slot, block.text); });
}

void add_block(Composition& page, Node into, const Facts& block) {
  if (block.facts.empty()) return;
  Node list = add(into, "dl", "facts");
  for (const Facts::Fact& fact : block.facts) {
    Node group = add(list, "div");
    add_plain(add(group, "dt"), fact.label);
    Node value = add(group, "dd");
    if (fact.lab) add_swatch(value, *fact.lab);
    add_text(page, value, fact.value);
  }
}

void add_block(Composition& page, Node into, const List& block) {
  for (const List::Group& group : block.groups) {
    Node place = into;
    if (!group.title.empty()) {
      place = add(into, "div", "group");
      set_id(page, add_heading(page, place, {{group.title, {}, false}}), group.anchor);
    }
    if (group.items.empty()) continue;
    Node list = add(place, "ul", "list");
    for (const List::Item& item : group.items) {
      Node line = add(list, "li");
      add_text(page, line, item.text);
      if (item.note.empty()) continue;
      add_plain(line, " ");
      add_text(page, add(line, "span", "note"), item.note);
    }
  }
}

void add_block(Composition& page, Node into, const Checklist& block) {
  Node all = add(into, "div", "checklist");
  set(all, "data-tool", "checklist");
  for (const Checklist::Group& group : block.groups) {
    Node place = add(all, "div", "group");
    if (!group.title.empty()) add_heading(page, place, group.title);
    Node list = add(place, "ul");
    for (const Checklist::Item& item : group.items) {
      Node line = add(list, "li");
      Node box = add(line, "input");
      set(box, "type", "checkbox");
      set(box, "aria-label", plain_text(item.text));
      Node words = add(line, "span");
      add_text(page, words, item.text);
      if (item.note.empty()) continue;
      add_plain(words, " ");
      add_plain(add(words, "span", "note"), item.note);
    }
  }
}

void add_block(Composition& page, Node into, const KeyView& block) {
  if (block.couplets.empty()) return;
  Node list = add(into, "ol", "key");
  for (const KeyView::Couplet& couplet : block.couplets) {
    Node item = add(list, "li");
    set_id(page, item, fmt::format("couplet-{}", couplet.number));
    add_part(page, Part::couplet, item, [&](std::string_view slot, Node place) {
      if (slot == "number") add_plain(place, fmt::format("{}", couplet.number));
      if (slot == "question") add_text(page, place, couplet.question);
      if (slot == "look") add_plain(place, couplet.look);
      if (slot == "caution") add_plain(place, couplet.caution);
      if (slot == "answers")
        for (std::size_t i = 0; i < couplet.answers.size(); ++i) {
          const KeyView::Answer& answer = couplet.answers[i];
          Node line = add(place, "li");
          Node words = add(line, "span", "lead");
          add_plain(add(words, "span", "letter"), fmt::format("{}{}", couplet.number, letter(i)));
          add_plain(words, " " + answer.text);
          add_plain(line, " ");
          Node end = add(line, "span", "leads-to");
          if (answer.go_to != 0) {
            const std::string number = fmt::format("{}", answer.go_to);
            add_text(page, end, {{"go to ", {}, false}, {number, "#couplet-" + number, false}});
          }
          for (std::size_t result = 0; result < answer.results.size(); ++result) {
            if (result > 0) add_plain(end, result + 1 == answer.results.size() ? " or " : ", ");
            add_text(page, end, answer.results[result]);
          }
        }
    });
  }
}

void add_block(Composition& page, Node into, const Checker&) {
  page.signs.set(); // what a script shows can be any verdict
  add_part(page, Part::checker, into, [](std::string_view, Node) {});
}

void add_block(Composition& page, Node into, const Search&) {
  add_part(page, Part::search, into, [](std::string_view, Node) {});
}

void add_block(Composition& page, Node into, const Details& block) {
  add_part(page, Part::details, into, [&](std::string_view slot, Node place) {
    // A summary is no heading, so headings inside are of the level that is due anyway.
    if (slot == "summary") add_plain(place, plain_text(block.summary)); // a button may not hold a link
    if (slot == "body") add_blocks(page, place, block.inside);
  });
}

} // namespace coeval
