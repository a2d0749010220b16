// Claims held against the evidence, on knowledge bases small enough to be worked out by hand.
#include <catch2/catch.hpp>

#include "verdicts/claims.hpp"
#include "world.hpp"

namespace {

using namespace coeval;
using enum ClaimFinding::Answer;

std::string claim(const std::string& stated) {
  return "[[claim]]\nid = \"c\"\nsays = \"so\"\nstanding = \"open\"\n" + stated;
}
std::string gone_before(const std::string& point) {
  return "[[claim.timing]]\nof = \"lantern/ring/brass\"\nthis = \"end\"\nbefore = \"" + point + "\"\n";
}
const std::string together = "[[claim.pairing]]\nrun = \"lantern/ring/brass\"\nissue = \"maren/first\"\n";

struct Reported {
  explicit Reported(const world::World& world) : kb(world.files()) {
    if (!kb.codes().empty()) throw std::logic_error(kb.troubles());
    Judge judge{kb.kb, kb.dates, Basis::conjectured};
    report = report_claim(kb.kb, kb.dates, judge, ClaimIndex{0});
  }
  in_memory::Kb kb;
  ClaimReport report;
};

TEST_CASE("a claimed order is proven, ruled out or neither, and its proof is told") {
  world::World world; // made 1976-08-01/1978-12-31, packed 1976-10-01/1979-12-31, all documented
  world.more = claim(gone_before("maren/first.end"));
  const Reported yes{world};
  CHECK(yes.report.answer == proven);
  CHECK(finding_words(yes.report) == "proven on documented evidence");
  CHECK(yes.report.stated.at(0).finding.proof.size() == 2);
  CHECK(yes.report.stated.at(0).words == "lantern/ring/brass was last made before maren/first was last packed");

  world.more = claim(gone_before("maren/first.start"));
  const Reported no{world};
  CHECK(finding_words(no.report) == "ruled out on documented evidence");
  CHECK(no.report.stated.at(0).finding.proof.size() == 2);

  world.made = "made = \"1976-08-01/\"\n";
  world.more = claim(gone_before("maren/first.end"));
  const Reported neither{world};
  CHECK(finding_words(neither.report) == "neither proven nor ruled out");
  CHECK(neither.report.stated.at(0).finding.proof.empty());
  CHECK_FALSE(neither.report.basis.has_value());
}

TEST_CASE("a claimed order is ruled out on the strongest basis that does it") {
  world::World world;
  world.made = "";
  world.below_run =
      "[[mould.run.timing]]\nthis = \"end\"\non = \"1980\"\nbasis = \"reported\"\nsource = [\"log p. 3\"]\n"
      "[[mould.run.timing]]\nthis = \"end\"\non = \"1980-02\"\nbasis = \"observed\"\nsource = [\"log p. 4\"]\n";
  world.more = claim(gone_before("maren/first.end"));
  const Reported no{world};
  CHECK(finding_words(no.report) == "ruled out on observed evidence");
}

TEST_CASE("an order that several constraints rule out only together is ruled out, with all of them as proof") {
  world::World world;
  world.packed = "packed = \"1976-10-01/1976-10-31\"\n";
  world.made = "made = \"1976-08-01/\"\n";
  world.below_run = "[[mould.run.timing]]\nthis = \"end\"\nafter = \"lantern/ring/brass.start\"\nat-least = \"P60D\"\n"
                    "basis = \"observed\"\nsource = [\"log p. 3\"]\n";
  // Made for 60 days at least, it cannot have been made during 31.
  world.more = claim("[[claim.timing]]\nof = \"lantern/ring/brass\"\nrelation = \"during\"\nspan = \"maren/first\"\n");
  world.made = "";
  const Reported no{world};
  CHECK(finding_words(no.report) == "ruled out on observed evidence");
  CHECK(no.report.stated.at(0).finding.proof.size() == 3);
}

TEST_CASE("a claimed pairing is proven where it is on record, and ruled out by its verdict") {
  world::World world;
  world.more = claim(together);
  CHECK(finding_words(Reported{world}.report) == "neither proven nor ruled out"); // it fits, and nobody found it

  world.below_issue =
      "[[issue.pairing]]\nrun = \"lantern/ring/brass\"\nbasis = \"observed\"\nsource = [\"log p. 6\"]\n";
  const Reported yes{world};
  CHECK(finding_words(yes.report) == "proven on observed evidence");
  CHECK(yes.report.stated.at(0).finding.proof.size() == 1);

  world.below_issue.clear();
  world.made = "made = \"1981-01-01/1982-12-31\"\n";
  const Reported no{world};
  CHECK(finding_words(no.report) == "ruled out on documented evidence");
  CHECK(no.report.stated.at(0).finding.proof.size() == 2);
}

TEST_CASE("a claimed pairing on a card needs the card's days and a record of the card") {
  world::World world;
  const std::string card =
      "[[card]]\nid = \"six\"\nname = \"Six\"\nbasis = \"reported\"\nsource = [\"log p. 7\"]\nused = ";
  world.below_issue =
      "[[issue.pairing]]\nrun = \"lantern/ring/brass\"\nbasis = \"observed\"\nsource = [\"log p. 6\"]\n";
  world.more = card + "\"1979-01-01/1979-12-31\"\n" + claim(together + "card = \"six\"\n");
  CHECK(finding_words(Reported{world}.report) ==
        "neither proven nor ruled out"); // found together, on what card is not said

  world.more = card + "\"1975-01-01/1976-07-31\"\n" + claim(together + "card = \"six\"\n");
  const Reported no{world};
  CHECK(finding_words(no.report) == "ruled out on reported evidence");
  CHECK(no.report.stated.at(0).finding.proof.size() == 2);
}

TEST_CASE("a claim is proven only with all that it states, and ruled out with any of it") {
  world::World world;
  world.more = claim(gone_before("maren/first.end") + together);
  CHECK(finding_words(Reported{world}.report) == "neither proven nor ruled out");
  world.more = claim(gone_before("maren/first.start") + together);
  CHECK(finding_words(Reported{world}.report) == "ruled out on documented evidence");
  world.more = claim("");
  CHECK(finding_words(Reported{world}.report) == "in words only");
}

} // namespace
