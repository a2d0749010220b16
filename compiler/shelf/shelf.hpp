// shelf/shelf.hpp: what does one collector own, want and pay, with every address resolved?
//
// The LinkedShelf is to a shelf file what the LinkedKb is to a knowledge base: frozen once built, every reference an
// index. What could not be resolved is reported and absent. It is private to its owner: nothing here is ever published.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "diagnose/diagnostic.hpp"
#include "entries/entry.hpp"
#include "examine/examine.hpp"
#include "examine/observation.hpp"
#include "links/kb.hpp"
#include "money/landed.hpp"
#include "verdicts/marks.hpp"

namespace coeval {

enum class PieceIndex : std::uint32_t {};
enum class PartIndex : std::uint32_t {};
enum class PurchaseIndex : std::uint32_t {};

// What arrived, as against what was promised; of a piece or a part.
struct Received {
  std::optional<Condition> condition;
  Words disclosed;             // faults that the seller told of
  Words found;                 // faults found on arrival
  std::optional<Day> examined; // by its owner
  std::optional<PurchaseIndex> purchase;
  std::int64_t share = 1; // of the purchase, by weight
  std::vector<EntryIndex> certificates;
};

struct OwnedPiece {
  EntryIndex entry{};
  std::string id;
  std::optional<IssueIndex> issue;   // nothing: only the figure is known
  std::optional<FigureIndex> figure; // nothing: that could not be resolved
  std::int64_t priority = 1;         // 1..greatest_weight
  bool keep = false;                 // its parts stay with it
  std::optional<SeenColour> plastic;
  std::vector<PartIndex> parts; // that it wears, in the order of the file
  Received received;
};

// A run that a part cannot be of, and the mark on the part that says so.
struct RunRuledOut {
  RunIndex run{};
  MarkRuling ruling; // without proof
};

struct OwnedPart {
  EntryIndex entry{};
  std::string id;
  std::optional<PieceIndex> in; // nothing: loose
  std::string slot;             // where it is, or would be, worn; empty where not even the accessory is known
  std::optional<AccessoryIndex> accessory; // nothing: what is left of it could be several
  // Every run and reproduction that it can be by what is written, seen and dated; one where it is known, none where
  // what was seen rules out all. Reproductions of a run are not doubted where the run itself is written and nothing was
  // seen.
  std::vector<PartIdentity> could_be;
  std::vector<Observation> seen;
  std::vector<CarriedMark> marks;     // at most most_marks
  std::vector<RunRuledOut> ruled_out; // by those marks, and so in could_be no more
  Received received;
};

enum class ParcelState : std::uint8_t { offered, bid, won, paid, sent, arrived };
inline constexpr std::size_t parcel_state_count = 6;
[[nodiscard]] std::string_view name(ParcelState state);

// What a purchase is made of, in the order in which the ledger lists it.
enum class Outlay : std::uint8_t { price, fees, shipping, insurance, duty, tax };
inline constexpr std::size_t outlay_count = 6;
[[nodiscard]] std::string_view name(Outlay outlay);

struct Purchase {
  EntryIndex entry{};
  std::string id;
  std::string seller; // empty: not said
  std::string place;
  std::array<std::optional<Day>, parcel_state_count> days; // by ParcelState
  std::array<std::optional<Money>, outlay_count> outlays;  // by Outlay, each in its own currency
  std::vector<PieceIndex> pieces;                          // that came with it
  std::vector<PartIndex> parts;
  std::vector<EntryIndex> vouchers;

  // How far it has come: the last of the states that has a day; nothing where none has.
  [[nodiscard]] std::optional<ParcelState> state() const;
  // The day on which the ledger enters it: of payment, else of winning, else the first that is given after that.
  [[nodiscard]] std::optional<Day> entered() const;
  // Money is owed or gone: it is won or further, or has no day at all.
  [[nodiscard]] bool counts() const;
};

struct Want {
  EntryIndex entry{};
  std::string id;
  std::optional<IssueIndex> issue; // one of these four
  std::optional<FigureIndex> figure;
  std::optional<RunIndex> run;
  std::optional<AccessoryIndex> accessory;
  std::int64_t priority = 1;
  std::optional<Money> limit;
};

struct Quotation {
  EntryIndex entry{};
  ExchangeRate rate;
  Day on = 0;
  std::string source;
  Rounding rounding = Rounding::half_up;
};

struct Sale {
  EntryIndex entry{};
  Day on = 0;
  Money price;
  std::optional<IssueIndex> issue; // one of these four
  std::optional<FigureIndex> figure;
  std::optional<RunIndex> run;
  std::optional<AccessoryIndex> accessory;
  std::optional<Condition> condition;
  std::string complete; // sealed, complete, incomplete, bare; empty: not said
  std::string place;
  std::string source;
};

struct FeeTable {
  EntryIndex entry{};
  std::string id;
  std::string name;
  FeeSchedule schedule;       // without a fault
  std::int64_t increment = 1; // minor units
};

struct LinkedShelf {
  EntrySet entries;
  std::string name;
  std::optional<Currency> home;
  std::vector<OwnedPiece> pieces; // each list in the order of the file
  std::vector<OwnedPart> parts;
  std::vector<Purchase> purchases;
  std::vector<Want> wants;
  std::vector<Quotation> rates; // by day
  std::vector<Sale> sales;      // by day
  std::vector<FeeTable> fees;

  [[nodiscard]] const OwnedPiece& operator[](PieceIndex index) const { return pieces[at(index)]; }
  [[nodiscard]] const OwnedPart& operator[](PartIndex index) const { return parts[at(index)]; }
  [[nodiscard]] const Purchase& operator[](PurchaseIndex index) const { return purchases[at(index)]; }
  // The first word of a diagnostic or a table's row: "maren-1".
  [[nodiscard]] KeptText id(EntryIndex entry) const { return entries[entry].id; }
};

// Where a part of an accessory is worn where its `slot` is not written: where the issue of its piece takes it, else in
// the accessory's own slot.
[[nodiscard]] const std::string& unwritten_slot(const LinkedKb& kb, AccessoryIndex accessory,
                                                std::optional<IssueIndex> issue);

// `kb` must outlive the result. Reports ids that are used twice, addresses that lead nowhere (of the shelf and of the
// knowledge base), things that name nothing or two things that differ, slots worn twice, looks that cannot be read,
// parcels whose days run backwards and fees that cannot be charged.
[[nodiscard]] LinkedShelf link_shelf(EntrySet entries, const LinkedKb& kb, Diagnostics& out);

} // namespace coeval
