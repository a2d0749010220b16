// Is every run and reproduction of the demonstration found by its own features, and told from all others or known not
// to be?
#include <catch2/catch.hpp>

#include "examine/alike.hpp"
#include "examine/examine.hpp"
#include "examine/key.hpp"
#include "examine/words.hpp"
#include "pipeline.hpp"

using namespace coeval;

namespace {

struct Demo {
  Compiled compiled = compile(COEVAL_TEST_DATA "/../../../kb", Depth::in_full);
  [[nodiscard]] const LinkedKb& kb() const { return *compiled.kb; }
};

// What somebody would see who holds a typical example of it: every harmless feature, measured without doubt.
std::vector<Observation> own_features(const LinkedKb& kb, const Candidate& candidate) {
  std::vector<Observation> seen;
  for (const Stated& stated : candidate.stated) {
    const Feature& feature = kb.features[at(stated.feature)];
    if (!harmless(feature)) continue;
    std::string value;
    if (stated.lab != nullptr) {
      const Lab lab = lab_of(*stated.lab);
      value = "lab(" + number_words(lab.lightness) + "," + number_words(lab.a) + "," + number_words(lab.b) + ")±0";
    } else if (feature.kind == FeatureKind::measure) {
      value = number_words(std::get<double>(stated.value->alternatives.front())) + "±0";
    } else if (feature.kind == FeatureKind::text) {
      value = std::get<KeptText>(stated.value->alternatives.front());
    } else {
      for (const FeatureAtom& atom : stated.value->alternatives) value += (value.empty() ? "" : ",") + atom_words(atom);
    }
    auto read = read_observation(kb, feature.id + "=" + value);
    INFO(feature.id << "=" << value);
    REQUIRE(std::holds_alternative<Observation>(read));
    seen.push_back(std::get<Observation>(std::move(read)));
  }
  return seen;
}

} // namespace

TEST_CASE("every run and reproduction of the demonstration is identified by its own features") {
  const Demo demo;
  REQUIRE_FALSE(demo.compiled.has_errors);
  const LinkedKb& kb = demo.kb();
  std::size_t reproductions = 0;
  std::size_t stating = 0;
  for (std::size_t i = 0; i < kb.accessories.size(); ++i) {
    const std::vector<Candidate> candidates = candidates_of(kb, AccessoryIndex{static_cast<std::uint32_t>(i)});
    const FeatureTable table = tabulate(kb, candidates);
    for (std::size_t self = 0; self < candidates.size(); ++self) {
      INFO(address_of(kb, candidates[self]));
      const Outcome outcome = examine(table, own_features(kb, candidates[self]));
      CHECK(outcome.stands[self].excludes == 0);
      for (const std::size_t other : outcome.left) {
        INFO("not told from " << address_of(kb, candidates[other]));
        if (other != self) CHECK_FALSE(told_apart(table, self, other));
      }
      reproductions += candidates[self].original() ? 0 : 1;
      stating += candidates[self].stated.empty() ? 0 : 1;
    }
  }
  CHECK(reproductions >= 25);
  CHECK(stating > 200);
}

TEST_CASE("every accessory of the demonstration has a key that was searched in full") {
  const Demo demo;
  const LinkedKb& kb = demo.kb();
  for (std::size_t i = 0; i < kb.accessories.size(); ++i) {
    INFO(kb.accessories[i].id);
    const std::vector<Candidate> candidates = candidates_of(kb, AccessoryIndex{static_cast<std::uint32_t>(i)});
    const FeatureTable table = tabulate(kb, candidates);
    const Key key = make_key(table);
    CHECK(key.optimal);
    CHECK(key.complete);
    CHECK(key.expected_minutes >= key.least_minutes - 1e-9);
    for (const KeyNode& node : key.nodes)
      if (node.look) CHECK(harmless(kb.features[at(*node.look)]));
  }
}

TEST_CASE("a recast of the demonstration passes in photographs, and the height is asked for first") {
  const Demo demo;
  const LinkedKb& kb = demo.kb();
  const auto entry = kb.addresses.find("signal-lantern/resin-recast");
  REQUIRE(entry);
  const Repro& repro = kb.repros[kb.position[at(*entry)]];
  REQUIRE(repro.of_run);
  const std::vector<Candidate> candidates = candidates_of(kb, repro.accessory);
  const FeatureTable table = tabulate(kb, candidates);
  std::size_t original = 0;
  std::size_t recast = 0;
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    if (candidates[i].what == decltype(candidates[i].what){*repro.of_run}) original = i;
    if (address_of(kb, candidates[i]) == kb.address(*entry)) recast = i;
  }
  // What a seller's photographs of the recast show.
  std::vector<Observation> all = own_features(kb, candidates[recast]);
  std::vector<Observation> photographs = all;
  std::erase_if(photographs,
                [&](const Observation& seen) { return kb.features[at(seen.feature)].by != LookBy::photograph; });
  REQUIRE(photographs.size() >= 3);
  const Outcome from_afar = examine(table, photographs, {.claimed = original, .seller_first = true});
  CHECK(conclude(table, from_afar, original).answer == ClaimAnswer::undecided);
  REQUIRE_FALSE(from_afar.next.empty());
  CHECK(kb.features[at(from_afar.next.front().feature)].id == "height-mm");
  // Its height and its weight, each alone, rule the original out.
  for (const std::string measured : {"height-mm", "weight-g"}) {
    INFO(measured);
    std::vector<Observation> with = photographs;
    for (const Observation& seen : all)
      if (kb.features[at(seen.feature)].id == measured) with.push_back(seen);
    REQUIRE(with.size() == photographs.size() + 1);
    CHECK(conclude(table, examine(table, with, {.claimed = original}), original).answer == ClaimAnswer::excluded);
  }
}
