#include <algorithm>

#include "csv/read.hpp"
#include "shelf/edited_text.hpp"
#include "shelf/splices.hpp"

namespace coeval {
namespace {

class CsvEdit {
public:
  explicit CsvEdit(std::string_view text) : splices_(text), separator_(csv_separator(text)) {
    // It has been read before, without a fault.
    (void)read_csv(text, [&](const CsvRow& row) {
      if (rows_.empty())
        for (const CsvCell& cell : row.cells) head_.push_back(cell.text);
      std::vector<Bytes> cells;
      for (const CsvCell& cell : row.cells) {
        row_at_.emplace(cell.begin, rows_.size());
        cells.push_back({cell.begin, cell.end});
      }
      rows_.push_back(std::move(cells));
    });
    named_ = head_.size();
  }

  void change(const Entry& entry, const KeySpec& key, const std::optional<std::string>& value) {
    changes_[row_at_.at(entry.place.begin)][column_of(key.name)] = value ? csv_cell_of(key, *value, separator_) : "";
  }

  std::string apply() {
    if (head_.size() > named_) {
      for (std::size_t column = named_; column < head_.size(); ++column) changes_[0][column] = head_[column];
      for (std::size_t row = 1; row < rows_.size(); ++row) // rows as long as the head stay so
        if (rows_[row].size() == named_) changes_[row].try_emplace(head_.size() - 1, "");
    }
    for (const auto& [row, cells] : changes_) change_row(rows_[row], cells);
    return splices_.apply();
  }

private:
  struct Bytes {
    std::uint32_t begin;
    std::uint32_t end;
  };
  using Cells = std::map<std::size_t, std::string>; // by column

  std::size_t column_of(std::string_view name) {
    const auto column = static_cast<std::size_t>(std::ranges::find(head_, name) - head_.begin());
    if (column == head_.size()) head_.emplace_back(name);
    return column;
  }

  void change_row(const std::vector<Bytes>& row, const Cells& cells) {
    std::string behind; // what the row has no cell for yet
    std::size_t length = row.size();
    for (const auto& [column, cell] : cells) {
      if (column < row.size()) {
        splices_.replace(row[column].begin, row[column].end, cell);
      } else {
        behind += std::string(column + 1 - length, separator_) + cell;
        length = column + 1;
      }
    }
    if (!behind.empty()) splices_.replace(row.back().end, row.back().end, behind);
  }

  Splices splices_;
  char separator_;
  std::vector<std::string> head_; // with the columns that are added
  std::size_t named_ = 0;         // without them
  std::vector<std::vector<Bytes>> rows_;
  std::map<std::uint32_t, std::size_t> row_at_; // by the first byte of a cell
  std::map<std::size_t, Cells> changes_;        // by row
};

} // namespace

std::string edited_csv(std::string_view text, const EntrySet& entries, const NewValues& values) {
  CsvEdit edit{text};
  for (const auto& [place, value] : values) edit.change(entries.entries[place.first], *place.second, value);
  return edit.apply();
}

} // namespace coeval
