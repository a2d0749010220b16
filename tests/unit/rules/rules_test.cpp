// Does each rule report what breaks it, where it stands, and nothing else?
#include <catch2/catch.hpp>

#include "in_memory_kb.hpp"
#include "rules/rules.hpp"

using namespace coeval;
using in_memory::Kb;
using Codes = std::vector<std::string>;

namespace {

struct Checked {
  std::vector<Diagnostic> diagnostics; // of the rules alone
  std::vector<std::string> places;     // the bytes that they point at

  [[nodiscard]] Codes codes() const { return in_memory::codes_of(diagnostics); }
};

Checked checked(std::vector<SourceFile> files, bool complete = true, const std::vector<std::string>& assets = {}) {
  Kb kb{std::move(files), complete};
  if (!kb.codes().empty() && complete) throw std::logic_error("the test's files are not sound:\n" + kb.troubles());
  for (const std::string& asset : assets) kb.sources.assets.insert(asset);
  Diagnostics out;
  const RuleInput input{kb.kb, kb.sources, complete};
  check_data(input, out);
  check_consistency(input, kb.dates, out);
  check_answers(input, kb.dates, out);
  Checked result{out.sorted(), {}};
  for (const Diagnostic& diagnostic : result.diagnostics) result.places.emplace_back(kb.sources.text(diagnostic.place));
  return result;
}

const std::string a_source = "[[source]]\nid = \"log\"\ntitle = \"Log\"\nkind = \"book\"\n";
const std::string uses_log = "[[maker]]\nid = \"wexcombe\"\nname = \"Wexcombe\"\nsource = [\"log p. 1\"]\n";
const std::string line = "[line]\nid = \"patrol\"\nname = \"Patrol\"\nslots = [\"hand\", \"back\"]\n";
const std::string lantern = "[accessory]\nid = \"lantern\"\nname = \"Lantern\"\nslot = \"hand\"\n"
                            "[[mould]]\nid = \"ring\"\n[[mould.run]]\nid = \"brass\"\n";
const std::string maren = "[figure]\nid = \"maren\"\nname = \"Maren\"\n[[issue]]\nid = \"first\"\n";
const std::string takes = "[[issue.takes]]\naccessory = \"lantern\"\n";
const std::string pairing = "[[issue.pairing]]\nrun = \"lantern/ring/brass\"\n";

// A figure and an accessory, each with more below it, and a world file.
Checked with(const std::string& below_issue, const std::string& below_run = "", const std::string& world = "") {
  return checked({{"a.toml", lantern + below_run}, {"b.toml", maren + below_issue}, {"c.toml", line + world}});
}

std::string period(const std::string& id, const std::string& keys) {
  return "[[period]]\nid = \"" + id + "\"\nname = \"P\"\n" + keys;
}

} // namespace

TEST_CASE("a sound knowledge base breaks no rule") { CHECK(with(takes + pairing).codes().empty()); }

TEST_CASE("a basis but conjecture needs a source") {
  const auto mould = [](const std::string& keys) {
    return checked(
        {{"a.toml", "[accessory]\nid = \"lantern\"\nname = \"L\"\nslot = \"hand\"\n[[mould]]\nid = \"ring\"\n" + keys},
         {"b.toml", a_source + uses_log}});
  };
  for (const std::string basis : {"documented", "observed", "reported"}) {
    const Checked result = mould("basis = \"" + basis + "\"\n");
    CHECK(result.codes() == Codes{"basis-without-source"});
    CHECK(result.places == Codes{"\"" + basis + "\""});
    CHECK(mould("basis = \"" + basis + "\"\nsource = [\"log p. 2\"]\n").codes().empty());
  }
  CHECK(mould("basis = \"conjectured\"\n").codes().empty());
  CHECK(mould("").codes().empty());
}

