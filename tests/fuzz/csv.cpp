// Can any bytes make the reader of tables crash, lose a byte of a cell or tell a wrong place?
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>
#include <vector>

#include "csv/read.hpp"
#include "csv/write.hpp"

using namespace coeval;

namespace {

void must(bool holds, const char* what) {
  if (holds) return;
  std::fprintf(stderr, "does not hold: %s\n", what);
  std::abort();
}

using Rows = std::vector<std::vector<std::string>>;

Rows rows_of(std::string_view text, bool& whole) {
  Rows rows;
  std::uint32_t last_number = 0;
  std::uint32_t last_end = 0;
  const auto fault = read_csv(text, [&](const CsvRow& row) {
    must(row.number > last_number, "rows are counted upwards");
    last_number = row.number;
    must(!row.cells.empty(), "a row has a cell");
    rows.emplace_back();
    for (const CsvCell& cell : row.cells) {
      must(cell.begin <= cell.end && cell.end <= text.size(), "a cell lies in the table");
      must(cell.begin >= last_end, "cells follow each other");
      must(cell.given || cell.text.empty(), "what is not given says nothing");
      must(cell.text.size() <= cell.end - cell.begin, "a cell holds no more than its bytes");
      last_end = cell.end;
      rows.back().push_back(cell.text);
    }
    must(row.cells.size() <= rows.front().size(), "no row is longer than the head");
  });
  whole = !fault;
  if (fault) {
    must(fault->begin <= fault->end && fault->end <= text.size(), "a fault lies in the table");
    must(!fault->message.empty() && !fault->help.empty(), "a fault says what is wrong and what to do");
  }
  return rows;
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  bool whole = false;
  const Rows rows = rows_of({reinterpret_cast<const char*>(data), size}, whole);
  if (!whole) return 0;
  // Written again, all that was read is there; a row of one empty cell is a blank line, and no row.
  std::string again;
  Rows kept;
  for (const std::vector<std::string>& row : rows) {
    if (row.size() == 1 && row.front().empty()) continue;
    if (kept.empty() && row.size() == 1) return 0; // its separator is not told
    kept.push_back(row);
    again += csv_row(row);
  }
  if (!kept.empty() && kept.front().size() < rows.front().size()) return 0;
  if (again.starts_with("\xEF\xBB\xBF")) return 0; // a mark that was no byte order mark would now be one
  if (csv_separator(again) != ',') return 0;       // the head's own cells hold another before the first comma
  must(rows_of(again, whole) == kept && whole, "what is written is read back");
  return 0;
}
