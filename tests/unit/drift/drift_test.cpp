// Is what changed told once, by its cause, and what cannot be compared told as such?
#include <catch2/catch.hpp>

#include "drift/telling.hpp"
#include "in_memory_kb.hpp"

using namespace coeval;

namespace {

// A lantern of two moulds, and a figure that takes it; a test replaces what it is about.
struct Harbour {
  std::string ring = "used = \"1976/1979-06\"\n";
  std::string plain = "replaces = \"ring\"\nclean = true\n";
  std::string packed = "packed = \"1976-10/1978-06\"\n";
  std::string below_issue;
  std::string more;

  [[nodiscard]] std::vector<SourceFile> files() const {
    const std::string backing = "basis = \"documented\"\nsource = [\"log p. 1\"]\n";
    return {
        {"lantern.toml", "[accessory]\nid = \"lantern\"\nname = \"Lantern\"\nslot = \"hand\"\n"
                         "[[mould]]\nid = \"ring\"\n" +
                             ring + backing + "[[mould.run]]\nid = \"red\"\nplant = \"cork\"\n" +
                             "[[mould]]\nid = \"plain\"\n" + plain + backing +
                             "[[mould.run]]\nid = \"red\"\nplant = \"cork\"\n[[mould.run]]\nid = \"blue\"\n"
                             "plant = \"cork\"\n"},
        {"maren.toml", "[figure]\nid = \"maren\"\nname = \"Maren\"\n[[issue]]\nid = \"first\"\npacker = \"cork\"\n" +
                           packed + backing + "[[issue.takes]]\naccessory = \"lantern\"\n" + below_issue},
        {"rest.toml", "[line]\nid = \"patrol\"\nname = \"Patrol\"\n[[plant]]\nid = \"cork\"\nname = \"Cork\"\n"
                      "[[source]]\nid = \"log\"\ntitle = \"Log\"\nkind = \"book\"\n" +
                          more}};
  }
};

struct Both {
  Both(const Harbour& old_harbour, const Harbour& new_harbour, Basis weakest = Basis::conjectured)
      : before(old_harbour.files()), after(new_harbour.files()),
        drift(
            drift_between({before.kb, before.dates, before.sources}, {after.kb, after.dates, after.sources}, weakest)) {
    INFO(before.troubles() << after.troubles());
    REQUIRE(before.codes().empty());
    REQUIRE(after.codes().empty());
  }
  in_memory::Kb before, after;
  Drift drift;

  // "lantern/ring: used …" for each edit of a cause, then what it changed, one line each.
  [[nodiscard]] std::vector<std::string> cause(std::size_t number) const {
    std::vector<std::string> lines;
    const CausedChanges& group = drift.causes.at(number);
    for (const EditIndex edit : group.cause.edits) {
      std::string line = "because ";
      for (const Phrase& phrase : tell(drift.edits[static_cast<std::size_t>(edit)])) line += phrase.text;
      lines.push_back(std::move(line));
    }
    for (const ChangedVerdict& change : group.changes.verdicts)
      lines.push_back(change.question.run + ": " + transition(change) + "; " + detail(change));
    for (const BoundChange& change : group.changes.bounds) lines.push_back(tell(change, after.kb));
    for (const ClaimChange& change : group.changes.claims) lines.push_back(tell(change));
    return lines;
  }
};

using Lines = std::vector<std::string>;

} // namespace

TEST_CASE("one edit is told once, with all that it changed") {
  Harbour later;
  later.ring = "used = \"1976/1978-03\"\n";
  const Both both{{}, later};
  REQUIRE(both.drift.causes.size() == 1);
  // Days by hand: the ring top ended in June 1979, after the last packing; now in March 1978, before it. The plain top
  // starts a day later at the earliest.
  CHECK(both.cause(0)[0] == "because lantern/ring: used was \"1976/1979-06\", is \"1976/1978-03\"");
  CHECK(both.cause(0)[1] == "lantern/plain/blue: anachronistic, now open; ");
  CHECK(both.cause(0)[2] == "lantern/plain/red: anachronistic, now open; ");
  CHECK(both.drift.verdicts_compared == 3);
  CHECK(both.drift.changed_verdicts() == 2);
}

TEST_CASE("nothing changed where only words did") {
  Harbour later;
  later.more = "[[source]]\nid = \"letter\"\ntitle = \"Letter\"\nkind = \"correspondence\"\n";
  const Both both{{}, later};
  CHECK(both.drift.causes.empty());
  CHECK(other_edits(both.drift).size() == 1);
  CHECK_FALSE(both.drift.nothing());
  CHECK(Both{{}, {}}.drift.nothing());
}