TEST_CASE("a timing is one order and a whole one") {
  const auto timing = [](const std::string& keys) {
    return checked({{"a.toml", period("a", "") + period("b", "") + "[[period.timing]]\n" + keys}}).codes();
  };
  const std::string start = "this = \"start\"\n";
  const std::string after = "after = \"period/a.end\"\n";
  const Codes incomplete{"incomplete-timing"};
  for (const std::string& sound : {start + after, start + "before = \"period/a.end\"\n", start + "on = \"1979\"\n",
                                   start + "same-day-as = \"period/a.end\"\n", start + after + "at-least = \"P1D\"\n",
                                   start + after + "at-least = \"P5D\"\nat-most = \"P5D\"\n",
                                   std::string{"relation = \"during\"\nspan = \"period/a\"\n"}}) {
    INFO(sound);
    CHECK(timing(sound).empty());
  }
  for (const std::string& wrong :
       {std::string{""}, start, after, std::string{"relation = \"during\"\n"}, std::string{"span = \"period/a\"\n"},
        "relation = \"during\"\nspan = \"period/a\"\n" + start, "relation = \"during\"\nspan = \"period/a\"\n" + after,
        std::string{"relation = \"during\"\nspan = \"period/a\"\nat-least = \"P1D\"\n"},
        start + after + "before = \"period/a.start\"\n", start + "on = \"1979\"\nbefore = \"period/b.start\"\n",
        start + after + "on = \"1979\"\n", start + "on = \"1979\"\nat-least = \"P1D\"\n",
        start + "same-day-as = \"period/a.end\"\nat-most = \"P1D\"\n",
        start + after + "at-least = \"P6D\"\nat-most = \"P5D\"\n", start + after + "at-most = \"P0D\"\n"}) {
    INFO(wrong);
    CHECK(timing(wrong) == incomplete);
  }
}

TEST_CASE("features are declared, and their values are of the declared kind") {
  const std::string declared =
      "[[feature]]\nid = \"top\"\nname = \"Top\"\nkind = \"choice\"\nvalues = [\"ring\", \"plain\"]\n"
      "[[feature]]\nid = \"glows\"\nname = \"Glows\"\nkind = \"present\"\n"
      "[[feature]]\nid = \"vents\"\nname = \"Vents\"\nkind = \"count\"\n"
      "[[feature]]\nid = \"height\"\nname = \"Height\"\nkind = \"measure\"\nunit = \"mm\"\n"
      "[[feature]]\nid = \"body\"\nname = \"Body\"\nkind = \"colour\"\n"
      "[[feature]]\nid = \"stamp\"\nname = \"Stamp\"\nkind = \"text\"\n";
  const auto features = [&](const std::string& value) {
    return checked({{"a.toml", "[accessory]\nid = \"lantern\"\nname = \"L\"\nslot = \"hand\"\n[[mould]]\nid = "
                               "\"ring\"\nfeatures = { " +
                                   value + " }\n"},
                    {"b.toml", declared}});
  };
  for (const std::string sound :
       {"top = \"ring\"", "top = [\"ring\", \"plain\"]", "glows = false", "vents = 0", "vents = [2, 3]",
        "height = { value = 21.5, tolerance = 0.3 }", "body = { lab = [50, 0, 0], tolerance = 4 }",
        "body = \"same-as-figure\"", "stamp = \"KT\""}) {
    INFO(sound);
    CHECK(features(sound).codes().empty());
  }
  for (const std::string wrong : {"top = \"rings\"", "top = [\"ring\", \"plane\"]", "top = 1", "glows = \"yes\"",
                                  "vents = 2.5", "vents = -1", "vents = \"two\"", "height = -1", "height = \"tall\"",
                                  "body = \"red\"", "top = { lab = [50, 0, 0] }", "stamp = 7"}) {
    INFO(wrong);
    const Checked result = features(wrong);
    CHECK(result.codes() == Codes{"wrong-feature-value"});
    CHECK(result.places == Codes{wrong.substr(wrong.find("= ") + 2)});
  }
  const Checked unknown = features("tpo = \"ring\"");
  CHECK(unknown.codes() == Codes{"unknown-feature"});
  CHECK(unknown.diagnostics[0].help == "did you mean `top`?");
}

