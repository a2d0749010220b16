// links/readings.hpp: what does a mark read where it is carried, and can it read that?
//
// Some marks date their carrier by what they read: the year of a copyright notice, the number of a patent. They are
// written ID=READING; all others by their id alone.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "diagnose/catalogue.hpp"
#include "links/kb.hpp"

namespace coeval {

// "us-patent=3,858,241" in its two parts; without an equals sign there is no reading.
struct WrittenMark {
  std::string_view mark;
  std::optional<std::string_view> reading;
};
[[nodiscard]] WrittenMark split_mark(std::string_view written);

// A year has four digits. A number has at most 15, in groups of three where commas part them.
[[nodiscard]] std::optional<std::int64_t> parse_reading(ReadingKind kind, std::string_view written);

// "1977" or "3,858,241".
[[nodiscard]] std::string reading_text(ReadingKind kind, std::int64_t reading);

struct ReadingTrouble {
  Code code{};
  std::string message;
  std::string repair;
};

// One of the two, or neither for a mark that is not read.
struct MarkReading {
  std::optional<std::int64_t> reading;
  std::optional<ReadingTrouble> trouble;
};
[[nodiscard]] MarkReading read_mark(const LinkedKb& kb, MarkIndex mark, std::optional<std::string_view> written);

// The rows about a number: the last that starts at it or below, and the one after that. Either may be missing: nothing
// is known of numbers below the first row, and numbers of the last row are still being given out.
struct RowsAround {
  const NumberRow* row = nullptr;
  const NumberRow* next = nullptr;
};
[[nodiscard]] RowsAround rows_around(const Mark& mark, std::int64_t number);

} // namespace coeval
