// What is an owned part worth on an issue, and does an audit say of each piece what is so, the worst first?
#include <catch2/catch.hpp>

#include "drawer.hpp"

using namespace coeval;
using drawer::Drawer;

namespace {

std::string part(std::string_view keys) { return "[[part]]\nid = \"it\"\n" + std::string{keys} + "\n"; }

// "right attested 15", with the strength.
std::string fit(std::string_view keys, std::string_view issue) {
  Drawer drawer{part(keys)};
  INFO(in_memory::shown(drawer.sources, drawer.out.sorted()));
  REQUIRE(drawer.shelf.parts.size() == 1);
  const PartFit& it = drawer.judge.fit(PartIndex{0}, drawer.kb.issue(issue));
  return std::string{name(it.state)} + " " + std::string{name(it.verdict)} + " " + std::to_string(it.strength);
}

std::vector<std::string> troubles(const std::vector<Finding>& findings) {
  std::vector<std::string> names;
  for (const Finding& finding : findings) names.emplace_back(name(finding.trouble));
  return names;
}

} // namespace

TEST_CASE("a part is right only where everything that it can be belongs") {
  CHECK(fit("run = \"lantern/ring/brass\"", "maren/painted") == "right attested 15"); // the pairing is observed
  CHECK(fit("run = \"lantern/ring/copper\"", "maren/painted") == "right fits 12");
  CHECK(fit("mould = \"lantern/ring\"", "maren/painted") == "right fits 11"); // the weaker of each
  CHECK(fit("run = \"lantern/plain/grey\"", "maren/painted") == "wrong anachronistic 0");
  CHECK(fit("accessory = \"lantern\"", "maren/painted") == "open open 4");
  CHECK(fit("repro = \"lantern/recast\"", "maren/painted") == "reproduction open 0");
  CHECK(fit("accessory = \"lantern\"\nseen = [\"top=ring\"]", "maren/painted") == "doubtful fits 2");
  CHECK(fit("accessory = \"lantern\"\nseen = [\"top=plain\", \"seam=none\"]", "maren/painted") == "unknown open 0");
  CHECK(fit("run = \"coat/long/yellow\"", "maren/plain") == "wrong no-place 0");
  CHECK(fit("run = \"coat/long/yellow\"", "maren/bare") == "wrong no-place 0");
}

TEST_CASE("parts of one kind are judged once") {
  Drawer drawer{
      "[[part]]\nid = \"a\"\nrun = \"lantern/ring/brass\"\n[[part]]\nid = \"b\"\nrun = \"lantern/ring/brass\"\n"
      "[[part]]\nid = \"c\"\nrun = \"lantern/ring/copper\"\n"};
  CHECK(drawer.judge.kind(PartIndex{0}) == drawer.judge.kind(PartIndex{1}));
  CHECK(drawer.judge.kind(PartIndex{0}) != drawer.judge.kind(PartIndex{2}));
  const IssueIndex painted = drawer.kb.issue("maren/painted");
  CHECK(&drawer.judge.fit(PartIndex{0}, painted) == &drawer.judge.fit(PartIndex{1}, painted));
}

