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

std::string csv_cell(std::string_view text, char separator, CsvGuard guard) {
  std::string cell = guard == CsvGuard::always || needs_apostrophe(text) ? "'" : "";
  cell += text;
  if (cell.find_first_of(std::string{"\"\r\n"} + separator) == std::string::npos) return cell;
  std::string quoted = "\"";
  for (const char c : cell) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + "\"";
}

std::string csv_row(const std::vector<std::string>& cells) {
  std::string row;
  for (std::size_t i = 0; i < cells.size(); ++i) row += (i > 0 ? "," : "") + csv_cell(cells[i]);
  return row + "\r\n";
}

} // namespace coeval
