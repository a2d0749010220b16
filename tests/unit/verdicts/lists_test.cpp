// Which issues could a run belong with, which runs could fill a slot, and in which order are they told?
#include <catch2/catch.hpp>

#include "in_memory_kb.hpp"
#include "verdicts/judge.hpp"

using namespace coeval;
using in_memory::Kb;
using Lines = std::vector<std::string>;

namespace {

std::string issue(const std::string& id, const std::string& packed, const std::string& below = "") {
  return "[[issue]]\nid = \"" + id + "\"\npacked = \"" + packed + "\"\npacker = \"cork\"\n" +
         "[[issue.takes]]\naccessory = \"lantern\"\n" + below;
}

const std::vector<SourceFile> files{
    {"a.toml",
     "[accessory]\nid = \"lantern\"\nname = \"Lantern\"\nslot = \"hand\"\n"
     "[[mould]]\nid = \"ring\"\n[[mould.run]]\nid = \"brass\"\nplant = \"cork\"\nmade = \"1976-01-01/1976-12-31\"\n"
     "[[mould]]\nid = \"plain\"\n[[mould.run]]\nid = \"grey\"\nplant = \"cork\"\nmade = \"1979-01-01/1979-12-31\"\n"
     "[[mould.run]]\nid = \"black\"\nplant = \"cork\"\nmade = \"1979-01-01/1979-12-31\"\n"},
    {"b.toml", "[figure]\nid = \"maren\"\nname = \"Maren\"\n" + issue("late", "1979-06-01/1979-12-31") +
                   issue("early", "1970-01-01/1970-12-31") + issue("then", "1976-06-01/1976-12-31") +
                   issue("found", "1976-06-01/1976-12-31", "[[issue.pairing]]\nrun = \"lantern/ring/brass\"\n") +
                   "[[issue]]\nid = \"bare\"\nbare = true\n"},
    {"c.toml", "[line]\nid = \"patrol\"\nname = \"Patrol\"\n[line.leftover]\nat-most = \"P1Y\"\n"
               "[[plant]]\nid = \"cork\"\nname = \"Cork\"\n"}};

Lines told(const Kb& kb, const std::vector<Judgement>& list) {
  Lines lines;
  for (const Judgement& judgement : list)
    lines.push_back(std::string{kb.kb.runs[at(judgement.run)].address} + " with " +
                    std::string{kb.kb.issues[at(judgement.issue)].address} + ": " +
                    std::string{name(judgement.verdict)});
  return lines;
}

} // namespace

TEST_CASE("the homes of a run, the best first, without those that have no place for it") {
  const Kb kb{files};
  REQUIRE(kb.troubles() == "");
  Judge judge{kb.kb, kb.dates, Basis::conjectured};
  CHECK(told(kb, judge.homes(kb.run("lantern/ring/brass"))) ==
        Lines{"lantern/ring/brass with maren/found: attested", "lantern/ring/brass with maren/then: fits",
              "lantern/ring/brass with maren/late: stale", "lantern/ring/brass with maren/early: anachronistic"});
}

TEST_CASE("the runs for an issue's slot, the best first, equals by address") {
  const Kb kb{files};
  Judge judge{kb.kb, kb.dates, Basis::conjectured};
  const IssueIndex late = kb.issue("maren/late");
  CHECK(told(kb, judge.outfit(late, kb.kb.issues[at(late)].takes[0])) ==
        Lines{"lantern/plain/black with maren/late: fits", "lantern/plain/grey with maren/late: fits",
              "lantern/ring/brass with maren/late: stale"});
}

TEST_CASE("a list answers each pair as it is answered alone, whatever was asked before") {
  const Kb kb{files};
  Judge used{kb.kb, kb.dates, Basis::conjectured};
  (void)used.homes(kb.run("lantern/plain/grey"));
  for (std::uint32_t i = 0; i < kb.kb.runs.size(); ++i) {
    const std::vector<Judgement> homes = used.homes(RunIndex{i});
    CHECK(homes.size() == 4);
    for (const Judgement& listed : homes) {
      Judge fresh{kb.kb, kb.dates, Basis::conjectured};
      const Judgement alone = fresh.judge(listed.run, listed.issue, false);
      CHECK(alone.verdict == listed.verdict);
      CHECK(alone.gap == listed.gap);
      CHECK(alone.ground(Ground::time).words == listed.ground(Ground::time).words);
    }
  }
}
