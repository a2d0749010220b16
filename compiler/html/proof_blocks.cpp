// What is known and how: evidence, bounds, verdicts and the steps of their proofs.
#include "html/composition.hpp"

#include <fmt/format.h>

namespace coeval {
namespace {

constexpr std::array<std::string_view, verdict_count> meanings{
    "found together, and nothing speaks against it", "place, time and route are all proven",
    "neither proven nor ruled out by what is known", "made too long before: no stock was kept for so long",
    "nothing went from its plant to the packer",     "it went to other issues only",
    "the pairing was examined and found wrong",      "made only after the issue was last packed",
    "the issue does not take this accessory",
};

void add_sources(Composition& page, Node into, const std::vector<Text>& sources) {
  for (std::size_t i = 0; i < sources.size(); ++i) {
    if (i > 0) add_plain(into, "; ");
    add_text(page, into, sources[i]);
  }
}

// HTML Living Standard, "valid date string", as far as four digits of the year go: the element says nothing more of
// others than their text does.
bool is_html_date(std::string_view day) {
  if (day.size() != 10) return false;
  for (std::size_t i = 0; i < day.size(); ++i)
    if (i == 4 || i == 7 ? day[i] != '-' : day[i] < '0' || day[i] > '9') return false;
  return !day.starts_with("0000");
}

void add_bound(Composition& page, Node into, std::string_view side, const BoundView& bound) {
  add_part(page, Part::bound, into, [&](std::string_view slot, Node place) {
    if (slot == "side") add_plain(place, side);
    if (slot == "day") {
      if (bound.day.empty()) {
        add_plain(place, "not known");
      } else if (is_html_date(bound.day)) {
        add_plain(add(place, "time"), bound.day);
      } else {
        add_plain(place, bound.day);
      }
    }
    if (slot == "basis" && bound.basis) add_basis(place, *bound.basis);
    if (slot == "proof") add_steps(page, place, bound.proof);
  });
}

void add_point(Composition& page, Node into, const PointView& point) {
  add_part(page, Part::point, into, [&](std::string_view slot, Node place) {
    if (slot == "words") add_plain(place, point.words);
    if (slot == "bounds") {
      add_bound(page, place, "earliest", point.earliest);
      add_bound(page, place, "latest", point.latest);
    }
  });
}

void add_ground(Composition& page, Node into, const GroundView& ground) {
  add_part(page, Part::ground, into, [&](std::string_view slot, Node place) {
    if (slot == "name") add_plain(place, name(ground.ground));
    if (slot == "answer") add_plain(place, name(ground.answer));
    if (slot == "basis" && ground.basis) add_basis(place, *ground.basis);
    if (slot == "words") add_plain(place, ground.words);
    if (slot == "proof") add_steps(page, place, ground.proof);
  });
}

// `opens`: to its proof, so that its first line is a button.
void fill_verdict(Composition& page, const VerdictView& view, bool opens, std::string_view slot, Node place) {
  if (slot == "sign") add_sign(page, place, view.verdict);
  if (slot == "word") {
    // Where the proof stands elsewhere, the word leads there.
    add_text(page, place, {{std::string{name(view.verdict)}, opens ? std::string{} : view.to, false}});
  }
  if (slot == "subject") {
    if (view.lab) add_swatch(place, *view.lab);
    if (opens)
      add_plain(place, plain_text(view.subject));
    else
      add_text(page, place, view.subject);
  }
  if (slot == "page") {
    add_text(page, place, view.subject);
    if (view.grounds.empty() && !view.to.empty())
      add_text(page, place, {{": ", {}, false}, {"the whole proof", view.to, false}});
  }
  if (slot == "gap") add_plain(place, view.gap);
  if (slot == "basis" && view.basis) add_basis(place, *view.basis);
  if (slot == "grounds")
    for (const GroundView& ground : view.grounds) add_ground(page, place, ground);
  if (slot == "settle")
    for (const std::string& line : view.would_settle) add_plain(add(place, "li"), line);
}

} // namespace

void add_steps(Composition& page, Node into, const Proof& proof) {
  for (const Step& step : proof) {
    std::string backing = step.place.text;
    for (const Text& source : step.sources) backing += "\n" + plain_text(source);
    const auto placed = page.backings.emplace(std::move(backing), fmt::format("s{}", page.backings.size() + 1));
    const std::string& id = placed.first->second; // of the first step that is backed so
    const bool first = placed.second;
    const bool above = !first && !step.sources.empty() && page.ids.contains(id);
    Node item = add_part(page, Part::step, into, [&](std::string_view slot, Node place) {
      if (slot == "statement") add_plain(place, step.statement);
      if (slot == "basis") {
        if (step.basis)
          add_basis(place, *step.basis);
        else
          add_plain(add(place, "i", "basis"), "by definition");
      }
      if (slot == "sources" && above) add_text(page, place, {{"as above", "#" + id, false}});
      if (slot == "sources" && !above) add_sources(page, place, step.sources);
      if (slot == "place" && !above && !step.place.text.empty()) add_text(page, place, {step.place});
    });
    if (first && !step.sources.empty()) set_id(page, item, id);
  }
}

void add_block(Composition& page, Node into, const EvidenceBlock& block) {
  const EvidenceView& evidence = block.evidence;
  add_part(page, Part::evidence, into, [&](std::string_view slot, Node place) {
    if (slot == "basis") add_basis(place, evidence.basis);
    if (slot == "sources") add_sources(page, place, evidence.sources);
    if (slot == "place" && !evidence.place.text.empty()) add_text(page, place, {evidence.place});
    if (slot == "dispute" && evidence.disputed) add_plain(place, "disputed");
  });
}

void add_block(Composition& page, Node into, const Bounds& block) {
  for (const SpanView& span : block.spans)
    add_part(page, Part::span, into, [&](std::string_view slot, Node place) {
      if (slot == "label") add_plain(place, span.label);
      if (slot == "start") add_point(page, place, span.start);
      if (slot == "end") add_point(page, place, span.end);
    });
}

void add_block(Composition& page, Node into, const Verdicts& block) {
  Node group = add(into, "div", "verdicts");
  if (!block.title.empty()) add_heading(page, group, block.title);
  for (const VerdictView& view : block.verdicts) {
    const bool opens = !view.grounds.empty() || !view.would_settle.empty();
    Node node = add_part(page, opens ? Part::verdict : Part::verdict_short, group,
                         [&](std::string_view slot, Node place) { fill_verdict(page, view, opens, slot, place); });
    set(node, "data-verdict", name(view.verdict));
    set_id(page, node, view.anchor);
  }
}

void add_block(Composition& page, Node into, const Legend&) {
  Node list = add(into, "dl", "legend");
  for (std::size_t i = 0; i < verdict_count; ++i) {
    const auto verdict = static_cast<Verdict>(i);
    Node group = add(list, "div");
    set(group, "data-verdict", name(verdict));
    Node word = add(group, "dt");
    add_sign(page, word, verdict);
    add_plain(add(word, "span", "word"), name(verdict));
    add_plain(add(group, "dd"), meanings[i]);
  }
}

} // namespace coeval
