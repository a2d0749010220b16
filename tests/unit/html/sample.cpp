#include "sample.hpp"

#include <stdexcept>

namespace coeval {
namespace {

Text words(const std::string& text) { return {{text, {}, false}}; }
Text link(const std::string& text, const std::string& to) { return {{text, to, false}}; }

Proof proof() {
  return {{"ring-top was in the press until 1979-06 or later",
           Basis::observed,
           {link("sealed examples, a survey", "sources/sealed-examples-2019.html"), words("press log, vol. 6 p. 11")},
           {"saltmere/accessories/signal-lantern.toml:31", "data/kb/saltmere/accessories/signal-lantern.toml", true}},
          {"a run lies within the use of its mould", {}, {}, {}},
          {"painted-buttons was packed from 1976-10",
           Basis::documented,
           {link("trade catalogue 1977", "sources/trade-catalogue-1977.html")},
           {"saltmere/figures/keeper-maren.toml:9", "data/kb/saltmere/figures/keeper-maren.toml", true}}};
}

Bounds bounds() {
  const PointView start{"first made between 1976-08-01 and 1976-08-31",
                        {"1976-08-01", Basis::documented, proof()},
                        {"1976-08-31", Basis::observed, proof()}};
  const PointView end{"last made on 1979-06-30 or later", {"1979-06-30", Basis::reported, proof()}, {}};
  return {{{"in the press", start, end}}};
}

Verdicts verdicts() {
  Verdicts block{words("hand: signal lantern"), {}};
  for (std::size_t i = 0; i < verdict_count; ++i) {
    const auto verdict = static_cast<Verdict>(i);
    VerdictView view;
    view.anchor = "signal-lantern.ring-top." + std::string{name(verdict)};
    view.subject = link("Ring top, brass yellow", "accessories/signal-lantern/ring-top/brass.html");
    view.verdict = verdict;
    if (verdict != Verdict::open) view.basis = static_cast<Basis>(i % 4);
    view.lab = std::array{72.1 - 5.0 * static_cast<double>(i), 6.0 + 6.0 * static_cast<double>(i), 48.5};
    if (verdict == Verdict::anachronistic) view.gap = "at least 13 months too late";
    if (verdict == Verdict::open)
      view.would_settle = {"when painted-buttons was last packed", "whether a route led from ma-on-shan"};
    if (verdict == Verdict::reserved)
      view.to = "figures/keeper-maren/plain-buttons.html#signal-lantern.ring-top.brass";
    else
      view.grounds = {{Ground::place, Answer::yes, Basis::documented,
                       "painted-buttons takes a signal lantern in the hand", proof()},
                      {Ground::time, Answer::yes, Basis::observed, "made and packed in the same months", proof()},
                      {Ground::route, Answer::undecided, {}, "no route is known, and silence is not a no", {}},
                      {Ground::record, Answer::undecided, {}, "nobody has recorded the two together", {}}};
    block.verdicts.push_back(view);
  }
  return block;
}

Table comparison() {
  Table table{Table::Kind::comparison, "Moulds of the signal lantern, side by side", {}, {}};
  for (const char* mould : {"Feature", "Ring top", "Plain top", "Notched top", "Late ring"})
    table.columns.push_back({words(mould)});
  table.rows = {{{words("Top")},
                 {words("ring"), {}, {}, {}, true},
                 {words("plain"), {}, {}, {}, true},
                 {words("notched"), {}, {}, {}, true},
                 {words("ring"), {}, {}, {}, true}},
                {{words("Vents")}, {words("4")}, {words("4")}, {words("4")}, {words("4")}},
                {{words("Height")},
                 {words("21.5 mm ± 0.3"), {}, {}, {}, true},
                 {words("21.5 mm ± 0.3")},
                 {words("20.9 mm ± 0.3"), {}, {}, {}, true},
                 {words("not stated")}},
                {{words("Colour")},
                 {words("brass yellow"), {}, std::array{72.1, 6.0, 48.5}},
                 {words("brass yellow"), {}, std::array{70.0, 8.0, 46.0}},
                 {words("sea grey"), {}, std::array{55.0, -4.0, -6.0}, {}, true},
                 {words("brass yellow"), {}, std::array{72.1, 6.0, 48.5}}}};
  return table;
}

Table plain_table() {
  Table table{Table::Kind::plain,
              "Production runs",
              {{words("Run")}, {words("Colour")}, {words("Plant")}, {words("Made")}},
              {}};
  table.rows = {{{link("Ring top, brass", "accessories/signal-lantern/ring-top/brass.html")},
                 {words("brass yellow"), {}, std::array{72.1, 6.0, 48.5}},
                 {link("Kwun Tong", "plants/kwun-tong.html")},
                 {words("1976-08 to 1978")}},
                {{link("Plain top, grey", "accessories/signal-lantern/plain-top/grey.html")},
                 {words("sea grey"), {}, std::array{55.0, -4.0, -6.0}},
                 {link("Ma On Shan", "plants/ma-on-shan.html")},
                 {words("1979 or later")}}};
  return table;
}

Table matrix() {
  Table table{Table::Kind::matrix, "Issues against runs of the signal lantern", {{words("Issue")}}, {}};
  for (int run = 0; run < 12; ++run)
    table.columns.push_back(
        {link("Ring top, brass " + std::to_string(run + 1), "accessories/signal-lantern/ring-top/brass.html")});
  for (int issue = 0; issue < 14; ++issue) {
    std::vector<Cell> row{
        {link("Keeper Maren, issue " + std::to_string(issue + 1), "figures/keeper-maren/painted-buttons.html")}};
    for (int run = 0; run < 12; ++run)
      row.push_back({link("", "figures/keeper-maren/painted-buttons.html#signal-lantern.ring-top.brass"),
                     static_cast<Verdict>((issue * 5 + run * run) % static_cast<int>(verdict_count))});
    table.rows.push_back(row);
  }
  return table;
}

Drawing timeline(double width) {
  Drawing drawing{width,
                  150,
                  "When the signal lantern was made",
                  "Ring top: surely in the press from 1976-08 to 1978, perhaps from 1976-06 to 1979-06.\nPlain top: "
                  "perhaps from 1979, its end is not known.",
                  {}};
  const double left = width < 500 ? 90 : 150;
  const double unit = (width - left - 10) / 6;
  drawing.shapes = {
      Rectangle{Style::background, 0, 0, width, 150, 0},
      Rectangle{Style::band, left, 20, unit * 2, 105, 0},
      Rectangle{Style::band_other, left + unit * 2, 20, unit * 2.5, 105, 0},
      Lettering{Style::label_small, left + unit, 14, Anchor::middle, "First voyage", "periods/first-voyage.html"},
      Lettering{Style::label_small, left + unit * 3.2, 14, Anchor::middle, "Second voyage", ""},
      Polyline{Style::axis, {{left, 125}, {width - 10, 125}}, false}};
  for (int year = 0; year <= 6; ++year) {
    drawing.shapes.emplace_back(Polyline{Style::tick, {{left + unit * year, 20}, {left + unit * year, 129}}, false});
    drawing.shapes.emplace_back(
        Lettering{Style::label_small, left + unit * year, 142, Anchor::middle, std::to_string(1976 + year), ""});
  }
  drawing.shapes.emplace_back(Lettering{Style::label_strong, 4, 50, Anchor::start, "Ring top", ""});
  drawing.shapes.emplace_back(Rectangle{Style::possible, left + unit * 0.4, 38, unit * 2.8, 16, 0});
  drawing.shapes.emplace_back(Rectangle{Style::certain, left + unit * 0.7, 38, unit * 1.6, 16, 0});
  drawing.shapes.emplace_back(
      Polyline{Style::uncertain_end, {{left + unit * 0.4, 34}, {left + unit * 0.4, 58}}, false});
  drawing.shapes.emplace_back(
      Lettering{Style::label, 4, 90, Anchor::start, "Plain top", "accessories/signal-lantern.html#plain-top"});
  drawing.shapes.emplace_back(Rectangle{Style::possible_other, left + unit * 3, 78, unit * 3, 16, 0});
  drawing.shapes.emplace_back(Rectangle{Style::certain_other, left + unit * 3.6, 78, unit * 1, 16, 0});
  drawing.shapes.emplace_back(
      Polyline{Style::open_end, {{left + unit * 5.8, 78}, {left + unit * 6, 86}, {left + unit * 5.8, 94}}, false});
  return drawing;
}

Drawing succession(double width) {
  Drawing drawing{width,
                  120,
                  "Which mould followed which",
                  "Ring top was followed by plain top, and that perhaps by notched top.",
                  {}};
  const double step = width / 3;
  for (int i = 0; i < 3; ++i) {
    drawing.shapes.emplace_back(Rectangle{i == 0   ? Style::highlight
                                          : i == 1 ? Style::node
                                                   : Style::node_other,
                                          step * i + 8, 35, step - 40, 46, 4});
    drawing.shapes.emplace_back(Lettering{Style::label_strong, step * i + (step - 24) / 2, 55, Anchor::middle,
                                          i == 0   ? "Ring top"
                                          : i == 1 ? "Plain top"
                                                   : "Notched",
                                          ""});
    drawing.shapes.emplace_back(
        Lettering{Style::label_small, step * i + (step - 24) / 2, 71, Anchor::middle, "1976 to 1979", ""});
  }
  for (int i = 0; i < 2; ++i) {
    const double from = step * (i + 1) - 32;
    drawing.shapes.emplace_back(Curve{
        i == 0 ? Style::edge : Style::edge_possible, {from, 58}, {from + 16, 58}, {from + 22, 58}, {from + 32, 58}});
    drawing.shapes.emplace_back(Polyline{Style::arrow_head, {{from + 32, 53}, {from + 40, 58}, {from + 32, 63}}, true});
  }
  return drawing;
}

KeyView key() {
  return {{{1,
            words("What does the top of the lantern carry?"),
            "Hold it against the light, the window towards you.",
            "",
            {{"a ring", 2, {}},
             {"a notch", 0, {link("Notched top", "accessories/signal-lantern.html#notched-top")}},
             {"nothing", 0, {link("Plain top", "accessories/signal-lantern.html#plain-top")}}}},
           {2,
            words("How high is it?"),
            "Measure with callipers, without the ring.",
            "old vinyl sheds plasticiser: wash your hands",
            {{"21.2 to 21.8 mm",
              0,
              {link("Ring top, brass", "accessories/signal-lantern/ring-top/brass.html"),
               link("Ring top, grey", "accessories/signal-lantern/ring-top/grey.html")}},
             {"below 21.2 mm", 0, {words("a reproduction: resin recast")}}}}}};
}

std::vector<Section> every_section() {
  std::vector<Section> all;
  const auto section = [&](const char* anchor, const char* title, std::vector<Block> blocks) {
    all.push_back({"", anchor, title[0] == 0 ? Text{} : words(title), std::move(blocks)});
  };
  section(
      "", "",
      {Paragraphs{
           {{{"The signal lantern is the part that is lost first. It was moulded at ", {}, false},
             {"Kwun Tong", "plants/kwun-tong.html", false},
             {" from the first summer of the line, and is told from its copies by the ring at its top.", {}, false}},
            words("Four revisions of its mould are known. They differ in what the top carries and in height, and none "
                  "of them was marked.")}},
       Facts{{{"Slot", words("hand")},
              {"Colour", words("brass yellow"), std::array{72.1, 6.0, 48.5}},
              {"Plant", link("Kwun Tong", "plants/kwun-tong.html")},
              {"Address", {{"signal-lantern/ring-top/brass", "", true}}},
              {"See also", link("a page elsewhere", "https://example.org/lantern?a=1&b=2")}}},
       EvidenceBlock{
           {Basis::documented,
            {link("trade catalogue 1977", "sources/trade-catalogue-1977.html")},
            {"saltmere/accessories/signal-lantern.toml:12", "data/kb/saltmere/accessories/signal-lantern.toml", true},
            false}},
       Caution{"Do not flex the ring: forty years have made it brittle."}});
  section("", "",
          {Plate{{{"drawings/lantern-ring.svg", "A lantern whose top carries a ring", "Drawn for this reference",
                   words("Ring top, from the side")},
                  {"drawings/lantern-plain.svg", "A lantern with a plain top", "Drawn for this reference",
                   words("Plain top, from the side")}}}});
  section(
      "when", "When it was made",
      {DrawingBlock{timeline(360), timeline(760), "When each mould was in the press. Solid: surely; hatched: perhaps."},
       bounds()});
  section("succession", "Which mould followed which",
          {DrawingBlock{succession(360), succession(760), "Succession of moulds"}});
  section("moulds", "Moulds side by side", {comparison()});
  section("runs", "Production runs", {plain_table()});
  section("outfit", "Does it belong?", {verdicts(), Legend{}});
  section("matrix", "Issues against runs", {matrix()});
  section("key", "Identification key", {key()});
  section("tick", "To tick",
          {Checklist{{{words("Keeper Maren"),
                       {{link("Painted buttons", "figures/keeper-maren/painted-buttons.html"),
                         "complete with lantern and cap"},
                        {words("Plain buttons"), ""}}},
                      {words("Pilot Dov"), {{words("First issue"), "peaked cap"}}}}}});
  section("more", "More",
          {List{{{"L",
                  "l",
                  {{link("Lantern, signal", "accessories/signal-lantern.html"), words("accessory")},
                   {link("Line-throwing gun", "accessories/gun.html"), {}}}},
                 {"", "", {{words("A group without a title"), {}}}}}},
           Details{words("What would change this"),
                   {Paragraphs{{words("A dated sealed example.")}}, List{{{"Inside", "", {{words("one"), {}}}}}}}},
           Checker{}, Search{}});
  return all;
}

} // namespace

Page sample_page(PageKind kind) {
  Page page;
  page.kind = kind;
  page.path = "accessories/signal-lantern.html";
  page.title = "Signal lantern";
  page.eyebrow = "Accessory";
  page.summary = "A hand lantern with a ring, moulded in four revisions from 1976.";
  page.crumbs = {{"Saltmere Patrol", "index.html", false}, {"Accessories", "accessories.html", false}};
  page.sections = every_section();
  const auto& slots = page_kinds()[static_cast<std::size_t>(kind)].slots;
  for (std::size_t i = 0; i < page.sections.size(); ++i)
    page.sections[i].slot = slots[std::min(i, slots.size() - 1)].name;
  page.json_ld = R"({"@context": "https://schema.org", "@type": "Thing", "name": "Signal lantern"})";
  return page;
}

Page hostile_page(const std::string& t) {
  const Text text{{t, t, false}, {t, "", true}};
  const Step step{t, Basis::reported, {text}, {t, t, true}};
  const PointView point{t, {t, Basis::reported, {step}}, {t, Basis::observed, {step}}};
  VerdictView verdict{t,
                      text,
                      Verdict::open,
                      Basis::reported,
                      t,
                      {{Ground::time, Answer::no, Basis::reported, t, {step}}},
                      t,
                      {t},
                      std::array{50.0, 0.0, 0.0}};
  const Picture picture{t, t, t, text};
  const Drawing drawing{
      100, 50, t, t, {Lettering{Style::label, 1, 1, Anchor::start, t, t}, Rectangle{Style::possible, 0, 0, 5, 5, 0}}};
  const Cell cell{text, Verdict::fits, std::array{50.0, 0.0, 0.0}, picture, true};
  Page page;
  page.kind = PageKind::figure;
  page.path = "figures/keeper-maren.html";
  page.title = t;
  page.eyebrow = t;
  page.summary = t;
  page.crumbs = {{t, t, false}};
  page.sections = {
      {"about",
       t,
       text,
       {Paragraphs{{text}}, Caution{t}, Facts{{{t, text, {}}}},
        EvidenceBlock{{Basis::reported, {text}, {t, t, true}, true}}, Bounds{{{t, point, point}}},
        Verdicts{text, {verdict}}, Table{Table::Kind::plain, t, {cell, cell, cell}, {{cell, cell, cell}}},
        Table{Table::Kind::matrix, t, {cell, cell, cell}, {{cell, {{{t, t, false}}, Verdict::open}, cell}}},
        Plate{{picture}}, DrawingBlock{drawing, drawing, t}, List{{{t, t, {{text, text}}}}},
        Checklist{{{text, {{text, t}}}}}, KeyView{{{1, text, t, t, {{t, 2, {text}}}}}}, Legend{}, Checker{}, Search{},
        Details{text, {Paragraphs{{text}}}}}}};
  return page;
}

std::shared_ptr<const Templates> sample_templates() {
  static const std::shared_ptr<const Templates> templates = [] {
    Diagnostics found;
    TemplateResult result = read_templates(builtin_template(), "site-template", found);
    for (const Diagnostic& wrong : found.sorted())
      throw std::runtime_error((wrong.place.known() ? result.sources[wrong.place.file].path() : wrong.path) + ": " +
                               wrong.message);
    return result.templates;
  }();
  return templates;
}

} // namespace coeval