TEST_CASE("a number is stated with how far a part may be off") {
  const auto height = [](const std::string& feature, const std::string& where, const std::string& value) {
    return checked({{"a.toml", "[accessory]\nid = \"lantern\"\nname = \"L\"\nslot = \"hand\"\n[[mould]]\nid = "
                               "\"ring\"\n[figure]\nid = \"maren\"\nname = \"M\"\n[" +
                                   where + ".features]\nheight = " + value + "\n"},
                    {"b.toml",
                     "[[feature]]\nid = \"height\"\nname = \"H\"\nkind = \"measure\"\nunit = \"mm\"\n" + feature}})
        .codes();
  };
  CHECK(height("", "accessory", "21.5") == Codes{"no-tolerance"});
  CHECK(height("", "accessory", "[21.5, 22]") == Codes{"no-tolerance"});
  CHECK(height("", "accessory", "{ value = 21.5, tolerance = 0.3 }").empty());
  CHECK(height("tolerance = 0.3\n", "accessory", "21.5").empty());
  CHECK(height("", "figure", "95").empty()); // compared with no part
  CHECK(height("", "accessory", "-1") == Codes{"wrong-feature-value"});
}

TEST_CASE("a feature says what its kind needs, and nothing else") {
  const auto feature = [](const std::string& rest) {
    return checked({{"b.toml", "[[feature]]\nid = \"top\"\nname = \"T\"\n" + rest}});
  };
  const Codes broken{"broken-feature"};
  for (const std::string sound :
       {"kind = \"choice\"\nvalues = [\"ring\"]\n[[feature.value]]\nid = \"ring\"\n",
        "kind = \"measure\"\nunit = \"mm\"\ntolerance = 0.1\n", "kind = \"colour\"\ntolerance = 4\n",
        "kind = \"text\"\n", "kind = \"present\"\n", "kind = \"count\"\n"}) {
    INFO(sound);
    CHECK(feature(sound).codes().empty());
  }
  for (const std::string wrong : {"kind = \"choice\"\n", "kind = \"measure\"\n", "kind = \"count\"\nunit = \"mm\"\n",
                                  "kind = \"count\"\nvalues = [\"one\"]\n", "kind = \"text\"\ntolerance = 1\n",
                                  "kind = \"choice\"\nvalues = [\"ring\"]\n[[feature.value]]\nid = \"rong\"\n",
                                  "kind = \"count\"\n[[feature.value]]\nid = \"ring\"\n"}) {
    INFO(wrong);
    CHECK(feature(wrong).codes() == broken);
  }
}

TEST_CASE("what a buyer must tell apart can be told apart, or is known not to be") {
  const std::string top = "[[feature]]\nid = \"top\"\nname = \"T\"\nkind = \"choice\"\nvalues = [\"ring\", \"plain\"]\n"
                          "[[feature]]\nid = \"melts\"\nname = \"M\"\nkind = \"present\"\ndestructive = true\n";
  const auto codes = [&](const std::string& moulds) {
    return checked(
               {{"a.toml", "[accessory]\nid = \"lantern\"\nname = \"L\"\nslot = \"hand\"\n" + moulds}, {"b.toml", top}})
        .codes();
  };
  const std::string ring = "[[mould]]\nid = \"ring\"\nfeatures = { top = \"ring\" }\n[[mould.run]]\nid = \"red\"\n";
  const std::string other = "[[mould]]\nid = \"other\"\n";
  const std::string run = "[[mould.run]]\nid = \"red\"\n";
  const std::string repro = "[[repro]]\nid = \"cast\"\nof = \"ring/red\"\n";
  const Codes alike{"indistinguishable"};
  CHECK(codes(ring).empty());
  CHECK(codes(ring + "[[mould.run]]\nid = \"blue\"\n").empty()); // runs of one mould
  CHECK(codes(ring + repro) == alike);
  CHECK(codes(ring + repro + "features = { top = \"plain\" }\n").empty());
  CHECK(codes(ring + repro + "features = { melts = true }\n") == alike); // nobody is told to melt it
  CHECK(codes(ring + repro + "alike = [\"ring/red\"]\n").empty());
  CHECK(codes(ring + repro + "alike = [\"ring\"]\n").empty());
  CHECK(codes(ring + other + "features = { top = \"ring\" }\n" + run) == alike);
  CHECK(codes(ring + other + "features = { top = \"ring\" }\nalike = [\"ring\"]\n" + run).empty());
  CHECK(codes(ring + other + run).empty()); // of the other mould no feature is entered yet
  CHECK(codes(ring + other + "features = { top = [\"ring\", \"plain\"] }\n" + run) == alike);
}

