#include "csv/write.hpp"

#include <algorithm>

namespace coeval {
namespace {

// "-1.5": digits, perhaps with a sign before and a fraction after.
bool is_number(std::string_view text) {
  if (text.starts_with('-') || text.starts_with('+')) text.remove_prefix(1);
  const auto digits = [&] {
    const std::size_t end = std::min(text.find_first_not_of("0123456789"), text.size());
    text.remove_prefix(end);
    return end > 0;
  };
  if (!digits()) return false;
  if (!text.starts_with('.')) return text.empty();
  text.remove_prefix(1);
  return digits() && text.empty();
}

bool needs_apostrophe(std::string_view text) {
  return !text.empty() && std::string_view{"=+-@\t\r'"}.find(text.front()) != std::string_view::npos &&
         !is_number(text);
}

} // namespace

void add_csv_cell(std::string& row, std::string_view text, char separator, CsvGuard guard) {
  const bool quoted =
      std::ranges::any_of(text, [separator](char c) { return c == '"' || c == '\r' || c == '\n' || c == separator; });
  if (quoted) row += '"';
  if (guard == CsvGuard::always || needs_apostrophe(text)) row += '\'';
  if (!quoted) {
    row += text;
    return;
  }
  for (const char c : text) {
    if (c == '"') row += '"';
    row += c;
  }
  row += '"';
}

std::string csv_cell(std::string_view text, char separator, CsvGuard guard) {
  std::string cell;
  add_csv_cell(cell, text, separator, guard);
  return cell;
}

std::string csv_row(const std::vector<std::string>& cells) {
  std::string row;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) row += ',';
    add_csv_cell(row, cells[i]);
  }
  return row + "\r\n";
}

} // namespace coeval
