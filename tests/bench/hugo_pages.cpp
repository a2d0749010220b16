// What would another site generator need to build the same pages? Writes every page's content, as plain data, as the
// content files of a Hugo site: hugo_pages KB FOLDER. See tests/bench/hugo/README.md.
#include <cstdio>
#include <filesystem>
#include <fstream>

#include <nlohmann/json.hpp>

#include "pages/site.hpp"
#include "pipeline.hpp"

namespace {

using namespace coeval;
using Json = nlohmann::json;

Json json_of(const Text& text) {
  Json list = Json::array();
  for (const Piece& piece : text) list.push_back({{"text", piece.text}, {"to", piece.to}, {"code", piece.code}});
  return list;
}

Json json_of(const Proof& proof) {
  Json list = Json::array();
  for (const Step& step : proof) {
    Json sources = Json::array();
    for (const Text& source : step.sources) sources.push_back(json_of(source));
    list.push_back({{"statement", step.statement},
                    {"basis", step.basis ? std::string{name(*step.basis)} : std::string{}},
                    {"sources", std::move(sources)},
                    {"place", json_of(Text{step.place})}});
  }
  return list;
}

Json json_of(const BoundView& bound) {
  return {{"day", bound.day},
          {"basis", bound.basis ? std::string{name(*bound.basis)} : std::string{}},
          {"proof", json_of(bound.proof)}};
}

Json json_of(const PointView& point) {
  return {{"words", point.words}, {"earliest", json_of(point.earliest)}, {"latest", json_of(point.latest)}};
}

Json json_of(const VerdictView& view) {
  Json grounds = Json::array();
  for (const GroundView& ground : view.grounds)
    grounds.push_back({{"ground", name(ground.ground)},
                       {"answer", name(ground.answer)},
                       {"words", ground.words},
                       {"proof", json_of(ground.proof)}});
  return {{"anchor", view.anchor},
          {"subject", json_of(view.subject)},
          {"verdict", name(view.verdict)},
          {"basis", view.basis ? std::string{name(*view.basis)} : std::string{}},
          {"gap", view.gap},
          {"grounds", std::move(grounds)},
          {"to", view.to},
          {"settles", view.would_settle}};
}

Json json_of(const Cell& cell) {
  return {{"text", json_of(cell.text)},
          {"verdict", cell.verdict ? std::string{name(*cell.verdict)} : std::string{}},
          {"picture", cell.picture ? cell.picture->file : std::string{}},
          {"alt", cell.picture ? cell.picture->alt : std::string{}},
          {"differs", cell.differs}};
}

Json json_of(const Drawing& drawing) {
  Json shapes = Json::array();
  for (const Shape& shape : drawing.shapes) {
    if (const auto* box = std::get_if<Rectangle>(&shape)) {
      shapes.push_back({{"shape", "rect"},
                        {"style", name(box->style)},
                        {"x", box->x},
                        {"y", box->y},
                        {"w", box->width},
                        {"h", box->height}});
    } else if (const auto* line = std::get_if<Polyline>(&shape)) {
      Json points = Json::array();
      for (const auto& [x, y] : line->points) points.push_back({x, y});
      shapes.push_back({{"shape", "line"}, {"style", name(line->style)}, {"points", std::move(points)}});
    } else if (const auto* curve = std::get_if<Curve>(&shape)) {
      shapes.push_back({{"shape", "curve"},
                        {"style", name(curve->style)},
                        {"points",
                         {curve->from.first, curve->from.second, curve->by.first, curve->by.second,
                          curve->towards.first, curve->towards.second, curve->to.first, curve->to.second}}});
    } else {
      const auto& words = std::get<Lettering>(shape);
      shapes.push_back({{"shape", "text"},
                        {"style", name(words.style)},
                        {"x", words.x},
                        {"y", words.y},
                        {"text", words.text},
                        {"to", words.to}});
    }
  }
  return {{"title", drawing.title},
          {"description", drawing.description},
          {"width", drawing.width},
          {"height", drawing.height},
          {"shapes", std::move(shapes)}};
}

Json json_of(const Block& block);

struct Writer {
  Json operator()(const Paragraphs& it) const {
    Json texts = Json::array();
    for (const Text& text : it.texts) texts.push_back(json_of(text));
    return {{"block", "paragraphs"}, {"texts", std::move(texts)}};
  }
  Json operator()(const Caution& it) const { return {{"block", "caution"}, {"text", it.text}}; }
  Json operator()(const Facts& it) const {
    Json facts = Json::array();
    for (const Facts::Fact& fact : it.facts) facts.push_back({{"label", fact.label}, {"value", json_of(fact.value)}});
    return {{"block", "facts"}, {"facts", std::move(facts)}};
  }
  Json operator()(const EvidenceBlock& it) const {
    Json sources = Json::array();
    for (const Text& source : it.evidence.sources) sources.push_back(json_of(source));
    return {{"block", "evidence"},
            {"basis", name(it.evidence.basis)},
            {"sources", std::move(sources)},
            {"place", json_of(Text{it.evidence.place})}};
  }
  Json operator()(const Bounds& it) const {
    Json spans = Json::array();
    for (const SpanView& span : it.spans)
      spans.push_back({{"label", span.label}, {"start", json_of(span.start)}, {"end", json_of(span.end)}});
    return {{"block", "bounds"}, {"spans", std::move(spans)}};
  }
  Json operator()(const Verdicts& it) const {
    Json verdicts = Json::array();
    for (const VerdictView& view : it.verdicts) verdicts.push_back(json_of(view));
    return {{"block", "verdicts"}, {"title", json_of(it.title)}, {"verdicts", std::move(verdicts)}};
  }
  Json operator()(const Table& it) const {
    Json columns = Json::array();
    for (const Cell& cell : it.columns) columns.push_back(json_of(cell));
    Json rows = Json::array();
    for (const auto& row : it.rows) {
      Json cells = Json::array();
      for (const Cell& cell : row) cells.push_back(json_of(cell));
      rows.push_back(std::move(cells));
    }
    return {{"block", "table"}, {"caption", it.caption}, {"columns", std::move(columns)}, {"rows", std::move(rows)}};
  }
  Json operator()(const Plate& it) const {
    Json pictures = Json::array();
    for (const Picture& picture : it.pictures)
      pictures.push_back({{"file", picture.file},
                          {"alt", picture.alt},
                          {"credit", picture.credit},
                          {"caption", json_of(picture.caption)}});
    return {{"block", "plate"}, {"pictures", std::move(pictures)}};
  }
  Json operator()(const DrawingBlock& it) const {
    return {{"block", "drawing"}, {"caption", it.caption}, {"drawings", {json_of(it.narrow), json_of(it.wide)}}};
  }
  Json operator()(const List& it) const {
    Json groups = Json::array();
    for (const List::Group& group : it.groups) {
      Json items = Json::array();
      for (const List::Item& item : group.items)
        items.push_back({{"text", json_of(item.text)}, {"note", json_of(item.note)}});
      groups.push_back({{"title", group.title}, {"anchor", group.anchor}, {"items", std::move(items)}});
    }
    return {{"block", "list"}, {"groups", std::move(groups)}};
  }
  Json operator()(const Checklist& it) const {
    Json groups = Json::array();
    for (const Checklist::Group& group : it.groups) {
      Json items = Json::array();
      for (const Checklist::Item& item : group.items)
        items.push_back({{"text", json_of(item.text)}, {"note", item.note}});
      groups.push_back({{"title", json_of(group.title)}, {"items", std::move(items)}});
    }
    return {{"block", "checklist"}, {"groups", std::move(groups)}};
  }
  Json operator()(const KeyView& it) const {
    Json couplets = Json::array();
    for (const KeyView::Couplet& couplet : it.couplets) {
      Json answers = Json::array();
      for (const KeyView::Answer& answer : couplet.answers) {
        Json results = Json::array();
        for (const Text& result : answer.results) results.push_back(json_of(result));
        answers.push_back({{"text", answer.text}, {"go", answer.go_to}, {"results", std::move(results)}});
      }
      couplets.push_back({{"number", couplet.number},
                          {"question", json_of(couplet.question)},
                          {"look", couplet.look},
                          {"answers", std::move(answers)}});
    }
    return {{"block", "key"}, {"couplets", std::move(couplets)}};
  }
  Json operator()(const Details& it) const {
    Json inside = Json::array();
    for (const Block& block : it.inside) inside.push_back(json_of(block));
    return {{"block", "details"}, {"summary", json_of(it.summary)}, {"inside", std::move(inside)}};
  }
  Json operator()(const Legend&) const { return {{"block", "legend"}}; }
  Json operator()(const Checker&) const { return {{"block", "checker"}}; }
  Json operator()(const Search&) const { return {{"block", "search"}}; }
};

Json json_of(const Block& block) { return std::visit(Writer{}, block); }

} // namespace