TEST_CASE("pictures lie in the knowledge base and are of a kind that browsers show") {
  const auto picture = [](const std::string& file) {
    return checked({{"figures/maren.toml", "[figure]\nid = \"maren\"\nname = \"Maren\"\n[[figure.picture]]\nfile = \"" +
                                               file + "\"\nalt = \"A\"\ncredit = \"C\"\n"}},
                   true, {"figures/maren.svg", "drawings/maren.png", "drawings/notes.txt"});
  };
  CHECK(picture("maren.svg").codes().empty());
  CHECK(picture("../drawings/maren.png").codes().empty());
  CHECK(picture("maren.png").codes() == Codes{"picture-missing"});
  for (const std::string outside : {"../../maren.svg", "/etc/maren.svg"}) {
    CHECK(picture(outside).codes() == Codes{"picture-missing"});
    CHECK(picture(outside).diagnostics.at(0).message == "`" + outside + "` lies outside the knowledge base");
  }
  CHECK(picture("../drawings/notes.txt").codes() == Codes{"picture-type"});
  CHECK(picture("maren.vsg").codes() == Codes{"picture-type"});
  CHECK(picture("mraen.svg").diagnostics.at(0).help == "did you mean `figures/maren.svg`?");
}

TEST_CASE("slots are the line's") {
  const auto slot = [](const std::string& name) {
    return checked(
        {{"a.toml", "[accessory]\nid = \"lantern\"\nname = \"L\"\nslot = \"" + name + "\"\n"}, {"c.toml", line}});
  };
  CHECK(slot("back").codes().empty());
  const Checked wrong = slot("hnad");
  CHECK(wrong.codes() == Codes{"unknown-slot"});
  CHECK(wrong.places == Codes{"\"hnad\""});
  CHECK(wrong.diagnostics[0].help == "did you mean `hand`?");
  CHECK(with("[[issue.takes]]\naccessory = \"lantern\"\nslot = \"foot\"\n").codes() ==
        Codes{"slot-differs", "unknown-slot"});
  // A line that lists no slots allows any.
  CHECK(checked({{"a.toml", lantern}, {"c.toml", "[line]\nid = \"patrol\"\nname = \"P\"\n"}}).codes().empty());
}

TEST_CASE("an accessory in another slot than its own, or twice in one, is remarked on") {
  CHECK(with("[[issue.takes]]\naccessory = \"lantern\"\nslot = \"back\"\n").codes() == Codes{"slot-differs"});
  CHECK(with("[[issue.takes]]\naccessory = \"lantern\"\nslot = \"hand\"\n").codes().empty());
  const Checked twice = with(takes + takes);
  CHECK(twice.codes() == Codes{"slot-taken-twice"});
  CHECK(twice.diagnostics[0].labels.at(0).place < twice.diagnostics[0].place);
}

