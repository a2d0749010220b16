// calendar/edtf.hpp: which days can an uncertain date mean?
//
// Extended Date/Time Format, Library of Congress, 4 February 2019 (https://www.loc.gov/standards/datetime/): levels 0,
// 1 and 2. A date becomes the set of days it can denote, kept as its hull (first and last possible day) with what
// qualifies it. Nothing is widened here: what "approximately" allows is the policy of a line, applied by the reader of
// the result.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "calendar/day.hpp"

namespace coeval {

// How fine a date is known; it decides how far `~` widens it. Unspecified digits make it coarser: 1985-04-XX is known
// to the month, 197X to the decade. Where `~` stands on a part of the date, it is the precision of that part:
// 2004~-06-11 is approximate by years.
enum class Precision : std::uint8_t { day, month, season, year, decade, century, coarser };

// One date, or one end of an interval. An absent bound is unbounded or unknown.
struct DateBounds {
  std::optional<Day> first; // no earlier than this
  std::optional<Day> last;  // no later than this
  Precision precision = Precision::day;
  bool approximate = false; // ~ or % anywhere in it
  bool uncertain = false;   // ? or % anywhere in it
  friend bool operator==(const DateBounds&, const DateBounds&) = default;
};

enum class EdtfShape : std::uint8_t {
  date,     // one day, month, season or year, with or without a time of day
  interval, // from one date to another
  one_of,   // [a, b..c]: one of these
  all_of,   // {a, b..c}: each of these
};

// How an end of an interval was written: "" is unknown, ".." is open.
enum class EndKind : std::uint8_t { dated, unknown, open };

struct Edtf {
  EdtfShape shape = EdtfShape::date;
  int level = 0; // the lowest conformance level that allows it
  // date: `start` and `end` are both that date. interval: its two ends. one_of, all_of: the earliest member and the
  // latest member (a member that is a range a..b counts as both its ends; "..a" makes start unbounded below, and open).
  // What is approximate or uncertain about any member of a set holds for both, at the coarsest precision so marked.
  DateBounds start;
  DateBounds end;
  EndKind start_kind = EndKind::dated;
  EndKind end_kind = EndKind::dated;

  // The hull: no day outside can be meant.
  [[nodiscard]] std::optional<Day> first() const;
  [[nodiscard]] std::optional<Day> last() const;
};

struct EdtfResult {
  std::optional<Edtf> value;
  std::string refusal;    // why not and, where it can be told, what would do; empty where there is a value
  std::size_t offset = 0; // byte in `text` where the trouble begins
};

// Never throws; any bytes may be given. Refuses years beyond `farthest_year`.
[[nodiscard]] EdtfResult parse_edtf(std::string_view text);

} // namespace coeval
