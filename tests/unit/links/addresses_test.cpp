// Which entry does a written address mean, and what is said where it means none?
#include <catch2/catch.hpp>

#include "in_memory_kb.hpp"

using namespace coeval;
using in_memory::Kb;

namespace {

using Codes = std::vector<std::string>;

// Two accessories with moulds of the same ids, a period, a plant, a figure.
const std::string lantern = "[accessory]\nid = \"lantern\"\nname = \"Lantern\"\nslot = \"hand\"\n"
                            "[[mould]]\nid = \"ring\"\n[[mould.run]]\nid = \"brass\"\n[[mould.run]]\nid = \"grey\"\n"
                            "[[mould]]\nid = \"plain\"\n[[mould.run]]\nid = \"brass\"\n";
const std::string horn = "[accessory]\nid = \"horn\"\nname = \"Horn\"\nslot = \"hand\"\n"
                         "[[mould]]\nid = \"ring\"\n[[mould.run]]\nid = \"ring\"\n";
const std::string world = "[[period]]\nid = \"storm\"\nname = \"Storm\"\n"
                          "[[plant]]\nid = \"cork\"\nname = \"Cork\"\n[[card]]\nid = \"cork\"\nname = \"Cork card\"\n";
const std::string maren = "[figure]\nid = \"maren\"\nname = \"Maren\"\n[[issue]]\nid = \"first\"\nbare = true\n";

// The world, and one more file to look at.
std::vector<SourceFile> world_with(std::string text) {
  return {SourceFile{"horn.toml", horn}, SourceFile{"lantern.toml", lantern}, SourceFile{"maren.toml", maren},
          SourceFile{"world.toml", world}, SourceFile{"x.toml", std::move(text)}};
}

const std::string whistle =
    "[accessory]\nid = \"whistle\"\nname = \"Whistle\"\nslot = \"hand\"\n[[mould]]\nid = \"ring\"\n";

// What `replaces`, written below a mould `new` of the whistle, leads to; else the codes reported.
std::string within_of(const std::string& address) {
  const Kb kb{world_with(whistle + "[[mould]]\nid = \"new\"\nwithin = [\"" + address + "\"]\n")};
  const TimeSpan& span = kb.kb.spans[at(kb.span("whistle/new"))];
  if (!span.within.empty()) return std::string{kb.kb.spans[at(span.within[0].first)].address};
  return kb.codes().empty() ? "nothing" : kb.codes()[0];
}

} // namespace

TEST_CASE("an address is looked up in its own family first, then as a full address") {
  CHECK(within_of("ring") == "whistle/ring"); // and not one of the other accessories'
  CHECK(within_of("horn/ring") == "horn/ring");
  CHECK(within_of("lantern/ring/brass") == "lantern/ring/brass");
  CHECK(within_of("period/storm") == "period/storm");
  CHECK(within_of("maren/first") == "maren/first");
}

TEST_CASE("a bare id of another family is no address where several kinds are taken") {
  CHECK(within_of("storm") == "unknown-address");
  CHECK(within_of("plain") == "unknown-address");
  CHECK(within_of("ring/brass") == "unknown-address");
}

TEST_CASE("where one kind is taken its bare id is enough, and its full address is as good") {
  const Kb kb{world_with("[figure]\nid = \"tam\"\nname = \"Tam\"\n"
                         "[[issue]]\nid = \"a\"\npacker = \"cork\"\ncard = [\"cork\"]\n"
                         "[[issue]]\nid = \"b\"\npacker = \"plant/cork\"\ncard = [\"card/cork\"]\n")};
  REQUIRE(kb.troubles() == "");
  for (const std::string_view issue : {"tam/a", "tam/b"}) {
    CHECK(kb.kb.issues[at(kb.issue(issue))].packer == PlantIndex{0});
    CHECK(kb.kb.issues[at(kb.issue(issue))].cards == std::vector{CardIndex{0}});
  }
}

TEST_CASE("the kind that a key takes decides between two of the same id") {
  // Below the mould horn/ring stands the run horn/ring/ring.
  const Kb kb{world_with("[accessory]\nid = \"bell\"\nname = \"Bell\"\nslot = \"hand\"\n"
                         "[[mould]]\nid = \"ring\"\n"
                         "[[mould.run]]\nid = \"ring\"\n"
                         "[[mould.run]]\nid = \"late\"\nreplaces = \"ring\"\n"
                         "[[mould]]\nid = \"late\"\nreplaces = \"ring\"\n")};
  REQUIRE(kb.troubles() == "");
  const auto replaced = [&](std::string_view address) {
    return kb.kb.spans[at(kb.kb.spans[at(kb.span(address))].replaces.value())].address;
  };
  CHECK(replaced("bell/ring/late") == "bell/ring/ring");
  CHECK(replaced("bell/late") == "bell/ring");
}