TEST_CASE("a pairing is not both attested and refuted") {
  const std::string refuted = pairing + "refuted = true\n";
  CHECK(with(takes + pairing + refuted).codes() == Codes{"pairing-conflict"});
  CHECK(with(takes + refuted + pairing).codes() == Codes{"pairing-conflict"});
  CHECK(with(takes + pairing + refuted + "disputed = true\n").codes().empty());
  CHECK(with(takes + pairing + "disputed = true\n" + refuted).codes().empty());
  CHECK(with(takes + pairing + pairing).codes().empty());
}

TEST_CASE("a run is not found outside the issues that it was reserved for") {
  const std::string second = "[[issue]]\nid = \"second\"\nbare = true\n";
  const std::string exclusive = "[[mould.run.exclusive]]\nto = [\"maren/second\"]\n";
  CHECK(with(takes + pairing + second, exclusive).codes() == Codes{"exclusive-conflict"});
  CHECK(with(takes + pairing + second, exclusive + "disputed = true\n").codes().empty());
  CHECK(with(takes + pairing + "refuted = true\n" + second, exclusive).codes().empty());
  CHECK(with(takes + pairing + second, "[[mould.run.exclusive]]\nto = [\"maren/second\", \"maren/first\"]\n")
            .codes()
            .empty());
}

TEST_CASE("what was found with an issue is something that it takes") {
  CHECK(with("bare = true\n" + pairing).codes() == Codes{"pairing-without-place"});
  CHECK(with("bare = true\n" + pairing + "disputed = true\n").codes().empty());
  // Where nothing is said of what it takes, only that is reported.
  CHECK(with(pairing).codes() == Codes{"no-outfit"});
}

TEST_CASE("an issue says what it takes, or that it takes nothing") {
  CHECK(with("").codes() == Codes{"no-outfit"});
  CHECK(with("bare = true\n").codes().empty());
  CHECK(with(takes).codes().empty());
}

TEST_CASE("a source is cited somewhere") {
  CHECK(checked({{"a.toml", a_source}}).codes() == Codes{"unused-source"});
  CHECK(checked({{"a.toml", a_source + uses_log}}).codes().empty());
}

TEST_CASE("while a file is missing, nothing is concluded from what is missing") {
  const std::vector<SourceFile> files{
      {"a.toml", lantern + "features = { tpo = \"ring\" }\n"},
      {"b.toml", maren + "[[issue]]\nid = \"second\"\n[[issue.takes]]\naccessory = \"horn\"\n"},
      {"c.toml", line + a_source}};
  CHECK(checked(files, false).codes().empty());
}

TEST_CASE("statements that cannot all be true are one error, at the weakest of them") {
  const Checked result = checked(
      {{"a.toml", period("a", "dates = \"1979\"\nsource = [\"log p. 2\"]\n") + period("b", "dates = \"1978\"\n") +
                      "[[period.timing]]\nthis = \"start\"\nafter = \"period/a.end\"\n"},
       {"b.toml", a_source}});
  REQUIRE(result.codes() == Codes{"contradiction"});
  CHECK(result.diagnostics[0].reasons.size() == 3);
  for (const Reason& reason : result.diagnostics[0].reasons)
    CHECK(reason.weakest == (reason.place == result.diagnostics[0].place));
  // 1979-01-01 and a day, against 1978-12-31: two days apart.
  CHECK(result.diagnostics[0].message ==
        "these 3 statements cannot all be true: they miss each other by at least 2 days");
}

