// What do linked entries say: how strongly, of which line, and with what standing in for what is not written?
#include <catch2/catch.hpp>

#include "in_memory_kb.hpp"

using namespace coeval;
using in_memory::Kb;

namespace {

using Codes = std::vector<std::string>;

const std::string a_source = "[[source]]\nid = \"log\"\ntitle = \"Log\"\nkind = \"book\"\n";
const std::string lantern = "[accessory]\nid = \"lantern\"\nname = \"Lantern\"\nslot = \"hand\"\n";
const std::string maren = "[figure]\nid = \"maren\"\nname = \"Maren\"\n";

std::vector<SourceFile> files(const std::string& accessory, const std::string& figure, const std::string& world = "") {
  return {SourceFile{"accessory.toml", lantern + accessory}, SourceFile{"figure.toml", maren + figure},
          SourceFile{"world.toml", a_source + world}};
}

std::string backing(const Evidence& evidence) {
  std::string text{name(evidence.basis)};
  for (const std::string& citation : evidence.citation_texts()) text += ", " + citation;
  return text;
}

std::string backing_of_mould(const std::string& keys) {
  const Kb kb{files("[[mould]]\nid = \"ring\"\n" + keys, "")};
  REQUIRE(kb.troubles() == "");
  return backing(kb.kb.spans[at(kb.span("lantern/ring"))].evidence);
}

std::string backing_of_run(const std::string& keys) {
  const Kb kb{files("[[mould]]\nid = \"ring\"\nbasis = \"documented\"\nsource = [\"log p. 1\"]\n"
                    "[[mould.run]]\nid = \"brass\"\n" +
                        keys,
                    "")};
  REQUIRE(kb.troubles() == "");
  const Evidence& evidence = kb.kb.spans[at(kb.span("lantern/ring/brass"))].evidence;
  CHECK(kb.sources.text(evidence.place) == "\"brass\""); // its own place, whoever backs it
  return backing(evidence);
}

} // namespace

TEST_CASE("without a basis a statement is reported where it has a source, else conjectured") {
  CHECK(backing_of_mould("") == "conjectured");
  CHECK(backing_of_mould("source = [\"log p. 1\"]\n") == "reported, log p. 1");
  CHECK(backing_of_mould("basis = \"observed\"\nsource = [\"log p. 1\", \"log p. 2\"]\n") ==
        "observed, log p. 1, log p. 2");
  CHECK(backing_of_mould("basis = \"documented\"\n") == "documented");
}

TEST_CASE("a run that gives neither basis nor source has its mould's") {
  CHECK(backing_of_run("") == "documented, log p. 1");
  CHECK(backing_of_run("source = [\"log p. 2\"]\n") == "reported, log p. 2");
  CHECK(backing_of_run("basis = \"conjectured\"\n") == "conjectured");
}

TEST_CASE("what an issue takes has the issue's backing where it gives none, a pairing never") {
  const Kb kb{files("[[mould]]\nid = \"ring\"\n[[mould.run]]\nid = \"brass\"\n",
                    "[[issue]]\nid = \"first\"\nbasis = \"observed\"\nsource = [\"log p. 3\"]\n"
                    "[[issue.takes]]\naccessory = \"lantern\"\n"
                    "[[issue.takes]]\naccessory = \"lantern\"\nslot = \"back\"\nsource = [\"log p. 4\"]\n"
                    "[[issue.pairing]]\nrun = \"lantern/ring/brass\"\n")};
  REQUIRE(kb.troubles() == "");
  const Issue& issue = kb.kb.issues[0];
  REQUIRE(issue.takes.size() == 2);
  CHECK(backing(issue.takes[0].evidence) == "observed, log p. 3");
  CHECK(issue.takes[0].slot == "hand"); // the accessory's own
  CHECK(backing(issue.takes[1].evidence) == "reported, log p. 4");
  CHECK(issue.takes[1].slot == "back");
  REQUIRE(kb.kb.pairings.size() == 1);
  CHECK(backing(kb.kb.pairings[0].evidence) == "conjectured");
}

