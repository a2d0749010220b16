// Is each verdict reached for its own reason, on the strongest basis that proves it?
#include <catch2/catch.hpp>

#include "world.hpp"

using namespace coeval;
using world::Said;
using world::verdict;
using world::World;
using Lines = std::vector<std::string>;

namespace {

std::string backed(const std::string& basis) { return "basis = \"" + basis + "\"\nsource = [\"log p. 5\"]\n"; }
std::string pairing(const std::string& keys) { return "[[issue.pairing]]\nrun = \"lantern/ring/brass\"\n" + keys; }
const std::string other_issue = "[[issue]]\nid = \"second\"\nbare = true\n";
std::string exclusive(const std::string& to, const std::string& keys) {
  return "[[mould.run.exclusive]]\nto = [" + to + "]\n" + keys;
}

// Made a year too late.
World late() {
  World it;
  it.made = "made = \"1981-01-01/1981-12-31\"\n";
  return it;
}

} // namespace

TEST_CASE("fits: place, time and route are proven") {
  const Said said{World{}};
  CHECK(said.verdict() == "fits on documented");
  CHECK(said.ground(Ground::place) == "yes on documented");
  CHECK(said.ground(Ground::time) == "yes on documented");
  CHECK(said.ground(Ground::route) == "yes on documented");
  CHECK(said.ground(Ground::record) == "undecided");
  CHECK(said.judgement.would_settle.empty());
  CHECK_FALSE(said.judgement.gap.has_value());
  CHECK(said.proof(Ground::place) == Lines{"maren/first takes lantern in the slot hand"});
  CHECK(said.proof(Ground::route) == Lines{"lantern/ring/brass was made at Cork", "maren/first was packed at Cork"});
}

TEST_CASE("fits: as weak as the weakest ground") {
  World it;
  it.takes += backed("reported");
  CHECK(verdict(it) == "fits on reported");
  it = World{};
  it.issue_backing = backed("observed");
  CHECK(verdict(it) == "fits on observed");
}

TEST_CASE("no-place: the issue takes other things") {
  World it;
  it.takes = "[[issue.takes]]\naccessory = \"horn\"\n";
  it.more = "[accessory]\nid = \"horn\"\nname = \"Horn\"\nslot = \"hand\"\n";
  const Said said{it};
  CHECK(said.verdict() == "no-place on documented");
  CHECK(said.proof(Ground::place) == Lines{"maren/first takes horn and nothing else"});
}

TEST_CASE("no-place: the issue was sold bare") {
  World it;
  it.takes = "";
  it.packer += "bare = true\n";
  const Said said{it};
  CHECK(said.verdict() == "no-place on documented");
  CHECK(said.proof(Ground::place) == Lines{"maren/first was sold bare"});
}

TEST_CASE("no-place goes before everything else") {
  World it = late();
  it.takes = "";
  it.packer += "bare = true\n";
  it.below_run = exclusive("\"maren/second\"", backed("documented"));
  it.below_issue = pairing("refuted = true\n") + other_issue;
  CHECK(verdict(it) == "no-place on documented");
}

TEST_CASE("open: what the issue takes is not known") {
  World it;
  it.takes = "";
  const Said said{it};
  CHECK(said.verdict() == "open");
  CHECK(said.ground(Ground::place) == "undecided");
  CHECK(said.judgement.would_settle == Lines{"what maren/first was sold with"});
}

TEST_CASE("anachronistic: made only after the issue was last packed") {
  const Said said{late()};
  CHECK(said.verdict() == "anachronistic on documented");
  CHECK(said.judgement.gap == 367); // from 1979-12-31 to 1981-01-01
  CHECK(said.words(Ground::time) == "made from 1981-01-01 at the earliest; last packed by 1979-12-31");
  CHECK(said.proof(Ground::time) == Lines{"lantern/ring/brass was first made on 1981-01-01 or later",
                                          "maren/first was last packed on 1979-12-31 or earlier"});
}

TEST_CASE("anachronistic: through an order that has no date") {
  World it;
  it.made = "";
  it.more = "[[period]]\nid = \"storm\"\nname = \"Storm\"\n";
  it.below_run = "[[mould.run.timing]]\nthis = \"start\"\nafter = \"period/storm.end\"\nat-least = \"P10D\"\n" +
                 backed("observed");
  it.packed = "";
  it.below_issue = "[[issue.timing]]\nthis = \"end\"\nbefore = \"period/storm.start\"\n" + backed("reported");
  const Said said{it};
  CHECK(said.verdict() == "anachronistic on reported");
  CHECK(said.judgement.gap == 11); // a storm of one day: ten days after it, one day before it
  CHECK(said.words(Ground::time) == "first made after the issue was last packed");
  CHECK(said.proof(Ground::time).size() == 2);
}