TEST_CASE("a claim's standing is what the evidence makes of it") {
  // The run was made from 1978 to 1979; the issue was packed in a time that decides.
  const auto standing = [](const std::string& packed, const std::string& said, const std::string& below = "") {
    return checked(
               {{"a.toml", "[accessory]\nid = \"lantern\"\nname = \"L\"\nslot = \"hand\"\n[[mould]]\nid = \"ring\"\n"
                           "[[mould.run]]\nid = \"brass\"\nmade = \"1978/1979\"\n"},
                {"b.toml", maren + "packed = \"" + packed + "\"\n" + takes + below},
                {"c.toml", line + "[[claim]]\nid = \"told\"\nsays = \"Together.\"\nstanding = \"" + said +
                               "\"\n[[claim.pairing]]\nrun = \"lantern/ring/brass\"\nissue = \"maren/first\"\n"}})
        .codes();
  };
  // Ruled out.
  CHECK(standing("1976/1977", "refuted").empty());
  CHECK(standing("1976/1977", "supported") == Codes{"supported-claim-impossible"});
  CHECK(standing("1976/1977", "open") == Codes{"open-claim-decided"});
  // Neither ruled out nor proven.
  CHECK(standing("1977/1980", "refuted") == Codes{"refuted-claim-possible"});
  CHECK(standing("1977/1980", "supported").empty());
  CHECK(standing("1977/1980", "open").empty());
  // Attested.
  CHECK(standing("1977/1980", "refuted", pairing) == Codes{"refuted-claim-possible"});
  CHECK(standing("1977/1980", "supported", pairing) == Codes{"claim-now-proven"});
  const std::string said_proven = "supported\"\nproven = true\nwhy = \"So it is.";
  CHECK(standing("1977/1980", said_proven, pairing).empty());
  CHECK(standing("1977/1980", said_proven) == Codes{"claim-not-proven"});
  CHECK(standing("1976/1977", "refuted\"\nproven = true\nwhy = \"So it is.") == Codes{"claim-not-proven"});
  CHECK(standing("1977/1980", "open", pairing) == Codes{"open-claim-decided"});
}

TEST_CASE("a claim that names a card is measured by the card's time, too") {
  const auto standing = [](const std::string& used) {
    return checked({{"a.toml", lantern + "made = \"1978/1979\"\n"},
                    {"b.toml", maren + "packed = \"1970/1985\"\n" + takes},
                    {"c.toml", line + "[[card]]\nid = \"six\"\nname = \"Six\"\nused = \"" + used +
                                   "\"\n[[claim]]\nid = \"told\"\nsays = \"Together.\"\nstanding = \"open\"\n"
                                   "[[claim.pairing]]\nrun = \"lantern/ring/brass\"\nissue = \"maren/first\"\n"
                                   "card = \"six\"\n"}})
        .codes();
  };
  CHECK(standing("1976/1980").empty());
  CHECK(standing("1976/1977") == Codes{"open-claim-decided"}); // before the run was made
  CHECK(standing("1986/1987") == Codes{"open-claim-decided"}); // after the issue was last packed
}

TEST_CASE("a claimed timing is measured by every order that it makes") {
  const auto standing = [](const std::string& timing, const std::string& said) {
    return checked({{"a.toml", period("a", "dates = \"1976-01-01/1977-12-31\"\n") +
                                   period("b", "dates = { start = \"1977-06\", end = \"1979\" }\n") +
                                   "[[claim]]\nid = \"told\"\nsays = \"So.\"\nstanding = \"" + said +
                                   "\"\n[[claim.timing]]\nof = \"period/b\"\n" + timing}})
        .codes();
  };
  const std::string proven = "relation = \"overlapped-by\"\nspan = \"period/a\"\n";
  CHECK(standing(proven, "open") == Codes{"open-claim-decided"});
  CHECK(standing(proven, "supported") == Codes{"claim-now-proven"});
  CHECK(standing(proven, "refuted") == Codes{"refuted-claim-possible"});
  const std::string excluded = "this = \"end\"\nbefore = \"period/a.end\"\n";
  CHECK(standing(excluded, "refuted").empty());
  CHECK(standing(excluded, "supported") == Codes{"supported-claim-impossible"});
  const std::string open = "this = \"start\"\non = \"1977-06-15\"\n";
  CHECK(standing(open, "open").empty());
  CHECK(standing(open, "supported").empty());
  CHECK(standing(open, "refuted") == Codes{"refuted-claim-possible"});
  // A gap that the dates leave no room for.
  const std::string never = "this = \"end\"\nafter = \"period/b.start\"\nat-least = \"P10Y\"\n";
  CHECK(standing(never, "refuted").empty());
}

