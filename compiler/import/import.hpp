// import/import.hpp: which TOML files say what a JSON export says?
//
// The reverse of export/kb_json.hpp. What was entered is written as TOML; what follows from it (evidence, days) and
// where it stood is passed over, for compiling the files gives that anew. A figure and an accessory have a file each,
// with all that belongs to them; other kinds share one: sources.toml. Only the shape of the JSON is looked at here:
// whether a date is a date, and whether an address leads somewhere, is for the compiler to say about the files, and
// `told_of_json` puts that in terms of the JSON.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "diagnose/diagnostic.hpp"
#include "source/text.hpp"

namespace coeval {

inline constexpr std::size_t most_import_bytes = std::size_t{256} << 20;

struct Imported {
  SourceSet sources; // the files, sorted by path; as assets the pictures that they name, which are not in the JSON

  // From which byte of which file on, what is written comes from which value of the JSON. Sorted.
  struct Origin {
    FileIndex file{};
    std::uint32_t begin = 0;
    std::string pointer; // RFC 6901
  };
  std::vector<Origin> origins;
  std::set<std::string> refused; // the pointers of entries of which a field was refused, and left out
  std::string name;              // of the JSON file, for reports
};

// Reports every value whose shape is not that of an export, each with its JSON pointer; the others are written all the
// same, so that what the compiler says about them can be reported too.
[[nodiscard]] Imported import_json(std::string_view json, std::string name, Diagnostics& out);

// What the compiler says about the files, as said about the JSON: `kb.json#/entries/3/fields/packed`.
[[nodiscard]] std::vector<Diagnostic> told_of_json(const Imported& imported, const std::vector<Diagnostic>& list);

} // namespace coeval