TEST_CASE("an exclusive list with an address that fails is dropped, for it would shut an issue out") {
  const std::string issues = "[[issue]]\nid = \"first\"\nbare = true\n[[issue]]\nid = \"second\"\nbare = true\n";
  const auto exclusive = [&](const std::string& to) {
    return Kb{files(
        "[[mould]]\nid = \"ring\"\n[[mould.run]]\nid = \"brass\"\n[[mould.run.exclusive]]\nto = " + to + "\n", issues)};
  };
  const Kb sound = exclusive("[\"maren/first\", \"maren/second\"]");
  CHECK(sound.codes().empty());
  REQUIRE(sound.kb.runs[0].exclusives.size() == 1);
  CHECK(sound.kb.runs[0].exclusives[0].to == std::vector{IssueIndex{0}, IssueIndex{1}});
  const Kb unknown = exclusive("[\"maren/first\", \"maren/sceond\"]");
  CHECK(unknown.codes() == Codes{"unknown-address"});
  CHECK(unknown.kb.runs[0].exclusives.empty());
  const Kb broken = exclusive("[\"maren/first\", \"Maren second\"]");
  CHECK(broken.codes() == Codes{"broken-address"});
  CHECK(broken.kb.runs[0].exclusives.empty());
}

TEST_CASE("a pairing on a card that cannot be found still says that the two were found together") {
  const Kb kb{files("[[mould]]\nid = \"ring\"\n[[mould.run]]\nid = \"brass\"\n",
                    "[[issue]]\nid = \"first\"\nbare = true\n[[issue.pairing]]\nrun = \"lantern/ring/brass\"\n"
                    "card = \"six-back\"\n")};
  CHECK(kb.codes() == Codes{"unknown-address"});
  REQUIRE(kb.kb.pairings.size() == 1);
  CHECK_FALSE(kb.kb.pairings[0].card.has_value());
}

TEST_CASE("a pairing that cannot be read in full is no statement: it might say the opposite") {
  for (const std::string key : {"refuted", "disputed"}) {
    const Kb kb{files("[[mould]]\nid = \"ring\"\n[[mould.run]]\nid = \"brass\"\n",
                      "[[issue]]\nid = \"first\"\nbare = true\n[[issue.pairing]]\nrun = \"lantern/ring/brass\"\n" +
                          key + " = \"true\"\n")};
    CHECK(kb.codes() == Codes{"wrong-type"});
    CHECK(kb.kb.pairings.empty());
  }
}

TEST_CASE("a timing that cannot be read in full is no statement") {
  const Kb kb{files("[[mould]]\nid = \"ring\"\n[[mould.timing]]\nthis = \"start\"\non = \"1979\"\n"
                    "disputed = \"true\"\n",
                    "")};
  CHECK(kb.codes() == Codes{"wrong-type"});
  CHECK(kb.kb.timings.empty());
}

TEST_CASE("what an accessory carries, every one of its moulds carries") {
  const std::string mark = "[[mark]]\nid = \"roundel\"\nname = \"Roundel\"\n";
  for (const std::string written : {"roundel", "mark/roundel"}) {
    INFO("marks = [\"" << written << "\"]");
    const Kb kb{{SourceFile{"a.toml", lantern + "marks = [\"" + written +
                                          "\"]\n[[mould]]\nid = \"ring\"\n"
                                          "[[mould]]\nid = \"plain\"\n"},
                 SourceFile{"b.toml", mark}}};
    REQUIRE(kb.troubles() == "");
    for (const std::string_view mould : {"lantern/ring", "lantern/plain"}) {
      const TimeSpan& span = kb.kb.spans[at(kb.span(mould))];
      REQUIRE(span.marks.size() == 1);
      CHECK(span.marks[0].mark == MarkIndex{0});
    }
  }
  const Kb unknown{{SourceFile{"a.toml", lantern + "marks = [\"roundle\"]\n[[mould]]\nid = \"ring\"\n"},
                    SourceFile{"b.toml", mark}}};
  CHECK(unknown.codes() == Codes{"unknown-address"}); // once, not once more for each mould
}

TEST_CASE("an issue's own leftover goes before its line's") {
  const std::string line = "[line]\nid = \"patrol\"\nname = \"Patrol\"\n[line.leftover]\nat-most = \"P6M\"\n";
  const Kb kb{{SourceFile{"figure.toml", maren + "[[issue]]\nid = \"first\"\n"
                                                 "[[issue]]\nid = \"second\"\n[issue.leftover]\nat-most = \"P9M\"\n"},
               SourceFile{"line.toml", line}}};
  REQUIRE(kb.troubles() == "");
  CHECK(kb.kb.leftover_of(kb.issue("maren/first"))->at_most == Duration{0, 6, 0});
  CHECK(kb.kb.leftover_of(kb.issue("maren/second"))->at_most == Duration{0, 9, 0});
  const Kb without{{SourceFile{"figure.toml", maren + "[[issue]]\nid = \"first\"\n"}}};
  CHECK(without.kb.leftover_of(without.issue("maren/first")) == nullptr);
}