TEST_CASE("a day decides between too late and in time") {
  World it;
  it.made = "made = \"1980-01-01/1980-06-30\"\n";
  CHECK(verdict(it) == "anachronistic on documented");
  CHECK(Said{it}.judgement.gap == 1);
  it.made = "made = \"1979-12-31/1980-06-30\"\n";
  CHECK(verdict(it) == "fits on documented"); // made and packed on the same day
}

TEST_CASE("stale: made longer before than stock was kept") {
  World it;
  it.made = "made = \"1976-01-01/1976-06-30\"\n"; // 93 days before 1 October, and 90 are allowed
  const Said said{it};
  CHECK(said.verdict() == "stale on documented");
  CHECK(said.judgement.gap == 3);
  CHECK(said.proof(Ground::time) == Lines{"maren/first was first packed on 1976-10-01 or later",
                                          "lantern/ring/brass was last made on 1976-06-30 or earlier",
                                          "stock was kept for 90 days at most"});
  it.made = "made = \"1976-01-01/1976-07-03\"\n"; // exactly 90 days
  CHECK(verdict(it) == "fits on documented");
}

TEST_CASE("open: without a policy on stock nothing is too old, and only what touches is surely fresh") {
  World it;
  it.leftover = "";
  CHECK(verdict(it) == "fits on documented");
  it.made = "made = \"1970-01-01/1970-12-31\"\n";
  const Said said{it};
  CHECK(said.verdict() == "open");
  CHECK(std::ranges::count(said.judgement.would_settle, "how long moulded parts were kept before they were packed") ==
        1);
  it.made = "made = \"1970-01-01/1976-10-01\"\n";
  CHECK(verdict(it) == "fits on documented");
  it.made = "made = \"1970-01-01/1976-09-30\"\n";
  CHECK(verdict(it) == "open");
}

TEST_CASE("stale on the policy's basis, where that is the weakest") {
  World it;
  it.made = "made = \"1970\"\n";
  it.leftover = "[line.leftover]\nat-most = \"P90D\"\n" + backed("reported");
  CHECK(verdict(it) == "stale on reported");
  CHECK(verdict(it, Basis::observed) == "open");
}

TEST_CASE("open: the dates overlap in part, and what would settle it is named") {
  World it;
  it.made = "made = { start = \"[1979-06-01..1980-06-30]\", end = \"1981-01-01\" }\n";
  const Said said{it};
  CHECK(said.verdict() == "open");
  CHECK(said.ground(Ground::time) == "undecided");
  CHECK(said.proof(Ground::time).empty());
  CHECK(said.words(Ground::time) == "first made between 1979-06-01 and 1980-06-30; last packed on 1979-12-31");
  REQUIRE(said.judgement.would_settle.size() == 2);
  CHECK(said.judgement.would_settle[0] ==
        "when lantern/ring/brass was first made (known: between 1979-06-01 and 1980-06-30); by 1979-12-31 is in time; "
        "after 1979-12-31 is too late");
}

TEST_CASE("attested: found together, though nothing else is known") {
  World it;
  it.made = it.packed = it.run_plant = it.takes = "";
  it.below_issue = pairing(backed("observed"));
  const Said said{it};
  CHECK(said.verdict() == "attested on observed");
  CHECK(said.proof(Ground::record) == Lines{"lantern/ring/brass was found with maren/first"});
  CHECK(said.judgement.would_settle.empty());
}

TEST_CASE("attested: on the strongest of its pairings") {
  World it;
  it.below_issue = pairing(backed("reported")) + pairing(backed("observed")) + pairing(backed("conjectured"));
  CHECK(verdict(it) == "attested on observed");
}

TEST_CASE("refuted goes before attested, reserved before both, whatever their bases") {
  World it;
  it.below_issue = pairing(backed("documented")) + pairing("refuted = true\n" + backed("conjectured"));
  CHECK(verdict(it) == "refuted on conjectured");
  it.below_issue += other_issue;
  it.below_run = exclusive("\"maren/second\"", "");
  CHECK(verdict(it) == "reserved on conjectured");
  it.below_run = exclusive("\"maren/second\"", "") + exclusive("\"maren/second\"", backed("observed"));
  CHECK(verdict(it) == "reserved on observed");
}

TEST_CASE("time goes before the record, the record before the route") {
  World it = late();
  it.below_issue = pairing("refuted = true\n");
  CHECK(verdict(it) == "anachronistic on documented");
  it = World{};
  it.run_plant = "plant = \"porto\"\n";
  it.plants = "[[plant]]\nid = \"cork\"\nname = \"Cork\"\nroutes-complete = true\n"
              "[[plant]]\nid = \"porto\"\nname = \"Porto\"\n";
  CHECK(verdict(it) == "misrouted on conjectured");
  it.below_issue = pairing("refuted = true\n");
  CHECK(verdict(it) == "refuted on conjectured");
  it.below_issue = pairing("");
  CHECK(verdict(it) == "misrouted on conjectured"); // a proven no goes before what was found
}

