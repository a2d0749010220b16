#include "html/thin_pages.hpp"

#include <algorithm>
#include <map>

namespace coeval {
namespace {

constexpr const char* statements_path = "statements.html";

bool rules_out(Verdict verdict) {
  return verdict != Verdict::attested && verdict != Verdict::fits && verdict != Verdict::open;
}

class Thinner {
public:
  void thin(Page& page) {
    for (Section& section : page.sections) thin(section.blocks);
  }

  // Every statement that was met, in the order in which it was.
  [[nodiscard]] Page statements() && {
    Page page{.kind = PageKind::names,
              .path = statements_path,
              .title = "Statements",
              .eyebrow = "What the proofs rest on",
              .summary =
                  "Each statement that a proof in this file uses, with its sources and the line where it is written.",
              .crumbs = {{"Home", "index.html", false}}};
    page.sections.push_back({.slot = "list", .blocks = {std::move(list_)}});
    return page;
  }
  [[nodiscard]] bool empty() const { return list_.groups.empty(); }

private:
  void thin(std::vector<Block>& blocks) {
    for (Block& block : blocks) {
      if (auto* verdicts = std::get_if<Verdicts>(&block))
        for (VerdictView& view : verdicts->verdicts) thin(view);
      if (auto* bounds = std::get_if<Bounds>(&block))
        for (SpanView& span : bounds->spans)
          for (BoundView* bound : {&span.start.earliest, &span.start.latest, &span.end.earliest, &span.end.latest})
            thin(bound->proof);
      if (auto* details = std::get_if<Details>(&block)) thin(details->inside);
    }
  }

  void thin(VerdictView& view) {
    const bool decided = rules_out(view.verdict) && std::ranges::any_of(view.grounds, [](const GroundView& ground) {
                           return ground.answer == Answer::no;
                         });
    for (GroundView& ground : view.grounds) {
      if (decided && ground.answer != Answer::no)
        ground.proof.clear();
      else
        thin(ground.proof);
    }
  }

  void thin(Proof& proof) {
    for (Step& step : proof) {
      if (step.sources.empty() && step.place.text.empty()) continue;
      const std::string anchor = take(step);
      step.sources.clear();
      step.place = {"sources", std::string{statements_path} + "#" + anchor, false};
    }
  }

  std::string take(const Step& step) {
    std::string key =
        step.statement + '\n' + step.place.text + '\n' + (step.basis ? std::string{name(*step.basis)} : "");
    for (const Text& source : step.sources)
      for (const Piece& piece : source) key += '\n' + piece.text;
    const auto [known, is_new] = anchors_.try_emplace(std::move(key), "s" + std::to_string(anchors_.size() + 1));
    if (is_new) {
      List::Group group{.title = step.statement, .anchor = known->second};
      for (const Text& source : step.sources) group.items.push_back({.text = source});
      if (!step.place.text.empty()) group.items.push_back({.text = {step.place}});
      if (step.basis && !group.items.empty()) group.items.front().note = {{std::string{name(*step.basis)}, {}, false}};
      list_.groups.push_back(std::move(group));
    }
    return known->second;
  }

  std::map<std::string, std::string> anchors_;
  List list_;
};

Text about_this_file(const std::string& base_url) {
  Text text{{"This file holds the whole reference and works without a network. To keep it light, the sources of each "
             "statement stand once, under ",
             {},
             false},
            {"Statements", statements_path, false},
            {"; and where a verdict rules a part out, the proof is given of the grounds that do so, while that of its "
             "other grounds is left out. ",
             {},
             false}};
  if (base_url.empty())
    text.push_back({"The reference as a folder of pages has every proof in full.", {}, false});
  else
    text.insert(text.end(), {{"Every proof in full: ", {}, false}, {base_url, base_url, false}});
  return text;
}

} // namespace

std::vector<Page> thin_pages(std::vector<Page> pages, const std::string& base_url) {
  Thinner thinner;
  for (Page& page : pages) thinner.thin(page);
  if (pages.empty() || thinner.empty()) return pages;
  if (!pages.front().sections.empty())
    pages.front().sections.front().blocks.emplace_back(Paragraphs{{about_this_file(base_url)}});
  pages.push_back(std::move(thinner).statements());
  return pages;
}

} // namespace coeval
