// csv/write.hpp: how is a table written as CSV?
//
// RFC 4180: UTF-8, a head row, CRLF after every row, quotes where a cell holds the separator, a quote or a line break.
//
// A spreadsheet would run a cell that begins with = + - @, a tab or a carriage return as a formula. Such a cell gets an
// apostrophe in front unless it is a number, and so does one that begins with an apostrophe, so that a reader can drop
// a leading apostrophe wherever there is one and has the cell as it was.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace coeval {

// Which cells get the apostrophe: those above, or this one whatever it holds (a text such as "007", which a spreadsheet
// would take for a number; an empty text, so that it is not taken for no text at all).
enum class CsvGuard : std::uint8_t { formulas, always };

// Appended to a row.
void add_csv_cell(std::string& row, std::string_view text, char separator = ',', CsvGuard guard = CsvGuard::formulas);
[[nodiscard]] std::string csv_cell(std::string_view text, char separator = ',', CsvGuard guard = CsvGuard::formulas);
// With CRLF at the end.
[[nodiscard]] std::string csv_row(const std::vector<std::string>& cells);

} // namespace coeval
