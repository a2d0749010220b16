// Is any shelf the same after it has been a table, and any table of ours the same bytes after it has been TOML?
#include <catch2/catch.hpp>

#include <random>

#include "csv/read.hpp"
#include "entries/read.hpp"
#include "entries/rows.hpp"

using namespace coeval;

namespace {

using Random = std::mt19937;

std::size_t below(Random& random, std::size_t limit) { return random() % limit; }

const std::string& one_of(Random& random, const std::vector<std::string>& list) {
  return list[below(random, list.size())];
}

std::string id(Random& random) { return "x" + std::to_string(below(random, 1'000'000'000)); }

// Texts that spreadsheets, TOML or CSV could take amiss.
std::string text_of(Random& random, bool several_lines) {
  static const std::vector<std::string> pieces{
      "a",    "Inês", "\"",   "'",    ",", ";", "\t", "\\", "=1+1", "-", "+3",     "@x", "#",       "007", "1.5",
      "TRUE", "é",    "\x01", "\x7F", " ", "{", "]",  "—",  "3/4",  "%", "\"\"\"", "e5", "\\u0041", "''",  "z"};
  std::string text = one_of(random, {"b", "'", "=", "0", "\"", "x"});
  for (std::size_t count = below(random, 6); count > 0; --count) {
    text += one_of(random, pieces);
    if (several_lines && below(random, 5) == 0) text += one_of(random, {"\n", "\n\n", "\r\n"});
  }
  return text + (below(random, 4) == 0 ? "" : "t");
}

std::string cell_of(Random& random, const KeySpec& key) {
  switch (key.type) {
  case ValueType::id:
    return id(random);
  case ValueType::flag:
    return one_of(random, {"true", "false"});
  case ValueType::numbers:
    return "72.1\n-6\n48.5";
  case ValueType::choice:
    return std::string{key.choices[below(random, key.choices.size())]};
  case ValueType::choice_list:
    return std::string{key.choices.front()} + (below(random, 2) == 0 ? "" : "\n" + std::string{key.choices.back()});
  case ValueType::url:
    return "https://example.org/?a=" + id(random);
  case ValueType::address:
    return id(random) + "/" + id(random);
  case ValueType::day:
    return "2026-0" + std::to_string(1 + below(random, 9)) + "-1" + std::to_string(below(random, 9));
  case ValueType::weight:
    return std::to_string(1 + below(random, 1000));
  case ValueType::condition:
    return one_of(random, {"C1", "C8.5", "C10", "0", "85", "100"});
  case ValueType::currency:
    return one_of(random, {"GBP", "EUR", "JPY"});
  case ValueType::money:
    return one_of(random, {"41.50 GBP", "0.00 EUR", "1200 JPY", "0.01 USD"});
  case ValueType::percent:
    return one_of(random, {"2.5", "0", "20", "12.50"});
  case ValueType::rate:
    return one_of(random, {"1.1745", "0.0061", "150"});
  case ValueType::mark_list:
    return "ce-toy\ncopyright=" + std::to_string(1900 + below(random, 100));
  case ValueType::text_list: {
    std::string list = text_of(random, false);
    for (std::size_t count = below(random, 3); count > 0; --count)
      list += "\n" + text_of(random, false) + std::to_string(count); // twins are refused
    return list;
  }
  case ValueType::text:
    return text_of(random, true);
  default:
    throw std::logic_error("a value of a shelf that this test does not know");
  }
}

void fill(Random& random, EntryRow& row) {
  for (const KeySpec& key : row.kind->keys)
    if (key.required || below(random, 3) == 0) row.cells.push_back({&key, cell_of(random, key), {}});
}

void add(Random& random, std::vector<EntryRow>& rows, const KindSpec& kind, std::size_t parent) {
  const std::size_t at = rows.size();
  rows.push_back({&kind, parent, {}, {}});
  fill(random, rows.back());
  for (const KindSpec* child : children_of(kind.kind))
    for (std::size_t count = below(random, child->repeated ? 3 : 2); count > 0; --count) add(random, rows, *child, at);
}

std::vector<EntryRow> random_shelf(Random& random) {
  std::vector<EntryRow> rows;
  for (const KindSpec& kind : schema(Language::shelf))
    if (kind.standing == Standing::top)
      for (std::size_t count = below(random, kind.repeated ? 4 : 2); count > 0; --count)
        add(random, rows, kind, no_row);
  return rows;
}

std::vector<EntryRow> read_back(const std::string& path, const std::string& text) {
  SourceSet sources;
  sources.files.emplace_back(path, text);
  Diagnostics out;
  const EntrySet entries = read_entries(sources, {}, out, Language::shelf);
  for (const Diagnostic& wrong : out.sorted()) UNSCOPED_INFO(wrong.message << " at " << sources.text(wrong.place));
  CHECK_FALSE(out.has_errors());
  return rows_of(entries);
}

} // namespace

TEST_CASE("a random shelf is the same after TOML, a table and TOML again, and its table the same bytes") {
  std::size_t tables = 0;
  for (unsigned seed = 0; seed < 400; ++seed) {
    Random random{seed};
    const std::vector<EntryRow> rows = random_shelf(random);
    tables += rows.size();
    const std::string toml = toml_of(rows).text;
    INFO("seed " << seed << "\n" << toml);
    REQUIRE(read_back("shelf.toml", toml) == rows);
    const std::string table = csv_of(rows);
    INFO(table);
    REQUIRE(read_back("shelf.csv", table) == rows);
    REQUIRE(csv_of(read_back("shelf.csv", table)) == table);
    REQUIRE(toml_of(read_back("shelf.csv", table)).text == toml);
  }
  CHECK(tables > 4000);
}
