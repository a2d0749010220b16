// links/kb.hpp: what does the knowledge base say, with every address resolved?
//
// The LinkedKb is frozen once built. Each list holds one kind of entry in the order of the entries; every reference is
// an index into such a list. What could not be resolved is reported and absent. Everything that lasts from a start to
// an end (period, card, mould, run, issue, route, mark) is also a TimeSpan, so that the chronology need not tell kinds
// apart.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "diagnose/reason.hpp"
#include "entries/entry.hpp"
#include "links/address_table.hpp"

namespace coeval {

enum class LineIndex : std::uint32_t {};
enum class FigureIndex : std::uint32_t {};
enum class IssueIndex : std::uint32_t {};
enum class AccessoryIndex : std::uint32_t {};
enum class MouldIndex : std::uint32_t {};
enum class RunIndex : std::uint32_t {};
enum class CardIndex : std::uint32_t {};
enum class PlantIndex : std::uint32_t {};
enum class RouteIndex : std::uint32_t {};
enum class MarkIndex : std::uint32_t {};
enum class SourceIndex : std::uint32_t {};
enum class ClaimIndex : std::uint32_t {};
enum class FeatureIndex : std::uint32_t {};
enum class ReproIndex : std::uint32_t {};
enum class TimeSpanIndex : std::uint32_t {};
enum class PairingIndex : std::uint32_t {}; // pairings and timings are entries without an address

template <class Index> [[nodiscard]] constexpr std::size_t at(Index index) { return static_cast<std::size_t>(index); }

// How strong a statement is and where it comes from.
struct Evidence {
  const Words* cited = nullptr; // in the entries, which keep the one copy of these texts; null where nothing is cited
  Span place;
  Basis basis = Basis::conjectured;
  bool disputed = false;

