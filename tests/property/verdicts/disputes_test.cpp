// Does taking a disputed statement as right give what compiling the knowledge base gives in which it is not disputed,
// and in which what it sets aside is not there?
#include <map>
#include <set>

#include <catch2/catch.hpp>

#include "routed_world.hpp"
#include "verdicts/disputes.hpp"

using namespace coeval;
using small_world::SmallWorld;

namespace {

using Pair = std::pair<std::string, std::string>; // issue and run

std::map<Pair, Verdict> judge_all(const in_memory::Kb& kb) {
  Judge judge{kb.kb, kb.dates, Basis::conjectured};
  std::map<Pair, Verdict> verdicts;
  for (std::size_t run = 0; run < kb.kb.runs.size(); ++run)
    for (std::size_t issue = 0; issue < kb.kb.issues.size(); ++issue)
      verdicts[{std::string{kb.kb.issues[issue].address}, std::string{kb.kb.runs[run].address}}] =
          judge.judge(RunIndex{static_cast<std::uint32_t>(run)}, IssueIndex{static_cast<std::uint32_t>(issue)}, false)
              .verdict;
  return verdicts;
}

// By address and end.
std::map<std::string, DayBounds> all_bounds(const in_memory::Kb& kb) {
  std::map<std::string, DayBounds> bounds;
  for (std::size_t span = 0; span < kb.kb.spans.size(); ++span) {
    const TimeSpanIndex index{static_cast<std::uint32_t>(span)};
    bounds[std::string{kb.kb.spans[span].address} + ".start"] = kb.dates.bounds(start_of(index), Basis::conjectured);
    bounds[std::string{kb.kb.spans[span].address} + ".end"] = kb.dates.bounds(end_of(index), Basis::conjectured);
  }
  return bounds;
}

// What is to be done to the text of one statement, by the place at which it is told.
struct Edit {
  FileIndex file{};
  std::size_t at = 0;
  std::size_t length = 0; // of what goes
  std::string in_its_place;
};

std::size_t table_head(const std::string& text, std::size_t at) {
  std::size_t head = text.rfind("\n[", at + 1);
  return head == std::string::npos ? 0 : head + 1;
}

std::string table_name(const std::string& text, std::size_t head) {
  return text.substr(head, text.find('\n', head) - head);
}

// Takes one statement out: a timing or a pairing by disputing it, the policy with its table, anything else with its
// key.
Edit taken_out(const std::vector<SourceFile>& files, const Span& place) {
  const std::string text{files[static_cast<std::size_t>(place.file)].text()};
  const std::size_t head = table_head(text, place.begin);
  const std::string table = table_name(text, head);
  if (table == "[line.leftover]") {
    const std::size_t end = std::min(text.find("\n[", head), text.size() - 1) + 1;
    return {place.file, head, end - head, ""};
  }
  if (table.ends_with("timing]]") || table.ends_with("pairing]]") || table.ends_with("exclusive]]"))
    return {place.file, head + table.size() + 1, 0, "disputed = true\n"};
  const std::size_t line = text.rfind('\n', place.begin) + 1;
  return {place.file, line, text.find('\n', line) + 1 - line, ""};
}

Edit put_in(const std::vector<SourceFile>& files, const Span& place) {
  const std::string text{files[static_cast<std::size_t>(place.file)].text()};
  static const std::string flag = "disputed = true\n";
  return {place.file, text.find(flag, table_head(text, place.begin)), flag.size(), ""};
}

std::vector<SourceFile> edited(const std::vector<SourceFile>& files, std::vector<Edit> edits) {
  std::ranges::sort(edits, [](const Edit& one, const Edit& other) {
    return std::tie(one.file, one.at) > std::tie(other.file, other.at);
  });
  std::vector<std::string> texts;
  for (const SourceFile& file : files) texts.emplace_back(file.text());
  std::optional<std::pair<FileIndex, std::size_t>> last; // two ends of one key are one statement
  for (const Edit& edit : edits) {
    if (last != std::pair{edit.file, edit.at})
      texts[static_cast<std::size_t>(edit.file)].replace(edit.at, edit.length, edit.in_its_place);
    last = {edit.file, edit.at};
  }
  std::vector<SourceFile> result;
  for (std::size_t i = 0; i < files.size(); ++i) result.push_back({files[i].path(), std::move(texts[i])});
  return result;
}

// Some timings and pairings are disputed that were not, and some runs are said to have gone to one issue only.
std::vector<SourceFile> argued_over(const std::vector<SourceFile>& files, std::uint64_t seed) {
  small_world::Dice dice{seed * 104729};
  std::vector<SourceFile> result;
  for (const SourceFile& file : files) {
    std::string text{file.text()};
    for (const std::string table : {"timing]]\n", "[[issue.pairing]]\n"})
      for (std::size_t at = text.find(table); at != std::string::npos; at = text.find(table, at)) {
        at += table.size();
        const std::string own = text.substr(at, text.find("\n[", at) - at);
        if (own.find("disputed") == std::string::npos && dice.one_in(3)) text.insert(at, "disputed = true\n");
      }
    if (file.path() == "a.toml" && dice.one_in(3))
      text += std::string{"[[mould.run.exclusive]]\nto = [\"f/i0\"]\nbasis = \"reported\"\nsource = [\"s p. 1\"]\n"} +
              (dice.one_in(2) ? "disputed = true\n" : "");
    result.push_back({file.path(), std::move(text)});
  }
  return result;
}

} // namespace

