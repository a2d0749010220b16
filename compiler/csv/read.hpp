// csv/read.hpp: what stands in which cell of a table that is written as CSV?
//
// RFC 4180, strictly: UTF-8 with or without byte order mark; the head row tells whether `,`, `;` or a tab parts cells;
// rows end in CRLF, LF or CR; quotes within quotes are doubled. Blank lines are no rows, but count, as they do in a
// spreadsheet. A row may have fewer cells than the head, never more. The apostrophe of csv/write.hpp is undone.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace coeval {

struct CsvCell {
  std::string text;
  bool given = false;      // something is written in it, be it the apostrophe that guards an empty text
  std::uint32_t begin = 0; // its bytes in the table, quotes included
  std::uint32_t end = 0;
};

struct CsvRow {
  std::uint32_t number = 0; // the head row is 1
  std::vector<CsvCell> cells;
};

// Far above any shelf, and enough to keep a hostile table from filling the memory.
struct CsvLimits {
  std::size_t rows = 1'000'000;
  std::size_t columns = 1'000;
  std::size_t cell = std::size_t{1} << 20; // bytes
};

// Why reading stopped. Texts for people, with row and column; what they quote of the table is not made printable.
struct CsvFault {
  std::uint32_t begin = 0; // bytes of the table
  std::uint32_t end = 0;
  std::string message;
  std::string help;
};

// Hands every row to `take`, the head first. Rows before a fault have been handed over. `text` is valid UTF-8 of fewer
// than 2^32 bytes.
[[nodiscard]] std::optional<CsvFault> read_csv(std::string_view text, const std::function<void(const CsvRow&)>& take,
                                               const CsvLimits& limits = {});

// The first of `,`, `;` and the tab that stands in the head row outside quotes; a comma where none does.
[[nodiscard]] char csv_separator(std::string_view text);

// "row 5, column `price`"; the column's number where the head does not name it. `column` counts from 0.
[[nodiscard]] std::string csv_place(std::uint32_t row, std::size_t column, const std::vector<std::string>& head);

} // namespace coeval
