// calendar/edtf_date.hpp: what does one date say, whether alone, at an end of an interval or inside a set?
#pragma once

#include <optional>

#include "calendar/edtf.hpp"
#include "calendar/edtf_cursor.hpp"

namespace coeval {

struct OneDate {
  DateBounds bounds;
  int level = 0;
  bool unspecified = false; // has a digit X
  bool timed = false;       // has a time of day
};

// Reads the longest date at the cursor and stops behind it; what must follow is the caller's business.
[[nodiscard]] std::optional<OneDate> read_date(Cursor& cursor);

// The days of a year's part 21..41 of the specification (https://www.loc.gov/standards/datetime/, level 2, sub-year
// groupings). Quarters, quadrimesters and semestrals are exact. The specification gives seasons no months, so the
// widest customary reading is used, to promise nothing that may be false:
//   - from the first day of the season's three whole months to the last day that an equinox or a solstice can end it
//   on:
//     spring 1 March - 22 June, summer 1 June - 24 September, autumn 1 September - 23 December in the north;
//   - a season over the turn of the year is named after either year: winter 1979 in the north is any day from 1
//   December
//     1978 to 21 March 1980;
//   - 21-24, "independent of location", are read as northern, as 25-28 are; 29-32 are southern.
// `code` is 21..41.
[[nodiscard]] Day first_day_of_part(std::int64_t year, int code);
[[nodiscard]] Day last_day_of_part(std::int64_t year, int code);

} // namespace coeval
