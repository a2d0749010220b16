#include "export/sqlite.hpp"

#include <algorithm>
#include <map>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "export/sqlite_rows.hpp"

namespace coeval {
namespace {

// By portion.
using PortionSums = std::map<std::string, ContentHash, std::less<>>;

// The first line of what is told of a database: true of no other file, schema or version of SQLite.
std::string told_of(std::string_view file) {
  return fmt::format("coeval-database 1 {} {} {}\n", text_of(hash_of(file)), text_of(hash_of(sqlite_schema())),
                     sqlite_version());
}

std::string text_of(std::string_view file, const PortionSums& sums) {
  std::string text = told_of(file);
  for (const auto& [name, sum] : sums) text += fmt::format("{} {}\n", name, text_of(sum));
  return text + text_of(hash_of(text));
}

// None where they are not told of these bytes, or not as they were told: then nothing is taken from there.
PortionSums read_portions(const KeptDatabase& kept) {
  const std::string first = told_of(kept.file);
  const std::size_t end = kept.portions.rfind('\n') + 1;
  std::string_view rest{kept.portions.data(), end};
  if (!rest.starts_with(first) || kept.portions.substr(end) != text_of(hash_of(rest))) return {};
  PortionSums sums;
  for (rest.remove_prefix(first.size()); !rest.empty(); rest.remove_prefix(rest.find('\n') + 1)) {
    const std::string_view line = rest.substr(0, rest.find('\n'));
    const std::size_t space = std::min(line.find(' '), line.size());
    if (const auto sum = read_hash(line.substr(std::min(space + 1, line.size()))))
      sums[std::string{line.substr(0, space)}] = *sum;
  }
  return sums;
}

// Every table filled from nothing.
Database fresh(const std::vector<Portion>& portions, PortionSums& sums) {
  Database database;
  database.run(fmt::format("PRAGMA page_size = 4096; PRAGMA encoding = 'UTF-8'; PRAGMA application_id = {}; "
                           "PRAGMA user_version = {}; BEGIN;",
                           sqlite_application_id, sqlite_format_version));
  database.run(sqlite_schema());
  for (const Portion& portion : portions) {
    RowsOfPortion rows{&database, RowsOfPortion::Into::empty};
    portion.fill(rows);
    sums[portion.name] = rows.sum();
  }
  database.run("COMMIT;");
  return database;
}

// Only those tables filled whose rows are not those that are there.
Database renewed(const std::vector<Portion>& portions, std::string file, const PortionSums& known, PortionSums& sums) {
  Database database{file};
  file = {}; // as large as all of the database
  database.run("BEGIN;");
  for (const Portion& portion : portions) {
    RowsOfPortion summed{nullptr, RowsOfPortion::Into::nowhere};
    portion.fill(summed);
    sums[portion.name] = summed.sum();
    const auto before = known.find(portion.name);
    if (before != known.end() && before->second == summed.sum()) continue;
    RowsOfPortion rows{&database, RowsOfPortion::Into::filled};
    portion.fill(rows);
  }
  database.run("COMMIT;");
  return database;
}

} // namespace

KeptDatabase sqlite_file(const LinkedKb& kb, const Chronology& chronology, const SourceSet& sources,
                         const ExportGraph& days, const std::vector<VerdictRow>& verdicts, KeptDatabase before) {
  const std::vector<Portion> portions = portions_of(kb, chronology, sources, days, verdicts);
  const PortionSums known = read_portions(before);
  PortionSums sums;
  KeptDatabase made;
  made.file = (known.empty() ? fresh(portions, sums) : renewed(portions, std::move(before.file), known, sums)).packed();
  made.portions = text_of(made.file, sums);
  return made;
}

} // namespace coeval