TEST_CASE("an exclusive list that names the issue shuts nothing out") {
  World it;
  it.below_run = exclusive("\"maren/first\"", backed("documented"));
  CHECK(verdict(it) == "fits on documented");
}

TEST_CASE("what is disputed does not count, and is mentioned") {
  World it;
  it.below_issue = pairing("disputed = true\n") + pairing("refuted = true\ndisputed = true\n") + other_issue;
  it.below_run = exclusive("\"maren/second\"", "disputed = true\n");
  const Said said{it};
  CHECK(said.verdict() == "fits on documented");
  CHECK(said.words(Ground::record) == "a pairing of the two is disputed");
}

TEST_CASE("a claim proves nothing, and is mentioned") {
  World it;
  it.packer = "";
  it.more = "[[claim]]\nid = \"told\"\nsays = \"They came together.\"\nstanding = \"open\"\n"
            "[[claim.pairing]]\nrun = \"lantern/ring/brass\"\nissue = \"maren/first\"\n";
  const Said said{it};
  CHECK(said.verdict() == "open");
  CHECK(said.words(Ground::record) == "nothing pairs them; the claim that they came together (told) is open");
}

TEST_CASE("only statements of the basis asked for, or stronger, count") {
  SECTION("a verdict on a weaker basis is open on a stronger one") {
    World it = late();
    it.made += backed("reported");
    CHECK(verdict(it) == "anachronistic on reported");
    CHECK(verdict(it, Basis::reported) == "anachronistic on reported");
    CHECK(verdict(it, Basis::observed) == "open");
  }
  SECTION("the stronger evidence may answer otherwise than the weaker") {
    World it;
    it.below_issue = pairing("refuted = true\n" + backed("conjectured"));
    CHECK(verdict(it) == "refuted on conjectured");
    CHECK(verdict(it, Basis::reported) == "fits on documented");
  }
  SECTION("what it takes") {
    World it;
    it.takes += backed("conjectured");
    CHECK(verdict(it) == "fits on conjectured");
    const Said said{it, Basis::reported};
    CHECK(said.verdict() == "open");
    CHECK(said.words(Ground::place) == "that it takes lantern rests on weaker evidence than was asked for");
  }
  SECTION("that it takes nothing else") {
    World it;
    it.takes = "";
    it.packer += "bare = true\n";
    it.issue_backing = "";
    CHECK(verdict(it) == "no-place on conjectured");
    CHECK(verdict(it, Basis::reported) == "open");
  }
  SECTION("an attested pairing") {
    World it;
    it.packer = "";
    it.below_issue = pairing(backed("reported"));
    CHECK(verdict(it) == "attested on reported");
    CHECK(verdict(it, Basis::observed) == "open");
  }
}

TEST_CASE("the strongest basis that proves it is named, though weaker statements prove it too") {
  World it;
  it.made = "made = \"1981\"\n";
  it.below_run = "[[mould.run.timing]]\nthis = \"start\"\non = \"1981-06-01\"\n" + backed("conjectured");
  const Said said{it};
  CHECK(said.verdict() == "anachronistic on documented");
  CHECK(said.judgement.gap == 367); // and not the larger gap of the weaker statement
}

TEST_CASE("places of the proof are the places of the statements") {
  const World it = late();
  const in_memory::Kb kb{it.files()};
  Judge judge{kb.kb, kb.dates, Basis::conjectured};
  const Judgement judgement = judge.judge(RunIndex{0}, IssueIndex{0}, true);
  for (const Ground ground : {Ground::place, Ground::time, Ground::route})
    for (const Reason& reason : judgement.ground(ground).proof) {
      INFO(reason.statement);
      REQUIRE(reason.place.known());
      CHECK_FALSE(kb.sources.text(reason.place).empty());
      CHECK_FALSE(reason.sources.empty());
    }
}

TEST_CASE("without a proof asked for the verdict is the same") {
  for (const World& it : {World{}, late()}) {
    const in_memory::Kb kb{it.files()};
    Judge judge{kb.kb, kb.dates, Basis::conjectured};
    const Judgement with = judge.judge(RunIndex{0}, IssueIndex{0}, true);
    const Judgement bare = judge.judge(RunIndex{0}, IssueIndex{0}, false);
    CHECK(bare.verdict == with.verdict);
    CHECK(bare.basis == with.basis);
    CHECK(bare.gap == with.gap);
    for (const GroundAnswer& answer : bare.grounds) CHECK(answer.proof.empty());
    CHECK_FALSE(with.ground(Ground::time).proof.empty());
  }
}
