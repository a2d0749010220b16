#include "csv/read.hpp"

#include <memory>
#include <new>

#include <csv.h>
#include <fmt/format.h>

namespace coeval {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

bool ends_row(char c) { return c == '\n' || c == '\r'; }

// libcsv is fed one byte at a time, so that where it calls back tells where the cell ends.
class Reading {
public:
  Reading(std::string_view text, const std::function<void(const CsvRow&)>& take, const CsvLimits& limits)
      : text_(text), take_(take), limits_(limits) {
    if (csv_init(&parser_, CSV_STRICT | CSV_STRICT_FINI) != 0) throw std::bad_alloc{};
    csv_set_delim(&parser_, static_cast<unsigned char>(csv_separator(text)));
    csv_set_space_func(&parser_, [](unsigned char) { return 0; }); // blanks around a cell belong to it
  }
  Reading(const Reading&) = delete;
  Reading& operator=(const Reading&) = delete;
  ~Reading() { csv_free(&parser_); }

  std::optional<CsvFault> run() {
    at_ = text_.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
    begin_ = at_;
    for (; at_ < text_.size() && !fault_; ++at_) {
      const bool between = row_.cells.empty() && begin_ == at_; // of two rows
      if (csv_parse(&parser_, &text_[at_], 1, on_cell, on_row, this) != 1) return fault_ ? fault_ : refusal();
      if (between && ends_row(text_[at_])) {
        begin_ = at_ + 1;
        if (text_[at_] == '\r' || at_ == 0 || text_[at_ - 1] != '\r') ++number_; // a blank line
      }
      if (at_ >= begin_ + limits_.cell)
        fail(begin_, fmt::format("{}: a cell has more than {} bytes", place(), limits_.cell),
             "keep long texts in a file of their own");
    }
    if (!fault_ && csv_fini(&parser_, on_cell, on_row, this) != 0) return refusal();
    return fault_;
  }

private:
  static void on_cell(void*, std::size_t, void* self) { static_cast<Reading*>(self)->end_cell(); }
  static void on_row(int, void* self) { static_cast<Reading*>(self)->end_row(); }

  void end_cell() {
    if (fault_) return;
    const std::size_t column = row_.cells.size();
    if (column == limits_.columns)
      return fail(begin_, fmt::format("row {}: there are more than {} columns", number_, limits_.columns),
                  "take out the columns that are empty");
    if (!head_.empty() && column == head_.size())
      return fail(begin_, fmt::format("row {}: there are more cells than the {} that the head names", number_, column),
                  "put cells that hold the separator, a quote or a line break in quotes, or take the last one out");
    row_.cells.push_back(cell());
    begin_ = at_ + 1;
  }

  void end_row() {
    if (fault_) return;
    row_.number = number_++;
    if (rows_++ == limits_.rows)
      return fail(row_.cells.front().begin, fmt::format("there are more than {} rows", limits_.rows),
                  "part the table in two");
    if (head_.empty())
      for (const CsvCell& name : row_.cells) head_.push_back(name.text);
    take_(row_);
    row_.cells.clear();
  }

  CsvCell cell() const {
    std::string_view written = text_.substr(begin_, at_ - begin_);
    CsvCell cell{.text = {},
                 .given = false,
                 .begin = static_cast<std::uint32_t>(begin_),
                 .end = static_cast<std::uint32_t>(at_)};
    const bool quoted = written.starts_with('"');
    if (quoted) written = written.substr(1, written.size() - 2);
    cell.given = !written.empty();
    if (written.starts_with('\'')) written.remove_prefix(1);
    for (std::size_t i = 0; i < written.size(); ++i) {
      cell.text += written[i];
      if (quoted && written[i] == '"') ++i; // the second of two
    }
    return cell;
  }

  std::string place() const { return csv_place(number_, row_.cells.size(), head_); }

  void fail(std::size_t begin, std::string message, std::string help) {
    fault_ = CsvFault{static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(at_), std::move(message),
                      std::move(help)};
  }

  // What libcsv refused, seen from the cell that it stood in.
  CsvFault refusal() {
    if (csv_error(&parser_) == CSV_ENOMEM) throw std::bad_alloc{};
    const bool quoted = text_.substr(begin_).starts_with('"');
    if (at_ == text_.size())
      fail(begin_, place() + ": a quote is opened and never closed", "close it at the end of the cell");
    else if (quoted)
      fail(begin_, place() + ": something stands behind the closing quote",
           "double the quotes within a cell: \"a \"\"small\"\" chip\"");
    else
      fail(begin_, place() + ": a quote stands in a cell without quotes",
           "put the cell in quotes and double the quotes within: \"a \"\"small\"\" chip\"");
    if (fault_->end < text_.size()) ++fault_->end;
    return *fault_;
  }

  std::string_view text_;
  const std::function<void(const CsvRow&)>& take_;
  CsvLimits limits_;
  csv_parser parser_{};
  std::size_t at_ = 0;    // the byte that the parser is at
  std::size_t begin_ = 0; // of the cell that it is in
  std::uint32_t number_ = 1;
  std::size_t rows_ = 0;
  CsvRow row_;
  std::vector<std::string> head_;
  std::optional<CsvFault> fault_;
};

} // namespace

std::optional<CsvFault> read_csv(std::string_view text, const std::function<void(const CsvRow&)>& take,
                                 const CsvLimits& limits) {
  return Reading{text, take, limits}.run();
}

char csv_separator(std::string_view text) {
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  while (!text.empty() && ends_row(text.front())) text.remove_prefix(1);
  bool quoted = false;
  for (const char c : text) {
    if (c == '"') quoted = !quoted;
    if (quoted) continue;
    if (c == ',' || c == ';' || c == '\t') return c;
    if (ends_row(c)) break;
  }
  return ',';
}

std::string csv_place(std::uint32_t row, std::size_t column, const std::vector<std::string>& head) {
  return column < head.size() && !head[column].empty() ? fmt::format("row {}, column `{}`", row, head[column])
                                                       : fmt::format("row {}, column {}", row, column + 1);
}

} // namespace coeval
