// unit/csv/reading.hpp: a reader of RFC 4180, and of the apostrophe that guards cells, written apart from the
// writer.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace reading {

inline std::vector<std::vector<std::string>> read_csv(std::string_view text) {
  std::vector<std::vector<std::string>> rows;
  std::vector<std::string> row;
  std::string cell;
  bool quoted = false;
  const auto end_cell = [&] {
    if (cell.starts_with('\'')) cell.erase(0, 1);
    row.push_back(std::move(cell));
    cell.clear();
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted && c == '"' && i + 1 < text.size() && text[i + 1] == '"') {
      cell += '"';
      ++i;
    } else if (c == '"') {
      quoted = !quoted;
    } else if (!quoted && c == ',') {
      end_cell();
    } else if (!quoted && text.substr(i).starts_with("\r\n")) {
      end_cell();
      rows.push_back(std::move(row));
      row.clear();
      ++i;
    } else {
      cell += c;
    }
  }
  return rows;
}

} // namespace reading