TEST_CASE("a timing inside a run reaches the moulds of its accessory by their bare ids") {
  const Kb kb{world_with("[accessory]\nid = \"bell\"\nname = \"Bell\"\nslot = \"hand\"\n"
                         "[[mould]]\nid = \"old\"\n"
                         "[[mould]]\nid = \"new\"\n[[mould.run]]\nid = \"red\"\n[[mould.run]]\nid = \"blue\"\n"
                         "[[mould.run.timing]]\nthis = \"start\"\nafter = \"old.end\"\n"
                         "[[mould.run.timing]]\nthis = \"start\"\nsame-day-as = \"red.end\"\n"
                         "[[mould.run.timing]]\nthis = \"end\"\nbefore = \"period/storm.start\"\n")};
  REQUIRE(kb.troubles() == "");
  REQUIRE(kb.kb.timings.size() == 3);
  const auto other = [&](std::size_t i) {
    const Timing& timing = kb.kb.timings[i];
    return std::string{kb.kb.spans[at(timing.other.span)].address} +
           (timing.other.end == SpanEnd::start ? " start" : " end");
  };
  CHECK(other(0) == "bell/old end");
  CHECK(kb.kb.timings[0].order == Order::after);
  CHECK(other(1) == "bell/new/red end");
  CHECK(kb.kb.timings[1].order == Order::same_day);
  CHECK(other(2) == "period/storm start");
  CHECK(kb.kb.timings[2].order == Order::before);
  CHECK(kb.kb.timings[2].end == SpanEnd::end);
  CHECK(kb.kb.spans[at(kb.kb.timings[2].of)].address == "bell/new/blue");
}

TEST_CASE("an address of something else says what that is") {
  const Kb kb{world_with("[figure]\nid = \"tam\"\nname = \"Tam\"\n[[issue]]\nid = \"a\"\npacker = \"period/storm\"\n"
                         "[[issue.pairing]]\nrun = \"lantern/ring\"\n")};
  REQUIRE(kb.codes() == Codes{"wrong-kind", "wrong-kind"});
  const std::vector<Diagnostic> list = kb.out.sorted();
  CHECK(list[0].message == "`period/storm` is a period, and this takes a plant");
  CHECK(list[1].message == "`lantern/ring` is a mould, and this takes a run");
  CHECK(kb.sources.text(list[1].place) == "\"lantern/ring\"");
  CHECK(kb.sources.text(list[1].labels.at(0).place) == "\"ring\"");
  CHECK(kb.kb.pairings.empty());
}

TEST_CASE("an address of nothing is answered with what was perhaps meant") {
  const auto help = [](const std::string& text) {
    const Kb kb{world_with(text)};
    INFO(kb.troubles());
    REQUIRE(kb.codes() == Codes{"unknown-address"});
    return kb.out.sorted()[0].help;
  };
  const std::string tam = "[figure]\nid = \"tam\"\nname = \"Tam\"\n[[issue]]\nid = \"a\"\n";
  CHECK(help(tam + "packer = \"crok\"\n") == "did you mean `cork`?");
  CHECK(help(tam + "[[issue.pairing]]\nrun = \"lantren/ring/brass\"\n") ==
        "did you mean `lantern/ring/brass`, `lantern/plain/brass` or `lantern/ring/grey`?"); // the nearest first
  // Only the last id, or a wrong path before it.
  CHECK(help(tam + "[[issue.pairing]]\nrun = \"grey\"\n") == "did you mean `lantern/ring/grey`?");
  CHECK(help(tam + "[[issue.pairing]]\nrun = \"zzzzzzzz/yyyyyy/grey\"\n") == "did you mean `lantern/ring/grey`?");
  CHECK(help(whistle + "[[mould]]\nid = \"new\"\nreplaces = \"rang\"\n") == "did you mean `ring`?");
  CHECK(help(tam + "[[issue.takes]]\naccessory = \"xylophone\"\n") == "mend the address, or add the entry");
}

TEST_CASE("nothing refers to itself") {
  CHECK(Kb{world_with(whistle + "[[mould]]\nid = \"new\"\nreplaces = \"new\"\n")}.codes() == Codes{"self-reference"});
  CHECK(Kb{world_with(whistle + "[[mould]]\nid = \"new\"\nwithin = [\"whistle/new\"]\n")}.codes() ==
        Codes{"self-reference"});
}

