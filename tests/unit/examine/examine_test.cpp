// What observations leave, and what is looked at next.
#include <catch2/catch.hpp>

#include "part.hpp"

using namespace coeval;
using examining::lantern;
using examining::Names;
using examining::Part;

namespace {

const std::string tops = R"(
[[mould]]
id = "ring"
features = { top = "ring", vents = 4, height-mm = 21.5, weight-g = { value = 1.4, tolerance = 0.05 } }
[[mould.run]]
id = "brass"
colour = { name = "brass", lab = [70.8, 5.2, 44.9] }
[[mould.run]]
id = "grey"
colour = { name = "grey", lab = [58.3, -1.1, -3.9] }
[[mould]]
id = "plain"
features = { top = "plain", vents = [4, 6], height-mm = 19.6 }
[[mould.run]]
id = "grey"
[[repro]]
id = "cast"
of = "ring/brass"
features = { height-mm = 20.8, weight-g = { value = 1.2, tolerance = 0.05 }, melts = true, dissolves = true }
)";

const Part& part() {
  static const Part it{lantern + tops};
  return it;
}

std::vector<std::string> excluding(const Outcome& outcome, const std::string& candidate,
                                   const std::vector<std::string>& texts) {
  std::vector<std::string> list;
  for (const std::size_t i : members(outcome.stands[part().find(candidate)].excludes)) list.push_back(texts[i]);
  return list;
}

} // namespace

TEST_CASE("an observation excludes what states something else, and nothing that is silent") {
  CHECK(part().left({}) == Names{"ring/brass", "ring/grey", "plain/grey", "cast"});
  CHECK(part().left({"top=ring"}) == Names{"ring/brass", "ring/grey", "cast"});
  CHECK(part().left({"top=ring,plain"}) == Names{"ring/brass", "ring/grey", "plain/grey", "cast"});
  CHECK(part().left({"top=!ring"}) == Names{"plain/grey"});
  CHECK(part().left({"vents=6"}) == Names{"plain/grey"});
  CHECK(part().left({"vents=4"}) == Names{"ring/brass", "ring/grey", "plain/grey", "cast"});
  CHECK(part().left({"vents=!4"}) == Names{"plain/grey"});
  CHECK(part().left({"weight-g=9±0.1"}) == Names{"plain/grey"}); // states no weight
  CHECK(part().left({"stamp=KT"}) == Names{"ring/brass", "ring/grey", "plain/grey", "cast"});
}

TEST_CASE("what excluded each of the others is told") {
  const std::vector<std::string> texts{"top=ring", "height-mm=20.8±0.05", "vents=4"};
  const Outcome outcome = part().after(texts);
  CHECK(part().addresses(outcome.left) == Names{"cast"});
  CHECK(excluding(outcome, "ring/brass", texts) == Names{"height-mm=20.8±0.05"});
  CHECK(excluding(outcome, "plain/grey", texts) == Names{"top=ring", "height-mm=20.8±0.05"});
  CHECK(members(outcome.stands[part().find("cast")].agrees) == std::vector<std::size_t>{0, 1, 2});
}

TEST_CASE("what is left is all originals, all reproductions, both, or nothing") {
  CHECK(part().after({"top=plain"}).remaining == Remaining::originals);
  CHECK(part().after({"height-mm=20.8±0.05"}).remaining == Remaining::reproductions);
  CHECK(part().after({"top=ring"}).remaining == Remaining::mixed);
  CHECK(part().after({"top=notch"}).remaining == Remaining::nothing);
}

TEST_CASE("where nothing fits, the nearest are told, and which observation to doubt") {
  const Outcome outcome = part().after({"top=plain", "height-mm=21.5±0.05", "vents=4"});
  CHECK(outcome.left.empty());
  CHECK(part().addresses(outcome.nearest) == Names{"ring/brass", "ring/grey", "plain/grey"});
  // Without the top two fit, without the height one does.
  CHECK(outcome.recheck == std::vector<std::size_t>{0, 1});
  CHECK(outcome.next.empty());
}

TEST_CASE("what something else than a look rules out is out, and says so") {
  std::vector<bool> out(part().table.size());
  out[part().find("ring/brass")] = true;
  const Outcome outcome = part().after({"top=ring"}, {.claimed = part().find("ring/brass"), .ruled_out = out});
  CHECK(part().addresses(outcome.left) == Names{"ring/grey", "cast"});
  CHECK(outcome.stands[part().find("ring/brass")].ruled_out);
  CHECK(outcome.stands[part().find("ring/brass")].out());
  CHECK(outcome.stands[part().find("ring/brass")].excludes == 0);
  CHECK_FALSE(outcome.stands[part().find("ring/grey")].ruled_out);
  CHECK(conclude(part().table, outcome, part().find("ring/brass")).answer == ClaimAnswer::excluded);
  // It counts as one thing against a candidate where nothing is left.
  const Outcome none =
      part().after({"top=plain", "vents=6"}, {.ruled_out = std::vector<bool>(part().table.size(), true)});
  CHECK(none.remaining == Remaining::nothing);
  CHECK(part().addresses(none.nearest) == Names{"plain/grey"});
}