int main(int argc, char** argv) {
  if (argc != 3) {
    std::fprintf(stderr, "hugo_pages KB FOLDER\n");
    return 2;
  }
  const Compiled compiled = compile(argv[1], Depth::to_answer);
  if (compiled.has_errors) return 1;
  const Site site{{*compiled.kb, *compiled.dates, compiled.sources, {}}};
  for (const PlannedPage& planned : site.pages()) {
    const Page page = site.page(planned);
    Json crumbs = Json::array();
    for (const Piece& crumb : page.crumbs) crumbs.push_back({{"text", crumb.text}, {"to", crumb.to}});
    Json sections = Json::array();
    for (const Section& section : page.sections) {
      Json blocks = Json::array();
      for (const Block& block : section.blocks) blocks.push_back(json_of(block));
      sections.push_back(
          {{"anchor", section.anchor}, {"title", json_of(section.title)}, {"blocks", std::move(blocks)}});
    }
    const Json front{{"title", page.title},         {"description", page.summary},     {"eyebrow", page.eyebrow},
                     {"crumbs", std::move(crumbs)}, {"sections", std::move(sections)}, {"url", "/" + page.path}};
    const std::string path = page.path.substr(0, page.path.size() - 5) + ".md";
    const std::filesystem::path file =
        std::filesystem::path{argv[2]} / "content" / (path == "index.md" ? "start.md" : path);
    std::filesystem::create_directories(file.parent_path());
    std::ofstream{file} << front.dump(1) << "\n";
  }
  std::printf("%zu\n", site.pages().size());
  return 0;
}