TEST_CASE("while a file could not be read, nothing is said of addresses that may stand in it") {
  const std::string text = "[figure]\nid = \"tam\"\nname = \"Tam\"\n[[issue]]\nid = \"a\"\npacker = \"crok\"\n"
                           "source = [\"nowhere p. 1\"]\ncard = [\"plant/cork\"]\n";
  CHECK(Kb{world_with(text), true}.codes() == Codes{"unknown-address", "unknown-source", "wrong-kind"});
  CHECK(Kb{world_with(text), false}.codes() == Codes{"wrong-kind"});
}

TEST_CASE("of two entries with one address the first keeps it, with all that belongs to it") {
  const Kb kb{"[accessory]\nid = \"lantern\"\nname = \"Lantern\"\nslot = \"hand\"\n"
              "[[mould]]\nid = \"ring\"\n[[mould.run]]\nid = \"brass\"\n"
              "[[mould]]\nid = \"ring\"\n[[mould.run]]\nid = \"grey\"\n"};
  REQUIRE(kb.codes() == Codes{"duplicate-id"});
  const Diagnostic twice = kb.out.sorted()[0];
  CHECK(twice.message == "there are two entries `lantern/ring`");
  CHECK(twice.place > twice.labels.at(0).place);
  CHECK(kb.kb.moulds.size() == 1);
  CHECK(kb.kb.runs.size() == 1);
  CHECK(kb.kb.runs[0].address == "lantern/ring/brass");
}

TEST_CASE("figures and accessories share their ids") {
  const Kb kb{{SourceFile{"a.toml", "[figure]\nid = \"gull\"\nname = \"Gull\"\n"},
               SourceFile{"b.toml", "[accessory]\nid = \"gull\"\nname = \"Gull\"\nslot = \"hand\"\n"}}};
  REQUIRE(kb.codes() == Codes{"duplicate-id"});
  CHECK(kb.out.sorted()[0].message == "the accessory `gull` has the address of a figure");
  CHECK(kb.kb.figures.size() == 1);
  CHECK(kb.kb.accessories.empty());
}

TEST_CASE("what belongs to an entry without a sound id is left out quietly") {
  const Kb kb{
      "[accessory]\nid = \"Lantern!\"\nname = \"Lantern\"\nslot = \"hand\"\n"
      "[[mould]]\nid = \"ring\"\n[[mould.run]]\nid = \"brass\"\n[[mould.timing]]\nthis = \"start\"\non = \"1979\"\n"};
  CHECK(kb.codes() == Codes{"broken-id"});
  CHECK(kb.kb.moulds.empty());
  CHECK(kb.kb.runs.empty());
  CHECK(kb.kb.timings.empty());
}

TEST_CASE("references lead to the same entries whatever order the files have") {
  const std::vector<std::string> texts{horn, lantern, world,
                                       maren + "packer = \"cork\"\n[[issue.pairing]]\nrun = \"lantern/plain/brass\"\n"
                                               "[[issue.timing]]\nthis = \"start\"\nafter = \"horn/ring.end\"\n"};
  std::vector<std::size_t> order{0, 1, 2, 3};
  int orders = 0;
  do {
    std::vector<SourceFile> files;
    for (std::size_t i = 0; i < order.size(); ++i) files.emplace_back(std::to_string(i) + ".toml", texts[order[i]]);
    const Kb kb{std::move(files)};
    REQUIRE(kb.troubles() == "");
    REQUIRE(kb.kb.pairings.size() == 1);
    CHECK(kb.kb.runs[at(kb.kb.pairings[0].run)].address == "lantern/plain/brass");
    CHECK(kb.kb.issues[at(kb.kb.pairings[0].issue)].address == "maren/first");
    REQUIRE(kb.kb.issues[0].packer.has_value());
    CHECK(kb.kb.plants[at(*kb.kb.issues[0].packer)].id == "cork");
    REQUIRE(kb.kb.timings.size() == 1);
    CHECK(kb.kb.spans[at(kb.kb.timings[0].other.span)].address == "horn/ring");
    ++orders;
  } while (std::next_permutation(order.begin(), order.end()));
  CHECK(orders == 24);
}

TEST_CASE("a citation means a source, whatever else has the address") {
  const std::string family = "[accessory]\nid = \"source\"\nname = \"Source\"\nslot = \"hand\"\n"
                             "[[mould]]\nid = \"ring\"\nbasis = \"documented\"\nsource = [\"ring p. 1\"]\n";
  CHECK(Kb{world_with(family), true}.codes() == Codes{"unknown-source"});
}
