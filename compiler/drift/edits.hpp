// drift/edits.hpp: what did the curator change?
//
// Statements are told apart by what they are about and what they say, never by file or line. An entry with an address
// is the same entry in both versions where address and kind are the same; each of its keys is a statement of its own.
// An entry without one (a pairing, a timing, a stock policy …) is one statement as a whole: the same where it says the
// same in the same entry; of those left over, two about the same thing (the run of a pairing, the ends of a timing) are
// one that was edited. Order of tables, order within lists, layout and comments say nothing.
#pragma once

#include <string>
#include <vector>

#include "drift/version.hpp"

namespace coeval {

enum class EditKind : std::uint8_t { added, removed, edited };
[[nodiscard]] std::string_view name(EditKind kind);

// An entry, or one key of an entry that both versions have.
struct Edit {
  EditKind kind{};
  Kind table{};
  std::string address;          // of the entry, or of the nearest one around it that has one
  std::string key;              // empty: the entry as a whole
  EntryIndex before = no_entry; // in the old version
  EntryIndex after = no_entry;  // in the new one
  std::string was;              // as written in the old version; empty where it was not there
  std::string is;               // as written in the new version; empty where it is not there any more
  Span place;                   // in the new version; of what was removed, in the old one
  std::optional<Basis> basis;   // of the entry, in the same version; nothing where such entries have none
  std::vector<std::string> citations;
  bool bears = false; // verdicts, days or claims can depend on it
};
enum class EditIndex : std::uint32_t {};

// By address, then table, then key in the schema's order.
[[nodiscard]] std::vector<Edit> edits_between(const Version& before, const Version& after);

// Which entry of the old version is the same entry in the new one.
struct EntryMatches {
  std::vector<EntryIndex> new_of; // of each entry of the old version; `no_entry` where it is gone
  std::vector<EntryIndex> old_of; // of each entry of the new version; `no_entry` where it is new
};
[[nodiscard]] EntryMatches match_entries(const LinkedKb& before, const LinkedKb& after);

// What a field says, in one spelling: equal texts, equal meaning.
[[nodiscard]] std::string said(const Value& value);

} // namespace coeval