TEST_CASE("edits that only together change an answer are told together") {
  Harbour early;
  early.packed = "packed = \"1976-10/1982\"\n";
  Harbour later = early; // neither the order nor the later end rules the plain top out alone
  early.plain = "";
  early.ring = "used = \"1976/1979-06\"\n";
  later.ring = "used = \"1976/1984-06\"\n";
  const Both both{early, later};
  bool told = false;
  for (std::size_t i = 0; i < both.drift.causes.size(); ++i) {
    const CausedChanges& group = both.drift.causes[i];
    for (const ChangedVerdict& change : group.changes.verdicts) {
      if (change.question.run != "lantern/plain/red") continue;
      told = true;
      CHECK(group.cause.certainty == Certainty::smallest);
      CHECK(both.cause(i)[0] == "because lantern/plain: replaces is new: \"ring\"");
      CHECK(both.cause(i)[1] == "because lantern/plain: clean is new: true");
      CHECK(both.cause(i)[2] == "because lantern/ring: used was \"1976/1979-06\", is \"1976/1984-06\"");
    }
  }
  CHECK(told);
}

TEST_CASE("a new run is told as new, with its verdicts, and not as changes") {
  Harbour later;
  later.ring += "";
  later.plain = "replaces = \"ring\"\nclean = true\n";
  later.below_issue = "[[issue]]\nid = \"second\"\npacker = \"cork\"\npacked = \"1980/1981\"\n"
                      "basis = \"documented\"\nsource = [\"log p. 2\"]\n[[issue.takes]]\naccessory = \"lantern\"\n";
  const Both both{{}, later};
  CHECK(both.drift.causes.empty());
  REQUIRE(both.drift.arrived.size() == 1);
  CHECK(both.drift.arrived[0].address == "maren/second");
  CHECK(counted_verdicts(both.drift.arrived[0]) == "open 3");
  CHECK(both.drift.gone.empty());
  CHECK(other_edits(both.drift).empty()); // its tables belong to it
  const Both back{later, {}};
  REQUIRE(back.drift.gone.size() == 1);
  CHECK(back.drift.gone[0].address == "maren/second");
}

TEST_CASE("a contradiction that comes or goes is told with its statements, and no answer is compared") {
  Harbour later;
  later.plain += "used = \"1977/1980\"\n"; // before the ring top ended, and said to be clean
  const Both came{{}, later};
  CHECK_FALSE(came.drift.answers_compared);
  CHECK(came.drift.causes.empty());
  REQUIRE(came.drift.contradictions.size() == 1);
  CHECK(came.drift.contradictions[0].came);
  CHECK(came.drift.contradictions[0].reasons.size() == 3);
  const Both went{later, {}};
  REQUIRE(went.drift.contradictions.size() == 1);
  CHECK_FALSE(went.drift.contradictions[0].came);
  const Both still{later, later};
  CHECK(still.drift.nothing());
}

TEST_CASE("a claim is told where the evidence says something else of it, and where the curator calls it otherwise") {
  Harbour early;
  early.more = "[[claim]]\nid = \"plain\"\nsays = \"They came together.\"\nstanding = \"refuted\"\n"
               "[[claim.pairing]]\nrun = \"lantern/plain/red\"\nissue = \"maren/first\"\n";
  Harbour later = early;
  later.ring = "used = \"1976/1978-03\"\n";
  const Both both{early, later};
  CHECK(both.cause(0).back() ==
        "claim/plain called refuted as before; the evidence rules it out, now the evidence leaves it open");
  Harbour called = early;
  called.more.replace(called.more.find("refuted"), 7, "open");
  const Both renamed{early, called};
  CHECK(renamed.cause(0) == Lines{"because claim/plain: standing was \"refuted\", is \"open\"",
                                  "claim/plain called refuted, now open; the evidence rules it out as before"});
}

TEST_CASE("only statements of the basis asked for count") {
  Harbour later;
  later.below_issue = "[[issue.pairing]]\nrun = \"lantern/ring/red\"\nbasis = \"reported\"\nsource = [\"log p. 3\"]\n";
  CHECK(Both{{}, later}.drift.changed_verdicts() == 1);
  const Both strict{{}, later, Basis::documented};
  CHECK(strict.drift.changed_verdicts() == 0);
  CHECK(strict.drift.edits.size() == 1);
}

TEST_CASE("where mixtures may not be made, what is not known of a cause is said") {
  Harbour early;
  Harbour later;
  later.ring = "used = \"1976/1978-03\"\n";
  later.packed = "packed = \"1976-10/1978-07\"\n";
  const in_memory::Kb before{early.files()};
  const in_memory::Kb after{later.files()};
  const Version was{before.kb, before.dates, before.sources};
  const Version is{after.kb, after.dates, after.sources};
  const std::vector<Edit> edits = edits_between(was, is);
  const AnswerChanges changes = compare_answers(was, is, Basis::conjectured);
  for (const std::size_t most : {0, 1}) {
    const auto causes = find_causes(was, is, edits, changes, Basis::conjectured, most);
    std::size_t told = 0;
    for (const CausedChanges& group : causes) {
      told += group.changes.verdicts.size() + group.changes.bounds.size();
      if (most == 0) CHECK(group.cause.certainty == Certainty::untried);
      if (group.cause.certainty == Certainty::untried) CHECK(group.cause.edits.size() == 2);
    }
    CHECK(told == changes.verdicts.size() + changes.bounds.size());
  }
}