TEST_CASE("what would follow from a disputed statement is what compiling it tells") {
  std::size_t disputes = 0, conflicts = 0, several = 0, verdicts = 0, bounds = 0, records = 0, hopeless = 0;
  for (std::uint64_t seed = 1; seed <= 1500; ++seed) {
    const SmallWorld world{seed};
    const std::vector<SourceFile> files = argued_over(small_world::with_routes(world, seed), seed);
    const in_memory::Kb kb{files};
    std::string texts;
    for (const SourceFile& file : files) texts += std::string{file.text()} + "\n";
    INFO("seed " << seed << "\n" << texts << kb.troubles());
    REQUIRE(kb.codes().empty());
    if (!kb.dates.contradictions().empty()) continue;
    const std::map<Pair, Verdict> before = judge_all(kb);
    const std::map<std::string, DayBounds> known = all_bounds(kb);
    for (const Dispute& dispute : disputes_of(kb.kb, kb.dates, Basis::conjectured)) {
      ++disputes;
      INFO("if " << dispute.says.statement);
      std::vector<Edit> edits{put_in(files, dispute.says.place)};
      if (dispute.hopeless) { // it excludes the meaning of the words, whatever it is read beside
        ++hopeless;
        const in_memory::Kb right{edited(files, edits)};
        REQUIRE_FALSE(right.dates.contradictions().empty());
        continue;
      }
      for (const DisputeConflict& conflict : dispute.conflicts) {
        ++conflicts;
        // Before the statement is set aside the rest cannot all be true: in time, or else on record.
        const in_memory::Kb right{edited(files, edits)};
        INFO(right.troubles());
        REQUIRE(right.codes().empty());
        REQUIRE(std::ranges::count(conflict.statements, true, &Reason::weakest) >= 1);
        if (right.dates.contradictions().empty()) {
          ++records;
          REQUIRE(conflict.statements.size() == 1);
        }
        if (conflict.statements.size() > 1) ++several;
        for (const Reason& reason : conflict.statements)
          if (reason.weakest) edits.push_back(taken_out(files, reason.place));
      }
      const in_memory::Kb right{edited(files, edits)};
      INFO(right.troubles());
      REQUIRE(right.codes().empty());
      REQUIRE(right.dates.contradictions().empty());

      std::map<Pair, std::pair<Verdict, Verdict>> said, tried;
      for (const VerdictChange& change : dispute.verdicts)
        said[{std::string{kb.kb.issues[at(change.issue)].address}, std::string{kb.kb.runs[at(change.run)].address}}] = {
            change.before, change.after};
      for (const auto& [pair, verdict] : judge_all(right))
        if (before.at(pair) != verdict) tried[pair] = {before.at(pair), verdict};
      REQUIRE(said.size() == dispute.verdicts.size());
      REQUIRE(said == tried);
      verdicts += tried.size();

      std::map<std::string, std::pair<DayBounds, DayBounds>> said_of_days, tried_of_days;
      for (const BoundsChange& change : dispute.bounds)
        said_of_days[std::string{kb.kb.spans[at(change.end.span)].address} +
                     (change.end.end == SpanEnd::start ? ".start" : ".end")] = {change.before, change.after};
      for (const auto& [point, days] : all_bounds(right))
        if (known.at(point) != days) tried_of_days[point] = {known.at(point), days};
      REQUIRE(said_of_days.size() == tried_of_days.size());
      for (const auto& [point, days] : tried_of_days) {
        INFO(point);
        REQUIRE(said_of_days.contains(point));
        REQUIRE(said_of_days.at(point).first == days.first);
        REQUIRE(said_of_days.at(point).second == days.second);
      }
      bounds += tried_of_days.size();
    }
  }
  INFO(disputes << " disputes, " << conflicts << " conflicts, " << several << " of several statements, " << records
                << " of records, " << verdicts << " verdicts and " << bounds << " bounds differ, " << hopeless
                << " hopeless");
  CHECK(disputes > 500); // a test that never sees one says nothing
  CHECK(conflicts > 100);
  CHECK(several > 30);
  CHECK(records > 10);
  CHECK(hopeless > 5);
  CHECK(verdicts > 200);
  CHECK(bounds > 200);
}
