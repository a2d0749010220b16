// What pages of figures, issues, accessories, runs, reproductions and features tell.
#include <catch2/catch.hpp>

#include "harbour.hpp"
#include "pages/paths.hpp"
#include "verdicts/judge.hpp"
#include "walk.hpp"

namespace coeval {
namespace {

std::string text_of(const Text& pieces) {
  std::string text;
  for (const Piece& piece : pieces) text += piece.text;
  return text;
}

std::vector<VerdictView> verdicts_of(const Page& page) {
  std::vector<VerdictView> all;
  for (const Verdicts* block : walk::blocks<Verdicts>(page))
    all.insert(all.end(), block->verdicts.begin(), block->verdicts.end());
  return all;
}

bool says(const Page& page, std::string_view words) {
  const auto texts = walk::over(page).texts;
  return std::ranges::any_of(texts, [&](const std::string& text) { return text.find(words) != std::string::npos; });
}

const Cell& cell_of(const Table& table, std::string_view row, std::size_t column) {
  const auto found =
      std::ranges::find_if(table.rows, [&](const auto& cells) { return text_of(cells.front().text) == row; });
  REQUIRE(found != table.rows.end());
  return found->at(column);
}

TEST_CASE("an issue's outfit opens every run's verdict, best first, at the anchor that others link to", "[pages]") {
  const harbour::Reference reference;
  const LinkedKb& kb = reference.kb().kb;
  const Page page = reference.page("figures/maren/first.html");
  const std::vector<VerdictView> verdicts = verdicts_of(page);
  REQUIRE(verdicts.size() == 3);
  CHECK(verdicts[0].anchor == "lantern.ring.brass");
  CHECK(verdicts[0].verdict == Verdict::attested);
  CHECK(std::ranges::is_sorted(verdicts, {}, &VerdictView::verdict));
  Judge judge{kb, reference.kb().dates, Basis::conjectured};
  const IssueIndex issue = reference.kb().issue("maren/first");
  for (const VerdictView& view : verdicts) {
    std::string address = view.anchor;
    std::replace(address.begin(), address.end(), '.', '/');
    const Judgement judgement = judge.judge(reference.kb().run(address), issue, true);
    CAPTURE(address);
    CHECK(view.verdict == judgement.verdict);
    CHECK(view.basis == judgement.basis);
    CHECK(view.would_settle == judgement.would_settle);
    REQUIRE(view.grounds.size() == 4);
    // Whatever is left out, the statements that decide are there; what backs a slot stands at its head.
    for (const Ground ground : deciding_grounds(judgement)) {
      if (ground == Ground::place) continue;
      const Proof& proof = view.grounds[static_cast<std::size_t>(ground)].proof;
      for (const Reason& reason : judgement.ground(ground).proof)
        CHECK(std::ranges::count(proof, reason.statement, &Step::statement) == 1);
    }
  }
  CHECK(verdicts.back().verdict > Verdict::open);
  CHECK(std::ranges::any_of(verdicts.back().grounds, [](const GroundView& ground) { return ground.proof.empty(); }));
  CHECK_FALSE(walk::blocks<EvidenceBlock>(page, "outfit").empty());
}

TEST_CASE("an accessory in two slots is judged once, so that anchors stay unique", "[pages]") {
  const harbour::Reference reference;
  const Page page = reference.page("figures/maren/second.html");
  const auto outfit = std::ranges::count(page.sections, "outfit", &Section::slot);
  CHECK(outfit == 2); // the words, then the one accessory
  CHECK(text_of(
            page.sections[static_cast<std::size_t>(std::ranges::find(page.sections, "slot.lantern", &Section::anchor) -
                                                   page.sections.begin())]
                .title) == "hand and waist: Lantern");
}

TEST_CASE("an outfit that is bare or unknown is told in words", "[pages]") {
  const harbour::Reference reference;
  CHECK(says(reference.page("figures/maren/bare.html"), "sold with no accessory"));
  const Page silent = reference.page("figures/maren/silent.html");
  CHECK(says(silent, "What it was sold with is not entered"));
  CHECK(verdicts_of(silent).empty());
}

TEST_CASE("an issue shows both ends of its time, pairings, claims and what to look at", "[pages]") {
  const harbour::Reference reference;
  const Page page = reference.page("figures/maren/first.html");
  const auto bounds = walk::blocks<Bounds>(page);
  REQUIRE(bounds.size() == 1);
  CHECK(bounds.front()->spans.front().start.earliest.day == "1976-10-01");
  CHECK(bounds.front()->spans.front().end.latest.day == "1979-06-30");
  CHECK_FALSE(bounds.front()->spans.front().end.latest.proof.empty());
  CHECK(says(page, "Examined and found not to belong together"));
  CHECK(says(page, "Brass came first."));
  CHECK(says(page, "Held high."));
  const auto hints = walk::blocks<Table>(page, "looks");
  REQUIRE(hints.size() == 1);
  CHECK(text_of(cell_of(*hints.front(), "Top", 1).text) == "ring");
  CHECK(text_of(cell_of(*hints.front(), "Top", 2).text) == "plain");
}

TEST_CASE("a run lists its homes by verdict, each leading to its proof", "[pages]") {
  const harbour::Reference reference;
  const Page page = reference.page("accessories/lantern/ring/brass.html");
  const std::vector<VerdictView> homes = verdicts_of(page);
  REQUIRE(homes.size() == 2);
  CHECK(homes[0].verdict == Verdict::attested);
  CHECK(text_of(homes[0].subject) == "Maren, first");
  CHECK(homes[0].to == "figures/maren/first.html#lantern.ring.brass");
  CHECK(homes[0].grounds.empty());
  CHECK(walk::blocks<Bounds>(page).front()->spans.size() == 2);
  const auto looks = walk::blocks<Table>(page, "looks");
  REQUIRE(looks.size() == 1);
  CHECK(text_of(cell_of(*looks.front(), "Seam", 2).text) == "Lantern");
  CHECK(text_of(cell_of(*looks.front(), "Top", 2).text) == "Ring top");
  CHECK(says(page, "Recast"));
}

TEST_CASE("a comparison of moulds marks what tells them apart and nothing else", "[pages]") {
  const harbour::Reference reference;
  const Page page = reference.page("accessories/lantern.html");
  const auto tables = walk::blocks<Table>(page, "comparison");
  REQUIRE(tables.size() == 1);
  const Table& table = *tables.front();
  CHECK(table.kind == Table::Kind::comparison);
  REQUIRE(table.columns.size() == 3);
  CHECK(table.columns[1].picture.has_value());
  CHECK(cell_of(table, "Top", 1).differs);
  CHECK(cell_of(table, "Top", 2).differs);
  CHECK(cell_of(table, "Height", 1).differs);
  CHECK_FALSE(cell_of(table, "Pin marks", 1).differs);
  CHECK_FALSE(cell_of(table, "Seam", 1).differs);
}

TEST_CASE("an accessory has a section for each mould, its succession and the timings behind it", "[pages]") {
  const harbour::Reference reference;
  const Page page = reference.page("accessories/lantern.html");
  for (const std::string_view anchor : {"ring", "plain"})
    CHECK(std::ranges::find(page.sections, anchor, &Section::anchor) != page.sections.end());
  CHECK(walk::blocks<DrawingBlock>(page, "succession").size() == 1);
  const auto drawings = walk::blocks<DrawingBlock>(page, "when");
  REQUIRE(drawings.size() == 1);
  CHECK(drawings.front()->narrow.width <= 360);
  CHECK(drawings.front()->wide.width <= 760);
  CHECK_FALSE(drawings.front()->wide.description.empty());
  CHECK(says(page, "The ring went before the plain top came."));
  CHECK(std::ranges::any_of(page.sections, [](const Section& section) {
    return text_of(section.title) == "Disputed, and left out of every conclusion";
  }));
}

TEST_CASE("a reproduction is set beside its original, and what overlaps is not marked", "[pages]") {
  const harbour::Reference reference;
  const Page page = reference.page("reproductions/lantern/recast.html");
  const auto tables = walk::blocks<Table>(page, "give-away");
  REQUIRE(tables.size() == 1);
  CHECK(cell_of(*tables.front(), "Seam", 2).differs);            // none, not fine
  CHECK(cell_of(*tables.front(), "Height", 2).differs);          // 21.8 to 22.0 beside 22.1 to 22.7
  CHECK_FALSE(cell_of(*tables.front(), "Pin marks", 2).differs); // 2 or 3 beside 2
  // The colour of a reproduction is its own, and not that of what it copies: 68, 8, 40 beside 70, 5, 45.
  const Cell& plastic = cell_of(*tables.front(), "Plastic", 2);
  REQUIRE(plastic.lab.has_value());
  CHECK((*plastic.lab)[1] == 8);
  CHECK(plastic.differs);
  CHECK(says(page, "Not every reproduction is known"));
  CHECK_FALSE(walk::blocks<Caution>(page).empty());
}

TEST_CASE("a feature lists its values and what states them", "[pages]") {
  const harbour::Reference reference;
  const Page page = reference.page("features/top.html");
  const auto values = walk::blocks<Table>(page, "values");
  REQUIRE(values.size() == 1);
  CHECK(values.front()->rows.size() == 3); // knob too, which nothing describes
  CHECK(says(page, "A broken ring leaves stumps."));
  CHECK(says(page, "Plain top"));
  const Page smell = reference.page("features/smell.html");
  CHECK(says(smell, "This look harms the part"));
  CHECK(says(smell, "Nothing on record states it."));
}

TEST_CASE("a matrix shows the judge's verdict for each pair, and leads to its proof", "[pages]") {
  const harbour::Reference reference;
  Judge judge{reference.kb().kb, reference.kb().dates, Basis::conjectured};
  for (const std::string_view path : {"matrices/lantern.html", "figures/maren.html"}) {
    const Page page = reference.page(path);
    const auto tables = walk::blocks<Table>(page, "matrix");
    REQUIRE(tables.size() == 1);
    const std::vector<std::string> runs{"lantern/ring/brass", "lantern/ring/slate", "lantern/plain/grey"};
    const std::vector<std::string> issues{"maren/first", "maren/second"};
    REQUIRE(tables.front()->columns.size() == 4);
    REQUIRE(tables.front()->rows.size() == 2);
    for (std::size_t i = 0; i < issues.size(); ++i)
      for (std::size_t r = 0; r < runs.size(); ++r) {
        const Cell& cell = tables.front()->rows[i][r + 1];
        CAPTURE(path, issues[i], runs[r]);
        const Judgement judgement = judge.judge(reference.kb().run(runs[r]), reference.kb().issue(issues[i]), false);
        CHECK(cell.verdict == judgement.verdict);
        CHECK(text_of(cell.text) == name(judgement.verdict));
        CHECK(cell.text.front().to ==
              "figures/" + issues[i] + ".html#" + verdict_anchor(reference.kb().kb, reference.kb().run(runs[r])));
      }
  }
}

TEST_CASE("a checklist has a box for every figure and every slot", "[pages]") {
  const harbour::Reference reference;
  for (const std::string_view path : {"checklists/figures/maren.html", "checklists/lines/patrol.html"}) {
    const Page page = reference.page(path);
    const auto lists = walk::blocks<Checklist>(page);
    CAPTURE(path);
    REQUIRE(lists.size() == 1);
    REQUIRE(lists.front()->groups.size() == 4);
    CHECK(lists.front()->groups[0].items.size() == 2);
    CHECK(lists.front()->groups[1].items.size() == 3);
    CHECK(lists.front()->groups[2].items.size() == 1);
  }
  const Page page = reference.page("checklists/figures/maren.html");
  CHECK(walk::blocks<Checklist>(page).front()->groups[0].items[1].note.starts_with("attested: Ring top, brass"));
}

TEST_CASE("a key's couplets lead forwards and end in every candidate", "[pages]") {
  const harbour::Reference reference;
  const Page page = reference.page("keys/lantern.html");
  const auto keys = walk::blocks<KeyView>(page);
  REQUIRE(keys.size() == 1);
  std::set<std::string> ends;
  for (std::size_t i = 0; i < keys.front()->couplets.size(); ++i) {
    const KeyView::Couplet& couplet = keys.front()->couplets[i];
    CHECK(couplet.number == i + 1);
    CHECK(couplet.answers.size() >= 2);
    for (const KeyView::Answer& answer : couplet.answers) {
      CHECK((answer.go_to == 0) == !answer.results.empty());
      if (answer.go_to != 0) {
        CHECK(answer.go_to > couplet.number);
        CHECK(answer.go_to <= keys.front()->couplets.size());
      }
      for (const Text& result : answer.results) ends.insert(text_of(result));
    }
  }
  CHECK(ends == std::set<std::string>{"Ring top, brass", "Ring top, slate", "Plain top, grey", "reproduction: Recast"});
  CHECK(says(page, "On average it takes"));
  std::set<std::string> looks; // how to look is told once for each feature
  for (const KeyView::Couplet& couplet : keys.front()->couplets)
    if (!couplet.look.starts_with("How to look: as at ")) CHECK(looks.insert(text_of(couplet.question)).second);
}

} // namespace
} // namespace coeval
