// Is what no swap mends listed once, with the runs that would do, and is every issue checked off?
#include <catch2/catch.hpp>

#include "drawer.hpp"
#include "shelf/checklist.hpp"
#include "shelf/wants.hpp"

using namespace coeval;
using drawer::Drawer;

namespace {

std::vector<Wanted> wanted_of(Drawer& drawer) {
  const ShelfSwap after = plan_swap(drawer.kb.kb, drawer.shelf, drawer.judge, {.with_parcels = true});
  return find_wanted(drawer.kb.kb, drawer.shelf, drawer.judge, after, Basis::conjectured);
}

std::string_view run(const Drawer& drawer, const WantedRun& wanted) {
  return drawer.kb.kb.runs[at(wanted.run)].address;
}

} // namespace

TEST_CASE("pieces of one issue that lack the same are one want, with the best runs first") {
  Drawer drawer{"[[piece]]\nid = \"a\"\nissue = \"maren/plain\"\n[[piece]]\nid = \"b\"\nissue = \"maren/plain\"\n"
                "priority = 7\n[[piece]]\nid = \"c\"\nissue = \"maren/painted\"\npriority = 3\n"
                "[[part]]\nid = \"coat\"\nin = \"c\"\nrun = \"coat/long/yellow\"\n"};
  const std::vector<Wanted> wanted = wanted_of(drawer);
  REQUIRE(wanted.size() == 2);
  REQUIRE(wanted[0].pieces.size() == 2);
  CHECK(wanted[0].priority == 7);
  CHECK(drawer.shelf[wanted[0].pieces[0]].id == "b");
  REQUIRE(wanted[0].runs.size() == 1); // the others are too old
  CHECK(run(drawer, wanted[0].runs[0]) == "lantern/plain/grey");
  CHECK(wanted[0].runs[0].pairings == 0);
  REQUIRE(wanted[1].runs.size() == 2); // grey is too late
  CHECK(run(drawer, wanted[1].runs[0]) == "lantern/ring/brass");
  CHECK(wanted[1].runs[0].judgement->verdict == Verdict::attested);
  CHECK(wanted[1].runs[0].pairings == 1);
  CHECK(run(drawer, wanted[1].runs[1]) == "lantern/ring/copper");
}

TEST_CASE("what a loose part fills, or one on its way, is not wanted; what is only offered is") {
  const std::string piece = "[[piece]]\nid = \"a\"\nissue = \"maren/plain\"\n[[part]]\nid = \"grey\"\n"
                            "run = \"lantern/plain/grey\"\npurchase = \"p\"\n[[purchase]]\nid = \"p\"\n";
  Drawer arrived{piece + "arrived = \"2026-05-02\"\n"};
  CHECK(wanted_of(arrived).empty());
  Drawer paid{piece + "paid = \"2026-05-02\"\n"};
  CHECK(wanted_of(paid).empty());
  Drawer offered{piece + "offered = \"2026-05-02\"\n"};
  CHECK(wanted_of(offered).size() == 1);
}

TEST_CASE("an owner's wants stand among what is missing by priority") {
  Drawer drawer{"[[piece]]\nid = \"a\"\nissue = \"maren/plain\"\npriority = 5\n"
                "[[want]]\nid = \"low\"\naccessory = \"lantern\"\npriority = 2\n"
                "[[want]]\nid = \"high\"\nrun = \"lantern/ring/brass\"\npriority = 9\n"
                "[[want]]\nid = \"none\"\naccessory = \"cap\"\n"};
  const std::vector<Wanted> wanted = wanted_of(drawer);
  REQUIRE(wanted.size() == 4);
  CHECK(wanted[0].want == 1);
  CHECK(wanted[0].runs[0].pairings == 1);
  CHECK_FALSE(wanted[1].want);
  CHECK(wanted[2].want == 0);
  CHECK(wanted[2].runs.size() == 3);
  CHECK((wanted[3].want == 2 && wanted[3].runs.empty()));
}

TEST_CASE("a checklist counts an issue once, by the best that is owned of it") {
  Drawer drawer{"[[piece]]\nid = \"a\"\nissue = \"maren/painted\"\n[[part]]\nid = \"coat\"\nin = \"a\"\n"
                "run = \"coat/long/yellow\"\n[[piece]]\nid = \"b\"\nissue = \"maren/painted\"\n[[part]]\n"
                "id = \"lantern\"\nin = \"b\"\nrun = \"lantern/ring/brass\"\n[[piece]]\nid = \"c\"\n"
                "issue = \"maren/bare\"\n[[piece]]\nid = \"d\"\nfigure = \"maren\"\n"};
  const Audit audit = drawer.audit();
  const OwnedChecklist list = make_checklist(drawer.kb.kb, drawer.shelf, drawer.judge, audit, {FigureIndex{0}});
  CHECK((list.owned().done == 2 && list.owned().of == 3 && list.owned().percent() == 66));
  CHECK(list.complete().done == 1); // the bare one: no painted one has both
  CHECK((list.slots().done == 2 && list.slots().of == 3));
  CHECK(list.issue_unknown.size() == 1);
}
