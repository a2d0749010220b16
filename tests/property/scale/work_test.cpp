// Does twice as large a knowledge base take twice the work, and no more?
//
// Work is counted, not timed: bytes that are asked of the heap, nearly the same on every machine. A step that goes
// through everything for each of many things copies or collects something each time, and shows. And is what is found
// quickly for all at once what is found for one at a time?
#include <atomic>
#include <cstdlib>
#include <functional>
#include <new>

#include <catch2/catch.hpp>

#include "examine/candidates.hpp"
#include "generate/written.hpp"
#include "in_memory_kb.hpp"
#include "pages/site.hpp"
#include "rules/rules.hpp"
#include "verdicts/claims.hpp"
#include "verdicts/matrix.hpp"

namespace {

std::atomic<std::size_t> bytes_asked_for{0};

}

void* operator new(std::size_t bytes) {
  bytes_asked_for += bytes;
  void* memory = std::malloc(bytes == 0 ? 1 : bytes);
  return memory != nullptr ? memory : throw std::bad_alloc{};
}
void* operator new(std::size_t bytes, const std::nothrow_t&) noexcept { // std::stable_sort asks for its room so
  bytes_asked_for += bytes;
  return std::malloc(bytes == 0 ? 1 : bytes);
}
void operator delete(void* memory) noexcept { std::free(memory); }
void operator delete(void* memory, std::size_t) noexcept { std::free(memory); }

using namespace coeval;

namespace {

std::vector<SourceFile> files_of(const generated::Plan& plan) {
  std::vector<SourceFile> files;
  generated::write_history(plan, [&](const std::string& path, const std::string& text) {
    if (path.ends_with(".toml")) files.emplace_back(path, text);
  });
  return files;
}

std::size_t bytes_of(const std::function<void()>& work) {
  const std::size_t before = bytes_asked_for;
  work();
  return bytes_asked_for - before;
}

// One line, so that its hubs grow with it.
generated::Plan one_line(std::uint32_t runs, std::uint32_t contradictions = 0) {
  return {.runs = runs, .links = 50, .loose = 50, .contradictions = contradictions, .runs_per_line = 1'000'000};
}

// For twice the size. What goes through everything for each of many asks for four times as much.
void check_growth(std::size_t small, std::size_t large) {
  constexpr double most = 2.5;
  CAPTURE(small, large);
  CHECK(small > 0);
  CHECK(static_cast<double>(large) < most * static_cast<double>(small));
}

bool same(const ClaimFinding& one, const ClaimFinding& other) {
  return one.answer == other.answer && one.basis == other.basis &&
         std::ranges::equal(one.proof, other.proof, {}, &Reason::statement, &Reason::statement);
}

} // namespace

TEST_CASE("every stage does twice the work for twice the size") {
  std::vector<std::size_t> link, solve, rules, claims, candidates, verdicts;
  for (const std::uint32_t runs : {1'000U, 2'000U}) {
    SourceSet sources = in_memory::sources_of(files_of(one_line(runs)));
    Diagnostics out;
    EntrySet entries = read_entries(sources, {}, out);
    std::optional<LinkedKb> kb;
    link.push_back(bytes_of([&] { kb = link_entries(std::move(entries), true, out); }));
    std::optional<Chronology> dates;
    solve.push_back(bytes_of([&] { dates = solve_chronology(*kb); }));
    const RuleInput input{*kb, sources};
    rules.push_back(bytes_of([&] { check_data(input, out); }));
    claims.push_back(bytes_of([&] { check_answers(input, *dates, out); }));
    candidates.push_back(bytes_of([&] {
      std::size_t count = 0;
      for (std::size_t i = 0; i < kb->accessories.size(); ++i)
        count += candidates_of(*kb, AccessoryIndex{static_cast<std::uint32_t>(i)}).size();
      CHECK(count > runs);
    }));
    verdicts.push_back(bytes_of([&] { CHECK(verdict_rows(*kb, *dates).size() > runs); }));
  }
  SECTION("linking") { check_growth(link[0], link[1]); }
  SECTION("solving") { check_growth(solve[0], solve[1]); }
  SECTION("rules") { check_growth(rules[0], rules[1]); }
  SECTION("claims, and what else is checked against the answers") { check_growth(claims[0], claims[1]); }
  SECTION("candidates, accessory by accessory") { check_growth(candidates[0], candidates[1]); }
  SECTION("verdicts") { check_growth(verdicts[0], verdicts[1]); }
}

TEST_CASE("twice as many contradictions in twice the size take twice the work") {
  std::vector<std::size_t> solve;
  for (const std::uint32_t runs : {1'000U, 2'000U}) {
    SourceSet sources = in_memory::sources_of(files_of(one_line(runs, runs / 50)));
    Diagnostics out;
    const LinkedKb kb = link_entries(read_entries(sources, {}, out), true, out);
    solve.push_back(bytes_of([&] { CHECK(solve_chronology(kb).contradictions().size() == runs / 50); }));
  }
  check_growth(solve[0], solve[1]);
}

