// Are the changes, and the causes of each, those that trying every set of edits gives?
#include <catch2/catch.hpp>

#include <bit>
#include <memory>

#include "two_versions.hpp"

using namespace coeval;
using two_versions::TwoVersions;

namespace {

struct Compiled {
  explicit Compiled(std::vector<SourceFile> files) : kb(std::move(files)), version{kb.kb, kb.dates, kb.sources} {}
  in_memory::Kb kb;
  Version version;
  [[nodiscard]] bool sound() const { return kb.dates.contradictions().empty(); }
};

std::string shown(const TwoVersions& world) {
  std::string text;
  for (const std::uint32_t made : {0U, ~0U})
    for (const SourceFile& file : world.files(made)) text += std::string{file.text()} + "\n";
  return text;
}

// The verdict asked for directly, whatever the code under test thinks is worth comparing.
VerdictAnswer verdict_in(const in_memory::Kb& kb, const VerdictQuestion& question, Basis weakest) {
  Judge judge{kb.kb, kb.dates, weakest};
  const Judgement judgement = judge.judge(kb.run(question.run), kb.issue(question.issue), false);
  return {judgement.verdict, judgement.basis, judgement.gap};
}

bool holds(const in_memory::Kb& kb, const std::string& address) { return kb.entry(address) != no_entry; }

bool takes(const in_memory::Kb& kb, const std::string& issue) {
  return !kb.kb.issues[at(kb.issue(issue))].takes.empty();
}

// Every pair that both versions hold and whose verdict differs, where one of them takes the accessory.
std::vector<std::pair<VerdictQuestion, std::pair<VerdictAnswer, VerdictAnswer>>>
differing_verdicts(const in_memory::Kb& before, const in_memory::Kb& after, Basis weakest) {
  std::vector<std::pair<VerdictQuestion, std::pair<VerdictAnswer, VerdictAnswer>>> list;
  for (const std::string run : {"a/m0/r0", "a/m0/r1", "a/m1/r0"})
    for (const std::string issue : {"f/i0", "f/i1"}) {
      if (!holds(before, run) || !holds(after, run) || (!takes(before, issue) && !takes(after, issue))) continue;
      const VerdictQuestion question{run, issue};
      const VerdictAnswer was = verdict_in(before, question, weakest);
      const VerdictAnswer is = verdict_in(after, question, weakest);
      if (was != is) list.push_back({question, {was, is}});
    }
  return list;
}

// The items that edits make, as bits of TwoVersions::files.
std::uint32_t bits_of(const TwoVersions& world, const std::vector<Edit>& edits, const std::vector<EditIndex>& set) {
  std::uint32_t bits = 0;
  for (const EditIndex edit : set)
    for (std::size_t i = 0; i < world.differing.size(); ++i)
      if (world.items[world.differing[i]].label == two_versions::label_of(edits[static_cast<std::size_t>(edit)]))
        bits |= 1U << i;
  return bits;
}

// Whether each set of edits gives the new answer, and with how few edits that can be had.
template <class Question, class Answer>
std::vector<bool> tried_sets(const std::vector<std::unique_ptr<Compiled>>& all, const Change<Question>& change,
                             const Answer& answer) {
  std::vector<bool> gives;
  for (const auto& mixture : all) {
    const auto given = mixture->sound() ? answer(*mixture, change.question) : std::nullopt;
    gives.push_back(given && same_outcome(change.before, change.after, *given));
  }
  return gives;
}

struct Seen {
  std::array<int, 7> causes{}; // of each size
  int unsound = 0;
  int bounds = 0;
  int claims = 0;
};

void check_cause(const TwoVersions& world, const Drift& drift, const Cause& cause, const std::vector<bool>& gives,
                 Seen& seen) {
  const std::uint32_t bits = bits_of(world, drift.edits, cause.edits);
  REQUIRE(static_cast<std::size_t>(std::popcount(bits)) == cause.edits.size());
  CHECK(cause.certainty == Certainty::smallest);
  CHECK(gives[bits]);
  int fewest = 99;
  for (std::uint32_t set = 0; set < gives.size(); ++set)
    if (gives[set]) fewest = std::min(fewest, std::popcount(set));
  CHECK(fewest == std::popcount(bits));
  ++seen.causes[cause.edits.size()];
}

void check_pair_of_versions(std::uint64_t seed, Basis weakest, Seen& seen) {
  const TwoVersions world{seed};
  CAPTURE(seed, shown(world));
  const std::uint32_t all = (1U << world.differing.size()) - 1;
  const Compiled before{world.files(0)};
  const Compiled after{world.files(all, true)};
  const Drift drift = drift_between(before.version, after.version, weakest);

  std::vector<std::string> labels, expected;
  for (const Edit& edit : drift.edits) labels.push_back(two_versions::label_of(edit));
  for (const std::size_t item : world.differing) expected.push_back(world.items[item].label);
  std::ranges::sort(labels);
  std::ranges::sort(expected);
  REQUIRE(labels == expected);
  REQUIRE(drift.answers_compared == (before.sound() && after.sound()));
  if (!drift.answers_compared) {
    ++seen.unsound;
    CHECK(drift.causes.empty());
    return;
  }

  std::vector<std::unique_ptr<Compiled>> mixtures;
  for (std::uint32_t made = 0; made <= all; ++made) mixtures.push_back(std::make_unique<Compiled>(world.files(made)));

  std::vector<std::pair<VerdictQuestion, std::pair<VerdictAnswer, VerdictAnswer>>> verdicts;
  for (const CausedChanges& group : drift.causes) {
    for (const ChangedVerdict& change : group.changes.verdicts) {
      verdicts.push_back({change.question, {change.before, change.after}});
      CAPTURE(change.question.run, change.question.issue, name(change.before.verdict), name(change.after.verdict));
      const auto asked = [&](const Compiled& mixture, const VerdictQuestion& question) -> std::optional<VerdictAnswer> {
        if (!holds(mixture.kb, question.run)) return {};
        return verdict_in(mixture.kb, question, weakest);
      };
      check_cause(world, drift, group.cause, tried_sets(mixtures, change, asked), seen);
    }
    for (const BoundChange& change : group.changes.bounds) {
      CAPTURE(change.question.span, static_cast<int>(change.question.end), static_cast<int>(change.question.side));
      const auto asked = [&](const Compiled& mixture, const BoundQuestion& question) -> std::optional<BoundAnswer> {
        if (!holds(mixture.kb, question.span)) return {};
        const ProvenBound bound = mixture.kb.dates.proven_bound(
            point_of({mixture.kb.span(question.span), question.end}), question.side, weakest);
        return BoundAnswer{bound.day, bound.basis};
      };
      check_cause(world, drift, group.cause, tried_sets(mixtures, change, asked), seen);
      ++seen.bounds;
    }
    for (const ClaimChange& change : group.changes.claims) {
      const auto asked = [&](const Compiled& mixture, const ClaimQuestion& question) {
        return Answerer{mixture.kb.kb, mixture.kb.dates, weakest}.answer(question);
      };
      check_cause(world, drift, group.cause, tried_sets(mixtures, change, asked), seen);
      ++seen.claims;
    }
  }
  std::ranges::sort(verdicts, {}, [](const auto& change) { return change.first; });
  const auto wanted = differing_verdicts(before.kb, after.kb, weakest);
  REQUIRE(verdicts.size() == wanted.size());
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    CHECK(verdicts[i].first == wanted[i].first);
    CHECK(verdicts[i].second == wanted[i].second);
  }
}

} // namespace

TEST_CASE("every change is found, and its cause is as small as trying every set of edits makes it") {
  Seen seen; // a test that never sees a case says nothing about it
  for (std::uint64_t seed = 1; seed <= 500; ++seed)
    check_pair_of_versions(seed, seed % 3 == 0 ? Basis::observed : Basis::conjectured, seen);
  CHECK(seen.causes[0] == 0);
  CHECK(seen.causes[1] > 1000);
  CHECK(seen.causes[2] > 50);
  CHECK(seen.causes[3] > 0);
  CHECK(seen.unsound > 5);
  CHECK(seen.bounds > 100);
  CHECK(seen.claims > 10);
}
