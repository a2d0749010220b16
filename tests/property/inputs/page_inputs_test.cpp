// Does a page stay the same while its inputs do?
//
// Knowledge bases, the demo and generated ones, are edited at random, line by line. Each page of both versions is put
// together, and where its inputs are the same, so must it be. Seeds are fixed and printed.
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <memory>
#include <random>
#include <set>

#include <catch2/catch.hpp>

#include "generate/written.hpp"
#include "in_memory_kb.hpp"
#include "inputs/page_inputs.hpp"
#include "pages/page_content.hpp"
#include "rules/rules.hpp"

using namespace coeval;
namespace fs = std::filesystem;

namespace {

using Texts = std::map<std::string, std::string>; // TOML by path
using Assets = std::set<std::string, std::less<>>;
using Dice = std::mt19937_64;

std::size_t below(Dice& dice, std::size_t count) { return static_cast<std::size_t>(dice() % count); }

struct Original {
  Texts texts;
  Assets assets;
};

Original demo() {
  Original kb;
  const fs::path root = fs::path{COEVAL_TEST_DATA} / "../../../kb";
  for (const auto& file : fs::recursive_directory_iterator{root}) {
    if (!file.is_regular_file()) continue;
    const std::string path = fs::relative(file.path(), root).string();
    std::ifstream in{file.path(), std::ios::binary};
    if (path.ends_with(".toml"))
      kb.texts[path] = {std::istreambuf_iterator<char>{in}, {}};
    else
      kb.assets.insert(path);
  }
  return kb;
}

Original generated_kb(std::uint64_t seed) {
  Original kb;
  generated::write_history({.runs = 40, .seed = seed, .links = 50, .loose = 50, .runs_per_line = 20},
                           [&](const std::string& path, const std::string& text) {
                             if (path.ends_with(".toml"))
                               kb.texts[path] = text;
                             else
                               kb.assets.insert(path);
                           });
  return kb;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    lines.push_back(text.substr(begin, end - begin));
    begin = end + 1;
  }
  return lines;
}

// One that a curator could make, or a slip; what is no knowledge base any more is passed over.
void edit(Texts& texts, Dice& dice) {
  auto file = std::next(texts.begin(), static_cast<std::ptrdiff_t>(below(dice, texts.size())));
  std::vector<std::string> lines = lines_of(file->second);
  if (lines.empty()) return;
  const std::size_t at = below(dice, lines.size());
  std::string& line = lines[at];
  const auto erase_from = [&](std::size_t first) { // a table with what is in it
    std::size_t last = first + 1;
    while (last < lines.size() && !lines[last].starts_with('[')) ++last;
    lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(first), lines.begin() + static_cast<std::ptrdiff_t>(last));
  };
  switch (below(dice, 8)) {
  case 0: // other words
    if (const std::size_t quote = line.find(" = \""); quote != std::string::npos) line.insert(quote + 4, "New ");
    break;
  case 1: // another year
    if (const std::size_t year = line.find("\"19"); year != std::string::npos && year + 4 < line.size())
      line[year + 4] = static_cast<char>('0' + below(dice, 10));
    break;
  case 2: // another number
    if (const std::size_t digit = line.find_last_of("0123456789"); digit != std::string::npos)
      line[digit] = static_cast<char>('0' + below(dice, 10));
    break;
  case 3: // how strong it is
    if (const std::size_t basis = line.find("basis = "); basis != std::string::npos)
      line = std::string{"basis = \""} + std::string{name(all_bases[below(dice, all_bases.size())])} + "\"";
    break;
  case 4: // all that follows stands a line lower
    lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(at), "# read again");
    break;
  case 5: // a statement less
    lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(at));
    break;
  case 6: // a table less
    for (std::size_t table = at + 1; table-- > 0;)
      if (lines[table].starts_with("[[")) {
        erase_from(table);
        break;
      }
    break;
  default: // argued over
    for (std::size_t table = at + 1; table-- > 0;)
      if (lines[table].starts_with("[[")) {
        lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(table) + 1, "disputed = true");
        break;
      }
    break;
  }
  file->second.clear();
  for (const std::string& kept : lines) file->second += kept + "\n";
}

// COEVAL_MORE_ROUNDS=50: so many times the rounds, for who has changed what a page shows.
int more_rounds() {
  const char* times = std::getenv("COEVAL_MORE_ROUNDS");
  return times == nullptr ? 1 : std::atoi(times);
}

struct Said {
  std::optional<ContentHash> inputs;
  ContentHash content;
};

// Every page by its path; nothing where the knowledge base has errors.
std::optional<std::map<std::string, Said>> read_pages(const Texts& texts, const Assets& assets) {
  std::vector<SourceFile> files;
  for (const auto& [path, text] : texts) files.emplace_back(path, text);
  in_memory::Kb kb{std::move(files)};
  kb.sources.assets = assets;
  const RuleInput input{kb.kb, kb.sources};
  check_data(input, kb.out);
  check_consistency(input, kb.dates, kb.out);
  if (kb.out.has_errors()) return {};
  const Site site{{kb.kb, kb.dates, kb.sources, {}}};
  const PageInputs inputs{site, [](const std::string& file) { return file; }};
  std::map<std::string, Said> pages;
  for (const PlannedPage& planned : site.pages())
    pages[planned.path] = {inputs.of(planned), hash_of(content_of(site.page(planned)).text)};
  return pages;
}

struct Seen {
  int versions = 0;
  std::size_t same_inputs = 0;
  std::size_t same_inputs_of_sources = 0; // which list what rests on them
  std::size_t other_inputs = 0;
};

Seen compare_versions(Original original, std::uint64_t seed, int rounds) {
  Dice dice{seed};
  Seen seen;
  auto& [texts, assets] = original;
  auto before = read_pages(texts, assets);
  REQUIRE(before);
  for (int round = 0; round < rounds; ++round) {
    Texts edited = texts;
    edit(edited, dice);
    if (edited == texts) continue;
    auto after = read_pages(edited, assets);
    if (!after) continue;
    ++seen.versions;
    for (const auto& [path, page] : *after) {
      const auto old = before->find(path);
      if (old == before->end() || !page.inputs) continue;
      const bool same_page = old->second.content == page.content;
      if (old->second.inputs != page.inputs) {
        ++seen.other_inputs;
        continue;
      }
      ++seen.same_inputs;
      if (path.starts_with("sources/")) ++seen.same_inputs_of_sources;
      if (same_page) continue;
      for (const auto& [file, text] : edited)
        if (texts.at(file) != text) FAIL_CHECK("round " << round << ", an edit of " << file << ": " << path);
    }
    texts = std::move(edited);
    before = std::move(after);
  }
  return seen;
}

} // namespace

TEST_CASE("a page of the demo stays the same while its inputs do") {
  const std::uint64_t seed = 3;
  CAPTURE(seed);
  const Seen seen = compare_versions(demo(), seed, 8 * more_rounds());
  CHECK(seen.versions > 2);
  CHECK(seen.same_inputs > 0);
  CHECK(seen.same_inputs_of_sources > 0);
  CHECK(seen.other_inputs > 0);
}

TEST_CASE("a page of a generated knowledge base stays the same while its inputs do") {
  const std::uint64_t seed = GENERATE(as<std::uint64_t>{}, 1, 2);
  CAPTURE(seed);
  const Seen seen = compare_versions(generated_kb(seed), seed, 20 * more_rounds());
  CHECK(seen.versions > 5);
  CHECK(seen.same_inputs > 0);
  CHECK(seen.same_inputs_of_sources > 0);
  CHECK(seen.other_inputs > 0);
}