TEST_CASE("what can be left out of a ring of statements twice as long takes twice the work") {
  std::vector<std::size_t> find;
  for (const std::uint32_t points : {500U, 1'000U}) {
    std::vector<Constraint> ring; // each a day after the one before, and the first after the last
    for (std::uint32_t i = 0; i < points; ++i)
      ring.push_back({Point{i}, Point{(i + 1) % points}, -1, StatementIndex{i}});
    const ConstraintGraph graph{points, std::move(ring)};
    const auto equally_strong = [](StatementIndex, StatementIndex) { return false; };
    find.push_back(bytes_of([&] {
      const std::vector<Contradiction> found = find_contradictions(graph, 1, equally_strong);
      REQUIRE(found.size() == 1);
      CHECK(found.front().statements.size() == points);
    }));
  }
  check_growth(find[0], find[1]);
}

TEST_CASE("twice as many slips in twice the size take twice the work") {
  std::vector<std::size_t> link;
  for (const std::uint32_t runs : {1'000U, 2'000U}) {
    std::vector<SourceFile> files = files_of(one_line(runs));
    std::erase_if(files, [](const SourceFile& file) { return file.path().ends_with("/cards.toml"); });
    SourceSet sources = in_memory::sources_of(std::move(files));
    Diagnostics out;
    EntrySet entries = read_entries(sources, {}, out);
    link.push_back(bytes_of([&] { (void)link_entries(std::move(entries), true, out); }));
    CHECK(out.count(Severity::error) > runs); // every card that is named
  }
  check_growth(link[0], link[1]);
}

TEST_CASE("the pages about claims take twice the work for twice as many") {
  std::vector<std::size_t> build;
  for (const std::uint32_t runs : {500U, 1'000U}) {
    const in_memory::Kb kb{files_of(one_line(runs))};
    const Site site{{kb.kb, kb.dates, kb.sources, {}}};
    build.push_back(bytes_of([&] {
      for (const PlannedPage& planned : site.pages())
        if (planned.kind == PageKind::claim || planned.topic == "claim") CHECK(!site.page(planned).sections.empty());
    }));
  }
  check_growth(build[0], build[1]);
}

TEST_CASE("the verdicts of all pairs are those of each outfit") {
  const auto [seed, links, loose] =
      GENERATE(table<std::uint64_t, std::uint32_t, std::uint32_t>({{1976, 15, 30}, {6, 50, 90}}));
  CAPTURE(seed, links, loose);
  const in_memory::Kb kb{files_of({.runs = 600, .seed = seed, .links = links, .loose = loose})};
  const std::vector<VerdictRow> rows = verdict_rows(kb.kb, kb.dates);
  std::size_t next = 0;
  std::array<std::size_t, verdict_count> seen{};
  for (std::size_t i = 0; i < kb.kb.issues.size(); ++i) {
    Judge judge{kb.kb, kb.dates, Basis::conjectured};
    for (const Takes& takes : kb.kb.issues[i].takes)
      for (const Judgement& judgement : judge.outfit(IssueIndex{static_cast<std::uint32_t>(i)}, takes)) {
        REQUIRE(next < rows.size());
        const VerdictRow& row = rows[next++];
        ++seen[static_cast<std::size_t>(row.verdict)];
        const bool equal = row.issue == judgement.issue && row.run == judgement.run &&
                           row.verdict == judgement.verdict && row.basis == judgement.basis &&
                           row.gap == judgement.gap.value_or(0);
        if (equal) continue;
        FAIL_CHECK(kb.kb.runs[at(judgement.run)].address << " with " << kb.kb.issues[i].address << ": "
                                                         << name(row.verdict) << ", not " << name(judgement.verdict));
      }
  }
  CHECK(next == rows.size());
  for (const Verdict verdict :
       {Verdict::attested, Verdict::fits, Verdict::open, Verdict::stale, Verdict::anachronistic})
    CHECK(seen[static_cast<std::size_t>(verdict)] > 0);
}

TEST_CASE("what is found of all claims at once is what is found of each") {
  const in_memory::Kb kb{files_of({.runs = 300, .seed = 9, .links = 30})};
  Judge judge{kb.kb, kb.dates, Basis::conjectured};
  const std::vector<ClaimReport> all = report_claims(kb.kb, kb.dates, judge);
  REQUIRE(all.size() == kb.kb.claims.size());
  std::array<std::size_t, 3> seen{};
  for (std::size_t i = 0; i < all.size(); ++i) {
    const ClaimReport one = report_claim(kb.kb, kb.dates, judge, ClaimIndex{static_cast<std::uint32_t>(i)});
    INFO(kb.kb.claims[i].id);
    CHECK(all[i].claim == one.claim);
    CHECK(all[i].answer == one.answer);
    CHECK(all[i].basis == one.basis);
    REQUIRE(all[i].stated.size() == one.stated.size());
    for (std::size_t s = 0; s < one.stated.size(); ++s) {
      CHECK(all[i].stated[s].words == one.stated[s].words);
      CHECK(same(all[i].stated[s].finding, one.stated[s].finding));
    }
    ++seen[static_cast<std::size_t>(one.answer)];
  }
  CHECK(seen[static_cast<std::size_t>(ClaimFinding::Answer::proven)] > 0);
  CHECK(seen[static_cast<std::size_t>(ClaimFinding::Answer::ruled_out)] > 0);
}