TEST_CASE("a measurement that is too rough decides nothing") {
  const Outcome outcome = part().after({"height-mm=21.2±0.2"});
  CHECK(part().addresses(outcome.left) == Names{"ring/brass", "ring/grey", "cast"});
  CHECK(outcome.stands[part().find("ring/brass")].undecided == 1);
  CHECK(outcome.stands[part().find("ring/brass")].agrees == 0);
  CHECK(outcome.stands[part().find("plain/grey")].excludes == 1);
}

TEST_CASE("colours are compared by how different they look") {
  CHECK(part().left({"body-colour=lab(70.8,5.2,44.9)±0"}) == Names{"ring/brass", "plain/grey", "cast"});
  CHECK(part().left({"body-colour=lab(58.3,-1.1,-3.9)±1"}) == Names{"ring/grey", "plain/grey"});
  const Outcome outcome = part().after({"body-colour=lab(67,5.2,44.9)±2"}); // 3.1 off, give or take 2: within 4 or not
  CHECK(outcome.stands[part().find("ring/brass")].undecided == 1);
}

TEST_CASE("the next look tells most for its effort, and never harms the part") {
  const Outcome outcome = part().after({"top=ring"});
  const Names next = part().next(outcome);
  // Brass, grey and a cast are told apart by height (2 minutes), colour (1) and weight (3); the vents tell nothing.
  CHECK(next == Names{"body-colour", "height-mm", "weight-g"});
  CHECK(outcome.next.front().bits == Approx(0.9183).margin(1e-4)); // 2 to 1 of three
  for (const std::string harmful : {"melts", "dissolves"}) CHECK(std::ranges::find(next, harmful) == next.end());
}

TEST_CASE("what a seller can do comes first when that is asked for") {
  CHECK(part().next(part().after({"top=ring"}, {.seller_first = true})) ==
        Names{"height-mm", "weight-g", "body-colour"});
}

TEST_CASE("what was seen for sure is not looked at again, what was rough or one of several is") {
  const auto next = [&](const std::string& text) { return part().next(part().after({text})); };
  const auto has = [](const Names& names, const std::string& id) {
    return std::ranges::find(names, id) != names.end();
  };
  CHECK_FALSE(has(next("top=ring"), "top"));
  CHECK(has(next("top=ring,plain"), "top"));
  CHECK(has(next("height-mm=21.15±0.2"), "height-mm"));
  CHECK_FALSE(has(next("height-mm=21.5±0.05"), "height-mm"));
}

TEST_CASE("a part is consistent with its claim only when nothing that a look could tell is left") {
  const std::size_t brass = part().find("ring/brass");
  const auto answer = [&](const std::vector<std::string>& texts) {
    return conclude(part().table, part().after(texts, {.claimed = brass}), brass);
  };
  CHECK(answer({}).answer == ClaimAnswer::undecided);
  CHECK(answer({"top=plain"}).answer == ClaimAnswer::excluded);
  const Conclusion halfway = answer({"top=ring", "body-colour=lab(70.8,5.2,44.9)±0.5"});
  CHECK(halfway.answer == ClaimAnswer::undecided);
  CHECK(part().addresses(halfway.others) == Names{"cast"});
  CHECK(answer({"top=ring", "body-colour=lab(70.8,5.2,44.9)±0.5", "height-mm=21.5±0.1"}).answer ==
        ClaimAnswer::consistent);
}

TEST_CASE("a reproduction that no look tells from the original leaves the claim undecided for good") {
  const Part alike{lantern + "[[mould]]\nid = \"m\"\nfeatures = { top = \"ring\" }\n[[mould.run]]\nid = \"a\"\n"
                             "[[mould.run]]\nid = \"b\"\n[[repro]]\nid = \"r\"\nof = \"m/a\"\n"};
  const Conclusion conclusion = conclude(alike.table, alike.after({"top=ring"}), 0);
  CHECK(conclusion.answer == ClaimAnswer::undecided);
  CHECK(alike.addresses(conclusion.alike) == Names{"m/b", "r"});
  CHECK(conclusion.others.empty());
}

TEST_CASE("another run that looks the same does not stand in the way") {
  const Part runs{lantern + "[[mould]]\nid = \"m\"\nfeatures = { top = \"ring\" }\n[[mould.run]]\nid = \"a\"\n"
                            "[[mould.run]]\nid = \"b\"\n"};
  CHECK(conclude(runs.table, runs.after({"top=ring"}), 0).answer == ClaimAnswer::consistent);
}

TEST_CASE("numbers without a tolerance decide nothing") {
  const Part bare{lantern + "[[mould]]\nid = \"m\"\nfeatures = { weight-g = 1.4 }\n[[mould.run]]\nid = \"a\"\n"};
  CHECK(bare.left({"weight-g=9±0.1"}) == Names{"m/a"});
}
