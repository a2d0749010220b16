// links/addresses.hpp: which entry has which address, and which entry does a written address mean?
//
// Private to this room.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "diagnose/diagnostic.hpp"
#include "links/kb.hpp"

namespace coeval {

// Gives every entry its address in `kb` and reports ids that are used twice, both places shown. The first keeps the
// address.
void name_entries(LinkedKb& kb, Diagnostics& out);

// An address where it is written.
struct WrittenAddress {
  std::string_view text;
  std::string_view tail; // what else stands at its place, such as ".start", and must survive a repair
  Span place;
  EntryIndex entry{}; // in which it is written
};

// One that does not lead to an entry of the kinds wanted there.
struct Unresolved {
  WrittenAddress address;
  std::vector<Kind> kinds;
  std::optional<EntryIndex> wrong; // what it does name, of another kind
};

// What is wrong with the references of some entries. All that is told of the unresolved ones depends on how many there
// are, so that is done for all entries in their order, in the end.
struct LinkTroubles {
  Diagnostics out;
  std::vector<Unresolved> unresolved;
  std::vector<const Word*> unknown_sources; // citations
};

// Resolves addresses written in entries, once all entries have theirs. One for each thread: it keeps room for texts.
class AddressReader {
public:
  explicit AddressReader(const LinkedKb& kb);

  // The entry of one of `kinds` that is meant; nothing where that is now among the troubles. What it views must outlive
  // those.
  [[nodiscard]] std::optional<EntryIndex> resolve(const WrittenAddress& written, std::span<const Kind> kinds,
                                                  LinkTroubles& troubles);
  // The entry of the address `family`/`id`.
  [[nodiscard]] std::optional<EntryIndex> find(std::string_view family, std::string_view id);

private:
  // Can an entry of one of the kinds stand below one of the kind `family`?
  [[nodiscard]] bool may_hold(Kind family, std::span<const Kind> kinds) const;

  const LinkedKb& kb_;
  std::string address_;                                 // the one that is looked for
  std::array<std::uint64_t, kind_count> families_of_{}; // of each kind a bit for every kind that it can stand below
};

// Reports troubles, with what was perhaps meant.
class TroubleReporter {
public:
  // `complete` says that every file was read; where not, an unknown address may stand in one that was not.
  TroubleReporter(const LinkedKb& kb, bool complete, Diagnostics& out) : kb_(kb), complete_(complete), out_(out) {}

  void report(LinkTroubles troubles);

private:
  void report_unresolved(const Unresolved& unresolved);
  void report_unknown_source(const Word& citation);
  // May so many names be compared with one that was not found, to say what was perhaps meant? Thousands of mistakes in
  // a large knowledge base would otherwise each go through all of it: past a few million comparisons none is proposed.
  [[nodiscard]] bool may_compare(std::size_t names);
  // Every way in which an entry of the right kind could have been written there.
  [[nodiscard]] std::vector<std::string> ways_of(const Unresolved& unresolved);

  const LinkedKb& kb_;
  bool complete_;
  Diagnostics& out_;
  std::size_t compared_ = 0;
  std::vector<EntryIndex> in_order_; // all entries with an address; filled when first asked for
};

} // namespace coeval
