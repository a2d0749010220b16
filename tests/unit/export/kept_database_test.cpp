// Is a database that takes tables from an earlier one the same, byte for byte, as one that is made from nothing?
#include <catch2/catch.hpp>

#include "export/sqlite.hpp"
#include "in_memory_kb.hpp"
#include "publish/hash.hpp"

using namespace coeval;

namespace {

constexpr std::string_view grounds = R"(
[line]
id = "patrol"
name = "Patrol"
slots = ["hand"]
[[source]]
id = "log"
title = "Log"
kind = "book"
notes = "Kept at the gate."
[[plant]]
id = "cork"
name = "Cork"
[[feature]]
id = "height-mm"
name = "Height"
kind = "measure"
unit = "mm"
)";

constexpr std::string_view accessory = R"(
[accessory]
id = "lantern"
name = "Lantern"
slot = "hand"
[[mould]]
id = "ring"
used = "1976-02/1979"
features = { height-mm = { value = 21.5, tolerance = 0.3 } }
basis = "documented"
source = ["log p. 14", "log p. 15"]
[[mould.run]]
id = "brass"
plant = "cork"
made = "1976-03-01/1976-06-30"
)";

constexpr std::string_view figure = R"(
[figure]
id = "maren"
name = "Maren"
notes = "A ferry pilot."
[[issue]]
id = "first"
packer = "cork"
market = ["gb", "ie"]
packed = "1976-02-01/1976-12-31"
[[issue.takes]]
accessory = "lantern"
)";

struct KbFile {
  std::string path;
  std::string text;
};
using KbFiles = std::vector<KbFile>;

const KbFiles original{
    {"a.toml", std::string{grounds}}, {"f.toml", std::string{figure}}, {"l.toml", std::string{accessory}}};

// With a text in one of the files put in place of another one.
KbFiles edited(std::size_t file, const std::string& old_text, const std::string& new_text) {
  KbFiles files = original;
  const std::size_t place = files[file].text.find(old_text);
  REQUIRE(place != std::string::npos);
  files[file].text.replace(place, old_text.size(), new_text);
  return files;
}

KeptDatabase database_of(const KbFiles& files, KeptDatabase before = {}) {
  std::vector<SourceFile> sources;
  for (const KbFile& file : files) sources.emplace_back(file.path, file.text);
  const in_memory::Kb kb{std::move(sources)};
  REQUIRE(kb.troubles().empty());
  return sqlite_file(kb.kb, kb.dates, kb.sources, graph_of_chronology(kb.kb, kb.dates, kb.sources),
                     verdict_rows(kb.kb, kb.dates), std::move(before));
}

// What is told of a database, as if it had been told of other bytes.
std::string told_anew(const KeptDatabase& kept, const std::string& file) {
  std::string told = kept.portions.substr(0, kept.portions.rfind('\n') + 1);
  const std::string hash = text_of(hash_of(kept.file));
  told.replace(told.find(hash), hash.size(), text_of(hash_of(file)));
  return told + text_of(hash_of(told));
}

TEST_CASE("an edited knowledge base gives the same database over the earlier one as from nothing") {
  const KeptDatabase before = database_of(original);
  const std::vector<KbFiles> editions{
      original,
      edited(1, "name = \"Maren\"", "name = \"Maren of the Ferry, with a much longer name than before\""),
      edited(1, "notes = \"A ferry pilot.\"\n", ""),
      edited(1, "A ferry pilot.", std::string(9000, 'x')), // longer than a page of the database
      edited(0, "Kept at the gate.", "Lost."),
      edited(2, "made = \"1976-03-01", "made = \"1976-04-01"),
      edited(2, "tolerance = 0.3", "tolerance = 0.4"),
      edited(2, "source = [\"log p. 14\", \"log p. 15\"]", "source = [\"log p. 15\"]"),
      edited(1, "market = [\"gb\", \"ie\"]\n", ""),
      edited(1, "[figure]", "# a line more\n[figure]"),
      edited(2, "[[mould.run]]", "[[mould.run]]\nid = \"grey\"\n[[mould.run]]"),
      edited(2, "id = \"brass\"", "id = \"bronze\""),
      edited(0, "[[plant]]", "[[plant]]\nid = \"ayr\"\nname = \"Ayr\"\n[[plant]]"),
      {original[0], original[2]},
  };
  for (std::size_t i = 0; i < editions.size(); ++i) {
    CAPTURE(i);
    const KeptDatabase fresh = database_of(editions[i]);
    const KeptDatabase over = database_of(editions[i], before);
    CHECK(over.file == fresh.file);
    CHECK(over.portions == fresh.portions);
    CHECK((fresh.file == before.file) == (i == 0));
    CHECK(database_of(original, over).file == before.file); // and back
  }
}

TEST_CASE("tables with the same rows are taken from the earlier database") {
  const KeptDatabase before = database_of(original);
  KeptDatabase marked = before; // so that it can be seen where a table comes from
  const std::size_t title = marked.file.find("Kept at the gate.");
  REQUIRE(title != std::string::npos);
  for (std::size_t at = title; at != std::string::npos; at = marked.file.find("Kept at the gate.", at))
    marked.file.replace(at, 4, "Held");
  marked.portions = told_anew(before, marked.file);
  const KbFiles renamed = edited(2, "name = \"Lantern\"", "name = \"Lamp\"");
  CHECK(database_of(renamed, marked).file.find("Held at the gate.") != std::string::npos);
}

TEST_CASE("a damaged database, or what is told of another one, is not believed") {
  const KeptDatabase before = database_of(original);
  const KbFiles renamed = edited(1, "name = \"Maren\"", "name = \"Marin\"");
  const KeptDatabase fresh = database_of(renamed);
  const auto over = [&](std::string file, std::string portions) {
    return database_of(renamed, {std::move(file), std::move(portions)}).file == fresh.file;
  };
  CHECK(over(before.file, before.portions));
  for (std::size_t at = 0; at < before.file.size(); at += 9973) {
    CAPTURE(at);
    std::string file = before.file;
    file[at] = static_cast<char>(file[at] ^ 1);
    REQUIRE(over(std::move(file), before.portions));
  }
  for (std::size_t size = 0; size < before.portions.size(); size += 211)
    REQUIRE(over(before.file, before.portions.substr(0, size)));
  std::string swapped = before.portions;
  const std::size_t sum = swapped.find("kind-figure ") + 12;
  swapped.replace(sum, 32, fresh.portions.substr(fresh.portions.find("kind-figure ") + 12, 32));
  CHECK(over(before.file, swapped));
  CHECK(over(before.file, ""));
  CHECK(over("", before.portions));
  CHECK(over("", ""));
  CHECK(over(fresh.file, before.portions));
  CHECK(over("SQLite format 3", told_anew(before, "SQLite format 3") + "x"));
}

} // namespace
