// links/addresses.hpp: which entry has which address, and which entry does a written address mean?
//
// Private to this room.
#pragma once

#include <unordered_map>

#include "diagnose/diagnostic.hpp"
#include "links/kb.hpp"

namespace coeval {

// Gives every entry its address in `kb` and reports ids that are used twice, both places shown. The first keeps the
// address.
void name_entries(LinkedKb& kb, Diagnostics& out);

// Resolves addresses written in entries.
class AddressReader {
public:
  AddressReader(const LinkedKb& kb, bool complete, Diagnostics& out) : kb_(kb), complete_(complete), out_(out) {}

  // The entry of one of `kinds` that `word` means where it is written in `entry`; nothing where it was reported. `tail`
  // is what else stands at the word's place, such as ".start", and must survive a repair.
  [[nodiscard]] std::optional<EntryIndex> resolve(const Word& word, EntryIndex entry, std::span<const Kind> kinds,
                                                  std::string_view tail = {});

  // The entry of exactly this address. Call it only once all entries have theirs.
  [[nodiscard]] std::optional<EntryIndex> find(std::string_view address);
  // May so many names be compared with one that was not found, to say what was perhaps meant? Thousands of mistakes in
  // a large knowledge base would otherwise each go through all of it: past a few million comparisons none is proposed.
  [[nodiscard]] bool may_compare(std::size_t names);

private:
  void report_unknown(const Word& word, EntryIndex entry, std::span<const Kind> kinds, std::string_view tail,
                      std::optional<EntryIndex> wrong);

  const LinkedKb& kb_;
  bool complete_;
  Diagnostics& out_;
  std::unordered_map<std::string_view, EntryIndex> by_address_; // as in the knowledge base, found at once
  std::size_t compared_ = 0;
};

} // namespace coeval