TEST_CASE("where there are several lines each entry says which is its own") {
  const SourceFile one{"a.toml", "[line]\nid = \"patrol\"\nname = \"Patrol\"\n[line.allowance]\nmonth = \"P2M\"\n"};
  const SourceFile other{"b.toml", "[line]\nid = \"junior\"\nname = \"Junior\"\n"};
  const SourceFile silent{"c.toml", lantern + "[[mould]]\nid = \"ring\"\n"};
  const SourceFile said{"c.toml",
                        "[accessory]\nid = \"lantern\"\nname = \"Lantern\"\nslot = \"hand\"\nline = \"junior\"\n"
                        "[[mould]]\nid = \"ring\"\n[[mould.run]]\nid = \"brass\"\n"};
  const Kb single{{one, silent}};
  CHECK(single.codes().empty());
  CHECK(single.kb.spans[at(single.span("lantern/ring"))].line == LineIndex{0});
  CHECK(single.kb.allowance_of(single.kb.spans[0]).month == Duration{0, 2, 0});
  const Kb unsaid{{one, other, silent}};
  CHECK(unsaid.codes() == Codes{"line-needed"});
  const Kb clear{{one, other, said}};
  CHECK(clear.codes().empty());
  for (const std::string_view address : {"lantern/ring", "lantern/ring/brass"}) {
    const TimeSpan& span = clear.kb.spans[at(clear.span(address))];
    REQUIRE(span.line.has_value());
    CHECK(clear.kb.lines[at(*span.line)].id == "junior");
    CHECK(clear.kb.allowance_of(span).month == Duration{0, 1, 0});
  }
}

TEST_CASE("a citation names a source, and the rest of it is the place there") {
  const Kb kb{files("[[mould]]\nid = \"ring\"\nsource = [\"log vol. 2, p. 4\"]\n", "",
                    "[[source]]\nid = \"memo\"\ntitle = \"Memo\"\nkind = \"book\"\n")};
  CHECK(kb.codes().empty());
  REQUIRE(kb.kb.sources.size() == 2);
  CHECK(kb.kb.sources[0].used);
  CHECK_FALSE(kb.kb.sources[1].used);
  const Kb wrong{files("[[mould]]\nid = \"ring\"\nsource = [\"lgo p. 4\"]\n", "")};
  REQUIRE(wrong.codes() == Codes{"unknown-source"});
  const Diagnostic unknown = wrong.out.sorted()[0];
  REQUIRE(unknown.fix.has_value());
  CHECK(unknown.fix->replacement == "\"log p. 4\"");
}

TEST_CASE("on the command line a tail of an address is enough where it is the only one") {
  const Kb kb{files("[[mould]]\nid = \"ring\"\n[[mould.run]]\nid = \"brass\"\n[[mould.run]]\nid = \"grey\"\n"
                    "[[mould]]\nid = \"plain\"\n[[mould.run]]\nid = \"brass\"\n",
                    "[[issue]]\nid = \"brass\"\nbare = true\n")};
  const std::vector runs{Kind::run};
  const auto found = [&](std::string_view text) {
    std::vector<std::string> addresses;
    for (const EntryIndex entry : find_entry(kb.kb, text, runs).matches) addresses.emplace_back(kb.kb.address(entry));
    return addresses;
  };
  using List = std::vector<std::string>;
  CHECK(found("lantern/ring/brass") == List{"lantern/ring/brass"});
  CHECK(found("ring/brass") == List{"lantern/ring/brass"});
  CHECK(found("grey") == List{"lantern/ring/grey"});
  CHECK(found("brass") == List{"lantern/plain/brass", "lantern/ring/brass"}); // and not the issue
  CHECK(found("rey").empty());                                                // whole ids only
  CHECK(found("").empty());
  CHECK(find_entry(kb.kb, "ring/bras", runs).near.front() == "lantern/ring/brass");
  REQUIRE(find_entry(kb.kb, "lantern", runs).other.size() == 1);
  CHECK(kb.kb.address(find_entry(kb.kb, "lantern", runs).other[0]) == "lantern");
}
