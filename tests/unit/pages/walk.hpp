// tests/unit/pages/walk.hpp: which texts, links and anchors are on a page, whatever block they stand in?
#pragma once

#include <functional>
#include <set>
#include <string>
#include <vector>

#include "pages/page.hpp"

namespace walk {

struct Found {
  std::vector<std::string> texts;
  std::vector<std::string> links;
  std::vector<std::string> anchors;
};

class Walker {
public:
  explicit Walker(const coeval::Page& page) {
    for (const coeval::Piece& crumb : page.crumbs) see(crumb);
    for (const coeval::Section& section : page.sections) {
      anchor(section.anchor);
      see(section.title);
      for (const coeval::Block& block : section.blocks) see(block);
    }
  }
  Found found;

private:
  void text(const std::string& words) {
    if (!words.empty()) found.texts.push_back(words);
  }
  void link(const std::string& to) {
    if (!to.empty()) found.links.push_back(to);
  }
  void anchor(const std::string& name) {
    if (!name.empty()) found.anchors.push_back(name);
  }
  void see(const coeval::Piece& piece) {
    text(piece.text);
    link(piece.to);
  }
  void see(const coeval::Text& pieces) {
    for (const coeval::Piece& piece : pieces) see(piece);
  }
  void see(const std::vector<coeval::Text>& texts) {
    for (const coeval::Text& one : texts) see(one);
  }
  void see(const coeval::Proof& proof) {
    for (const coeval::Step& step : proof) {
      text(step.statement);
      see(step.sources);
      see(step.place);
    }
  }
  void see(const coeval::Picture& picture) {
    text(picture.alt);
    text(picture.credit);
    see(picture.caption);
  }
  void see(const coeval::PointView& point) {
    text(point.words);
    see(point.earliest.proof);
    see(point.latest.proof);
  }
  void see(const coeval::VerdictView& verdict) {
    anchor(verdict.anchor);
    see(verdict.subject);
    link(verdict.to);
    text(verdict.gap);
    for (const coeval::GroundView& ground : verdict.grounds) {
      text(ground.words);
      see(ground.proof);
    }
    for (const std::string& line : verdict.would_settle) text(line);
  }
  void see(const coeval::Cell& cell) {
    see(cell.text);
    if (cell.picture) see(*cell.picture);
  }
  void see(const coeval::Drawing& drawing) {
    text(drawing.title);
    text(drawing.description);
    for (const coeval::Shape& shape : drawing.shapes)
      if (const auto* lettering = std::get_if<coeval::Lettering>(&shape)) {
        text(lettering->text);
        link(lettering->to);
      }
  }
  void see(const coeval::Block& block) {
    std::visit([this](const auto& it) { see_block(it); }, block);
  }

  void see_block(const coeval::Paragraphs& it) { see(it.texts); }
  void see_block(const coeval::Caution& it) { text(it.text); }
  void see_block(const coeval::Facts& it) {
    for (const auto& fact : it.facts) {
      text(fact.label);
      see(fact.value);
    }
  }
  void see_block(const coeval::EvidenceBlock& it) {
    see(it.evidence.sources);
    see(it.evidence.place);
  }
  void see_block(const coeval::Bounds& it) {
    for (const coeval::SpanView& span : it.spans) {
      see(span.start);
      see(span.end);
    }
  }
  void see_block(const coeval::Verdicts& it) {
    see(it.title);
    for (const coeval::VerdictView& verdict : it.verdicts) see(verdict);
  }
  void see_block(const coeval::Table& it) {
    text(it.caption);
    for (const coeval::Cell& cell : it.columns) see(cell);
    for (const auto& row : it.rows)
      for (const coeval::Cell& cell : row) see(cell);
  }
  void see_block(const coeval::Plate& it) {
    for (const coeval::Picture& picture : it.pictures) see(picture);
  }
  void see_block(const coeval::DrawingBlock& it) {
    see(it.narrow);
    see(it.wide);
    text(it.caption);
  }
  void see_block(const coeval::List& it) {
    for (const auto& group : it.groups) {
      anchor(group.anchor);
      text(group.title);
      for (const auto& item : group.items) {
        see(item.text);
        see(item.note);
      }
    }
  }
  void see_block(const coeval::Checklist& it) {
    for (const auto& group : it.groups) {
      see(group.title);
      for (const auto& item : group.items) {
        see(item.text);
        text(item.note);
      }
    }
  }
  void see_block(const coeval::KeyView& it) {
    for (const auto& couplet : it.couplets) {
      see(couplet.question);
      text(couplet.look);
      text(couplet.caution);
      for (const auto& answer : couplet.answers) {
        text(answer.text);
        see(answer.results);
      }
    }
  }
  void see_block(const coeval::Legend&) {}
  void see_block(const coeval::Checker&) {}
  void see_block(const coeval::Search&) {}
  void see_block(const coeval::Details& it) {
    see(it.summary);
    for (const coeval::Block& block : it.inside) see(block);
  }
};

inline Found over(const coeval::Page& page) { return Walker{page}.found; }

// Every block of a type, in the order of the page.
template <class Type> std::vector<const Type*> blocks(const coeval::Page& page, std::string_view slot = {}) {
  std::vector<const Type*> found;
  const std::function<void(const std::vector<coeval::Block>&)> search = [&](const std::vector<coeval::Block>& list) {
    for (const coeval::Block& block : list) {
      if (const auto* it = std::get_if<Type>(&block)) found.push_back(it);
      if (const auto* details = std::get_if<coeval::Details>(&block)) search(details->inside);
    }
  };
  for (const coeval::Section& section : page.sections)
    if (slot.empty() || section.slot == slot) search(section.blocks);
  return found;
}

} // namespace walk
