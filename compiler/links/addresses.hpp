// links/addresses.hpp: which entry has which address, and which entry does a written address mean?
//
// Private to this room.
#pragma once

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

private:
  void report_unknown(const Word& word, EntryIndex entry, std::span<const Kind> kinds, std::string_view tail,
                      std::optional<EntryIndex> wrong);

  const LinkedKb& kb_;
  bool complete_;
  Diagnostics& out_;
};

} // namespace coeval