TEST_CASE("a claimed timing is impossible where its orders are possible one by one but not together") {
  // b lasted at most five days, a eleven: they may have begun together, or ended together, and not both.
  const auto standing = [](const std::string& relation) {
    return checked({{"a.toml", period("a", "dates = \"1976-01-01/1976-01-11\"\n") + period("b", "") +
                                   "[[period.timing]]\nthis = \"end\"\nafter = \"period/b.start\"\nat-most = \"P5D\"\n"
                                   "[[claim]]\nid = \"told\"\nsays = \"So.\"\nstanding = \"refuted\"\n"
                                   "[[claim.timing]]\nof = \"period/b\"\nspan = \"period/a\"\nrelation = \"" +
                                   relation + "\"\n"}})
        .codes();
  };
  CHECK(standing("equals").empty());
  CHECK(standing("contains").empty());
  CHECK(standing("starts") == Codes{"refuted-claim-possible"});
}

TEST_CASE("a claim that names a card is impossible where stock was not kept until the card came in") {
  // Stock was kept for five days.
  const auto standing = [](const std::string& gap) {
    return checked(
               {{"a.toml", lantern + "made = \"1978-01-01/1978-01-31\"\n"},
                {"b.toml", maren + "packed = { end = \"[1978..1979]\" }\n" + takes +
                               "[[issue.timing]]\nthis = \"end\"\nafter = \"maren/first.start\"\nat-most = \"P10D\"\n"},
                {"c.toml", "[line]\nid = \"patrol\"\nname = \"P\"\n[line.leftover]\nat-most = \"P5D\"\n"
                           "[[card]]\nid = \"six\"\nname = \"Six\"\n"
                           "[[card.timing]]\nthis = \"start\"\nafter = \"lantern/ring/brass.end\"\nat-least = \"" +
                               gap +
                               "\"\n[[claim]]\nid = \"told\"\nsays = \"Together.\"\nstanding = \"refuted\"\n"
                               "[[claim.pairing]]\nrun = \"lantern/ring/brass\"\nissue = \"maren/first\"\n"
                               "card = \"six\"\n"}})
        .codes();
  };
  CHECK(standing("P5D") == Codes{"refuted-claim-possible"});
  CHECK(standing("P6D").empty());
}

TEST_CASE("nothing is concluded about claims while statements contradict each other") {
  CHECK(checked({{"a.toml", period("a", "dates = \"1979\"\n") + "[[period.timing]]\nthis = \"start\"\non = \"1981\"\n" +
                                "[[claim]]\nid = \"told\"\nsays = \"So.\"\nstanding = \"refuted\"\n"
                                "[[claim.timing]]\nof = \"period/a\"\nthis = \"end\"\non = \"1979\"\n"}})
            .codes() == Codes{"contradiction"});
}

TEST_CASE("what was found together had a way to meet") {
  const std::string plants = "[[plant]]\nid = \"cork\"\nname = \"Cork\"\nroutes-complete = true\n"
                             "[[plant]]\nid = \"porto\"\nname = \"Porto\"\n";
  const std::string found = "packer = \"cork\"\n" + takes + pairing;
  CHECK(with(found, "plant = \"porto\"\n", plants).codes() == Codes{"pairing-misrouted"});
  CHECK(with(found + "disputed = true\n", "plant = \"porto\"\n", plants).codes().empty());
  CHECK(with(found + "refuted = true\n", "plant = \"porto\"\n", plants).codes().empty());
  CHECK(with(found, "plant = \"cork\"\n", plants).codes().empty());
  CHECK(with(found, "plant = \"porto\"\n", plants + "[[route]]\nid = \"r\"\nfrom = \"porto\"\nto = \"cork\"\n")
            .codes()
            .empty());
}