  [[nodiscard]] std::span<const Word> citations() const; // as written
  [[nodiscard]] std::vector<std::string> citation_texts() const;
};

enum class SpanEnd : std::uint8_t { start, end };

struct SpanPoint {
  TimeSpanIndex span{};
  SpanEnd end{};
};

// A mark on what carries it.
struct CarriedMark {
  MarkIndex mark{};
  std::optional<std::int64_t> reading; // the year or the number, where the mark is one that is read
  Span place;
};

struct TimeSpan {
  Kind kind{};
  EntryIndex entry{};
  std::string_view address;      // in `addresses`
  std::optional<LineIndex> line; // whose policies its dates follow
  const WrittenDates* dates = nullptr;
  Evidence evidence;
  std::optional<TimeSpanIndex> replaces;
  bool clean = false;
  Span replaces_place;
  std::vector<std::pair<TimeSpanIndex, Span>> within;
  std::vector<CarriedMark> marks;
};

// The thirteen interval relations in the order of the schema's choices.
enum class Relation : std::uint8_t {
  before,
  meets,
  overlaps,
  finished_by,
  contains,
  starts,
  equals,
  started_by,
  during,
  finishes,
  overlapped_by,
  met_by,
  after
};
[[nodiscard]] std::optional<Relation> find_relation(std::string_view name);
[[nodiscard]] std::string_view name(Relation relation);

enum class Order : std::uint8_t { relation, after, before, same_day, on };

struct Timing {
  TimeSpanIndex of{};
  Order order{};
  Relation relation{};  // for Order::relation
  TimeSpanIndex span{}; // for Order::relation
  SpanEnd end{};        // for the others: the end of `of` that is dated
  SpanPoint other{};    // for after, before, same_day
  const WrittenDate* on = nullptr;
  std::optional<Duration> at_least;
  std::optional<Duration> at_most;
  Evidence evidence;
  EntryIndex entry{}; // its table
};

struct Leftover {
  Duration at_most;
  Evidence evidence;
};

struct Allowance {
  Duration day{0, 0, 7};
  Duration month{0, 1, 0};
  Duration season{0, 3, 0};
  Duration year{1, 0, 0};
  Duration decade{10, 0, 0};
};

struct Line {
  EntryIndex entry{};
  std::string id;
  std::vector<std::string> slots;
  std::optional<Leftover> leftover;
  Allowance allowance;
};

struct Figure {
  EntryIndex entry{};
  std::string id;
  std::string name;
  std::optional<LineIndex> line;
  std::vector<IssueIndex> issues;
};

struct Takes {
  AccessoryIndex accessory{};
  std::string slot;
  Evidence evidence;
};

struct Issue {
  EntryIndex entry{};
  std::string_view address; // in `addresses`
  FigureIndex figure{};
  TimeSpanIndex span{};
  std::optional<PlantIndex> packer;
  std::vector<CardIndex> cards;
  std::optional<IssueIndex> reissue_of;
  bool bare = false;
  std::vector<Takes> takes;
  std::optional<Leftover> leftover; // its own, else its line's
};

struct Pairing {
  EntryIndex entry{};
  RunIndex run{};
  IssueIndex issue{};
  std::optional<CardIndex> card;
  bool refuted = false;
  Evidence evidence;
};

struct Accessory {
  EntryIndex entry{};
  std::string id;
  std::string name;
  std::string slot;
  std::optional<LineIndex> line;
  std::vector<MouldIndex> moulds;
  std::vector<ReproIndex> repros;
};

struct Mould {
  EntryIndex entry{};
  std::string_view address; // in `addresses`
  AccessoryIndex accessory{};
  TimeSpanIndex span{};
  std::vector<RunIndex> runs;
};

struct Exclusive {
  EntryIndex entry{};
  std::vector<IssueIndex> to;
  Evidence evidence;
};

struct Run {
  EntryIndex entry{};
  std::string_view address; // in `addresses`
  MouldIndex mould{};
  AccessoryIndex accessory{};
  TimeSpanIndex span{};
  std::optional<PlantIndex> plant;
  std::vector<Exclusive> exclusives;
  std::vector<PairingIndex> pairings;                              // of it, in their order
  std::vector<std::pair<ClaimIndex, IssueIndex>> claimed_pairings; // that claims state of it, in their order
};

struct Card {
  EntryIndex entry{};
  TimeSpanIndex span{};
};

struct Plant {
  EntryIndex entry{};
  std::string id;
  std::string name;
  bool routes_complete = false;
  std::vector<RouteIndex> routes_in; // that end here, in their order
  Evidence evidence;
};

struct Route {
  EntryIndex entry{};
  std::string id;
  PlantIndex from{};
  PlantIndex to{};
  std::vector<AccessoryIndex> carries; // empty: all
  TimeSpanIndex span{};
  Evidence evidence;
};

// What a mark reads that is given with a reading. In the order of the schema's choices.
enum class ReadingKind : std::uint8_t { year, number };
[[nodiscard]] std::string_view name(ReadingKind kind);

// Of a mark that reads a number: `from` was the first number given out on a day of `on`.
struct NumberRow {
  EntryIndex entry{};
  std::int64_t from = 0;
  const WrittenDate* on = nullptr;
  Evidence evidence;
};

struct Mark {
  EntryIndex entry{};
  TimeSpanIndex span{};
  bool end_binds = false;
  std::optional<ReadingKind> reading; // none: it is there or it is not
  std::vector<NumberRow> numbers;     // rising
};

struct Source {
  EntryIndex entry{};
  std::string id;
  bool used = false; // some citation names it
};

// In the order of the schema's choices.
enum class FeatureKind : std::uint8_t { choice, present, count, measure, colour, text };
enum class Tool : std::uint8_t {
  eye,
  lens,
  calliper,
  scale,
  colour_card,
  finger,
  ear,
  light,
  float_glass,
  needle,
  solvent
};
enum class LookBy : std::uint8_t { in_hand, photograph, measurement };
[[nodiscard]] std::string_view name(FeatureKind kind);
[[nodiscard]] std::string_view name(Tool tool);
[[nodiscard]] std::string_view name(LookBy by);

struct Feature {
  EntryIndex entry{};
  std::string id;
  std::string name;
  FeatureKind kind{};
  std::vector<std::string> values; // of a choice; empty: any word
  std::string unit;                // of a measure
  Tool tool = Tool::eye;
  LookBy by = LookBy::in_hand;
  double effort = 1; // minutes
  bool destructive = false;
  std::optional<double> tolerance; // of values that give none: in the unit, or as CIEDE2000 difference
};

// A reproduction. What it does not state itself is as in what it copies.
struct Repro {
  EntryIndex entry{};
  std::string_view address; // in `addresses`
  AccessoryIndex accessory{};
  std::optional<RunIndex> of_run;     // what it copies: a run,
  std::optional<MouldIndex> of_mould; // or a mould whatever the run; where it is a run, that run's mould
  std::optional<EntryIndex> donor;
};

// Said to be alike: no look tells the one from the other, and the curator knows it.
struct Alike {
  EntryIndex entry{}; // a mould, run or reproduction
  EntryIndex other{};
  Span place;
};

enum class ClaimStanding : std::uint8_t { supported, open, refuted };

struct ClaimedPairing {
  EntryIndex entry{};
  RunIndex run{};
  IssueIndex issue{};
  std::optional<CardIndex> card;
};

struct Claim {
  EntryIndex entry{};
  std::string id;
  ClaimStanding standing{};
  std::vector<ClaimedPairing> pairings;
  std::vector<Timing> timings;
};

// What backs the statements of an entry. A run, an outfit's accessory or a mark's number that gives neither basis nor
// source has its parent's. `entries` must outlive it; they may be moved.
[[nodiscard]] Evidence evidence_of(const EntrySet& entries, EntryIndex entry);

struct LinkedKb {
  LinkedKb() = default;
  LinkedKb(LinkedKb&&) = default; // moved, never copied: dates and citations point into the entries
  LinkedKb& operator=(LinkedKb&&) = default;

  EntrySet entries;
  AddressTable addresses;
  std::vector<std::uint32_t> position; // of each entry in the list of its kind below

  std::vector<Line> lines;
  std::vector<Figure> figures;
  std::vector<Issue> issues;
  std::vector<Accessory> accessories;
  std::vector<Mould> moulds;
  std::vector<Run> runs;
  std::vector<Card> cards;
  std::vector<Plant> plants;
  std::vector<Route> routes;
  std::vector<Mark> marks;
  std::vector<Source> sources;
  std::vector<Claim> claims;
  std::vector<Feature> features;
  std::vector<Repro> repros;
  std::vector<Alike> alike;
  std::vector<Pairing> pairings;
  std::vector<EntryIndex> colours; // [colour] tables, by the entry that they stand in
  std::vector<TimeSpan> spans;
  std::vector<Timing> timings;

  // Empty where it has none.
  [[nodiscard]] std::string_view address(EntryIndex entry) const { return addresses[entry]; }
  [[nodiscard]] std::optional<FeatureIndex> find_feature(std::string_view id) const;
  // The [colour] table that stands in the entry; nothing where it has none.
  [[nodiscard]] const Entry* colour_of(EntryIndex entry) const;
  [[nodiscard]] const Leftover* leftover_of(IssueIndex issue) const;
  [[nodiscard]] const Allowance& allowance_of(const TimeSpan& span) const;
};

} // namespace coeval