TEST_CASE("pieces are listed by their worst trouble, then by priority") {
  Drawer drawer{R"(
[[piece]]
id = "complete"
issue = "maren/bare"
[[piece]]
id = "empty"
issue = "maren/plain"
[[piece]]
id = "empty-and-dear"
issue = "maren/plain"
priority = 9
[[piece]]
id = "late"
issue = "maren/painted"
[[part]]
id = "late-lantern"
in = "late"
run = "lantern/plain/grey"
[[piece]]
id = "recast"
issue = "maren/painted"
[[part]]
id = "recast-lantern"
in = "recast"
repro = "lantern/recast"
[[piece]]
id = "which"
figure = "maren"
[[part]]
id = "which-lantern"
in = "which"
run = "lantern/plain/grey"
)"};
  REQUIRE(drawer.out.sorted().empty());
  const Audit audit = drawer.audit();
  std::vector<std::string> order;
  for (const PieceAudit& piece : audit.pieces) order.push_back(drawer.shelf[piece.piece].id);
  CHECK(order == std::vector<std::string>{"recast", "late", "empty-and-dear", "empty", "which", "complete"});
  CHECK(troubles(audit.pieces[0].findings) == std::vector<std::string>{"reproduction", "missing"});
  CHECK(audit.wrong());
  // Grey fits plain only, and speaks against the others.
  const auto& possible = audit.pieces[4].possible;
  REQUIRE(possible.size() == 3);
  CHECK(possible[0].issue == drawer.kb.issue("maren/plain"));
  CHECK((possible[0].right == 1 && possible[0].wrong == 0));
  CHECK((possible[1].wrong == 1 && possible[2].wrong == 1));
}

TEST_CASE("a fault counts as disclosed in the same words, whatever their case and spaces") {
  Drawer drawer{"[[piece]]\nid = \"a\"\nissue = \"maren/bare\"\ndisclosed = [\"Paint  worn\"]\n"
                "found = [\"paint worn\", \"crack\"]\n"};
  const Audit audit = drawer.audit();
  REQUIRE(audit.pieces[0].findings.size() == 1);
  CHECK(audit.pieces[0].findings[0].fault == "crack");
}

TEST_CASE("whoever examined a piece examined what came on it") {
  const std::string head =
      "[[purchase]]\nid = \"p\"\narrived = \"2026-05-02\"\n[[purchase]]\nid = \"q\"\n"
      "arrived = \"2026-05-03\"\n[[piece]]\nid = \"a\"\nissue = \"maren/plain\"\npurchase = \"p\"\n";
  const std::string with = "[[part]]\nid = \"b\"\nin = \"a\"\nrun = \"lantern/plain/grey\"\npurchase = ";
  CHECK(troubles(Drawer{head + with + "\"p\"\n"}.audit().pieces[0].findings) ==
        std::vector<std::string>{"unexamined", "unexamined"});
  const std::string examined = head + "examined = \"2026-05-04\"\n";
  CHECK(troubles(Drawer{examined + with + "\"p\"\n"}.audit().pieces[0].findings).empty());
  CHECK(troubles(Drawer{examined + with + "\"q\"\n"}.audit().pieces[0].findings) ==
        std::vector<std::string>{"unexamined"});
}

TEST_CASE("a loose part says which slots it would help, and the best of them") {
  Drawer drawer{"[[piece]]\nid = \"a\"\nissue = \"maren/plain\"\n[[piece]]\nid = \"b\"\nissue = \"maren/plain\"\n"
                "priority = 5\n[[piece]]\nid = \"c\"\nissue = \"maren/painted\"\n"
                "[[part]]\nid = \"grey\"\nrun = \"lantern/plain/grey\"\n"
                "[[part]]\nid = \"recast\"\nrepro = \"lantern/recast\"\n"};
  const Audit audit = drawer.audit();
  REQUIRE(audit.loose.size() == 2);
  const LooseAudit& grey = audit.loose[0];
  CHECK((grey.takers == 2 && grey.helped == 2));
  REQUIRE(grey.best);
  CHECK(drawer.shelf[grey.best->piece].id == "b");
  CHECK((audit.loose[1].takers == 0 && !audit.loose[1].best));
}

TEST_CASE("what is only offered is told, and counted nowhere") {
  Drawer drawer{"[[purchase]]\nid = \"p\"\noffered = \"2026-05-02\"\n[[piece]]\nid = \"a\"\nissue = \"maren/plain\"\n"
                "purchase = \"p\"\n"};
  const Audit audit = drawer.audit();
  CHECK(audit.pieces.empty());
  CHECK(audit.offered.size() == 1);
  CHECK((!audit.wrong() && !audit.open()));
}
