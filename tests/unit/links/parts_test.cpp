// A large knowledge base is linked in parts, on several threads. Nobody may see that: what is listed, and what is
// reported, is as if the entries were linked one after the other.
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "in_memory_kb.hpp"

using namespace coeval;
using in_memory::Kb;

namespace {

constexpr std::size_t families = 5000; // with three entries each: several parts of a few thousand

std::string number(std::size_t i) { return std::to_string(i); }

std::string many_runs() {
  std::string text = "[accessory]\nid = \"lantern\"\nname = \"Lantern\"\nslot = \"hand\"\n[[mould]]\nid = \"ring\"\n";
  for (std::size_t i = 0; i < families; ++i) text += "[[mould.run]]\nid = \"r" + number(i) + "\"\n";
  return text;
}

// Every figure has an issue that is found with a run of its own number, and is a reissue of the one before it; every
// thousandth names a run that there is not.
std::vector<SourceFile> many_files() {
  std::vector<SourceFile> files{SourceFile{"0.toml", many_runs()}};
  for (std::size_t i = 0; i < families; ++i) {
    const std::string run = i % 1000 == 999 ? "lantern/ring/none" : "lantern/ring/r" + number(i);
    std::string text = "[figure]\nid = \"f" + number(i) + "\"\nname = \"F\"\n[[issue]]\nid = \"i\"\nbare = true\n";
    if (i > 0) text += "reissue-of = \"f" + number(i - 1) + "/i\"\n";
    text += "[[issue.pairing]]\nrun = \"" + run + "\"\n";
    files.emplace_back("f" + number(10'000 + i) + ".toml", std::move(text));
  }
  return files;
}

} // namespace

TEST_CASE("pairings stand in the order of the entries and name what they say, whatever part they were linked in") {
  const Kb kb{many_files()};
  REQUIRE(kb.kb.pairings.size() == families - 5);
  for (std::size_t i = 0; i < kb.kb.pairings.size(); ++i) {
    const Pairing& pairing = kb.kb.pairings[i];
    if (i > 0) REQUIRE(kb.kb.pairings[i - 1].entry < pairing.entry);
    const std::string issue{kb.kb.issues[at(pairing.issue)].address};
    const std::string family = issue.substr(1, issue.find('/') - 1);
    REQUIRE(kb.kb.runs[at(pairing.run)].address == "lantern/ring/r" + family);
    REQUIRE(kb.kb.runs[at(pairing.run)].pairings == std::vector{PairingIndex{static_cast<std::uint32_t>(i)}});
  }
  for (std::size_t i = 1; i < kb.kb.issues.size(); ++i)
    REQUIRE(kb.kb.issues[i].reissue_of == IssueIndex{static_cast<std::uint32_t>(i - 1)});
}

TEST_CASE("what does not lead anywhere is reported once in each part, with what was meant") {
  const Kb kb{many_files()};
  std::size_t unknown = 0;
  for (const Diagnostic& diagnostic : kb.out.sorted()) {
    if (diagnostic.code != Code::unknown_address) continue;
    ++unknown;
    CHECK(diagnostic.message == "there is no run `lantern/ring/none`");
    CHECK_FALSE(diagnostic.help.empty());
  }
  CHECK(unknown == 5);
}
