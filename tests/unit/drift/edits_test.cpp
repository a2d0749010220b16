// Is a statement the same wherever it stands, and another where it says something else?
#include <catch2/catch.hpp>

#include "drift/telling.hpp"
#include "in_memory_kb.hpp"

using namespace coeval;

namespace {

std::vector<std::string> edits(const std::vector<SourceFile>& before, const std::vector<SourceFile>& after) {
  const in_memory::Kb old_kb{before};
  const in_memory::Kb new_kb{after};
  std::vector<std::string> lines;
  for (const Edit& edit :
       edits_between({old_kb.kb, old_kb.dates, old_kb.sources}, {new_kb.kb, new_kb.dates, new_kb.sources})) {
    std::string line;
    for (const Phrase& phrase : tell(edit)) line += phrase.text;
    lines.push_back((edit.bears ? "" : "(not borne on) ") + line);
  }
  return lines;
}
std::vector<std::string> edits(const std::string& before, const std::string& after) {
  return edits(std::vector<SourceFile>{{"kb.toml", before}}, std::vector<SourceFile>{{"kb.toml", after}});
}

using Lines = std::vector<std::string>;

const std::string lantern = "[accessory]\nid = \"lantern\"\nname = \"Lantern\"\nslot = \"hand\"\n";
const std::string source = "[[source]]\nid = \"log\"\ntitle = \"Log\"\nkind = \"book\"\n";
std::string mould(const std::string& keys) { return "[[mould]]\nid = \"ring\"\n" + keys; }

} // namespace

TEST_CASE("files, lines, comments, layout and the order of tables say nothing") {
  const std::string one = mould("used = \"1976/1979\"\nsource = [\"log p. 1\", \"log p. 2\"]\n"
                                "[mould.features]\nvents = [3, 4]\n"
                                "[[mould.timing]]\nthis = \"start\"\non = \"1976\"\n"
                                "[[mould.timing]]\nthis = \"end\"\non = \"1979\"\n");
  const std::string other = "# moved\n\n" + mould("source = [ 'log p. 2',\n  \"log p. 1\" ]\n"
                                                  "used = { start = \"1976\", end = \"1979\" } # the same days\n"
                                                  "[[mould.timing]]\non = \"1979\"\nthis = \"end\"\n"
                                                  "[[mould.timing]]\non = \"1976\"\nthis = \"start\"\n"
                                                  "[mould.features]\nvents = [4, 3]\n");
  CHECK(edits({{"a.toml", lantern + one}, {"s.toml", source}}, {{"z.toml", source}, {"sub/b.toml", lantern + other}}) ==
        Lines{});
}

TEST_CASE("each key of an entry with an address is a statement") {
  CHECK(edits(lantern + mould("used = \"1976/1979\"\nclean = true\nname = \"Ring\"\n"),
              lantern + mould("used = \"1976/1980~\"\nbasis = \"observed\"\nname = \"Ring top\"\n")) ==
        Lines{"(not borne on) lantern/ring: name was \"Ring\", is \"Ring top\"",
              "lantern/ring: used was \"1976/1979\", is \"1976/1980~\"",
              "lantern/ring: clean was taken out; it was true", "lantern/ring: basis is new: \"observed\""});
}

TEST_CASE("an entry without an address is one statement, the same where it says the same") {
  const std::string first = "[[mould.timing]]\nthis = \"start\"\nafter = \"old.end\"\nat-least = \"P1M\"\n";
  const std::string second = "[[mould.timing]]\nthis = \"end\"\non = \"1979\"\n";
  const std::string old = "[[mould]]\nid = \"old\"\n";
  SECTION("edited: the same ends, another gap") {
    CHECK(edits(lantern + old + mould(first + second),
                lantern + old +
                    mould(second + "[[mould.timing]]\nthis = \"start\"\nafter = \"old.end\"\nat-least = "
                                   "\"P2M\"\n")) ==
          Lines{"lantern/ring: the timing was this = \"start\", after = \"old.end\", at-least = \"P1M\", is this = "
                "\"start\", after = \"old.end\", at-least = \"P2M\""});
  }
  SECTION("removed and added: about something else") {
    CHECK(edits(lantern + old + mould(first), lantern + old + mould(second)) ==
          Lines{"lantern/ring: a timing was taken out: this = \"start\", after = \"old.end\", at-least = \"P1M\"",
                "lantern/ring: a timing is new: this = \"end\", on = \"1979\""});
  }
  SECTION("twice the same is two statements") {
    CHECK(edits(lantern + old + mould(second), lantern + old + mould(second + second)) ==
          Lines{"lantern/ring: a timing is new: this = \"end\", on = \"1979\""});
  }
}

TEST_CASE("a whole entry is one edit, each table in it another; another kind at the same address is another entry") {
  CHECK(edits(lantern,
              lantern + mould("used = \"1976\"\n[[mould.run]]\nid = \"red\"\nmaterial = \"\"\"two\nlines\"\"\"\n")) ==
        Lines{"mould lantern/ring is new: used = \"1976\"",
              "run lantern/ring/red is new: material = \"\"\"two lines\"\"\""});
  const Lines became = edits(lantern, "[figure]\nid = \"lantern\"\nname = \"Lantern\"\n");
  CHECK(became == Lines{"figure lantern is new: name = \"Lantern\"",
                        "accessory lantern was taken out: name = \"Lantern\", slot = \"hand\""});
}

TEST_CASE("an edit shows the basis and the sources of the version that it is shown from") {
  const in_memory::Kb before{std::vector<SourceFile>{
      {"a.toml", lantern + mould("used = \"1976\"\nbasis = \"documented\"\nsource = [\"log p. 1\"]\n")},
      {"s.toml", source}}};
  const in_memory::Kb after{std::vector<SourceFile>{{"a.toml", lantern}, {"s.toml", source}}};
  const auto removed = edits_between({before.kb, before.dates, before.sources}, {after.kb, after.dates, after.sources});
  REQUIRE(removed.size() == 1);
  CHECK(removed[0].basis == Basis::documented);
  CHECK(removed[0].citations == std::vector<std::string>{"log p. 1"});
  CHECK(before.sources[removed[0].place.file].position(removed[0].place.begin).line == 6);
}

TEST_CASE("an entry that is there again under another id is perhaps renamed, if it alone says what it says") {
  const auto renames = [](const std::string& before, const std::string& after) {
    const in_memory::Kb old_kb{before};
    const in_memory::Kb new_kb{after};
    Lines lines;
    for (const Rename& rename : drift_between({old_kb.kb, old_kb.dates, old_kb.sources},
                                              {new_kb.kb, new_kb.dates, new_kb.sources}, Basis::conjectured)
                                    .renames)
      lines.push_back(rename.from + " to " + rename.to);
    return lines;
  };
  const std::string old = lantern + mould("used = \"1976/1979\"\nnotes = \"seen\"\n");
  CHECK(renames(old, lantern + "[[mould]]\nid = \"ring-top\"\nused = \"1976/1979\"\nnotes = \"seen\"\n") ==
        Lines{"lantern/ring to lantern/ring-top"});
  CHECK(renames(old, lantern + "[[mould]]\nid = \"ring-top\"\nused = \"1976/1978\"\nnotes = \"seen\"\n") == Lines{});
  CHECK(renames(old, lantern + "[[mould]]\nid = \"one\"\nused = \"1976/1979\"\nnotes = \"seen\"\n[[mould]]\nid = "
                               "\"two\"\nused = \"1976/1979\"\nnotes = \"seen\"\n") == Lines{});
}
