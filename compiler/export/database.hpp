// export/database.hpp: how is a database built in memory and turned into the bytes of a file?
//
// Private to this room. What SQLite refuses here is a mistake of ours, or memory that is not there: it throws
// std::runtime_error with SQLite's words.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "publish/hash.hpp"

struct sqlite3;
struct sqlite3_stmt;

namespace coeval {

// Of the library.
[[nodiscard]] std::string sqlite_version();

class Database {
public:
  // Empty, or the one whose file these bytes are.
  explicit Database(std::string_view file = {});
  void run(const std::string& sql);
  // The file, up to 2 GB: every table and index packed anew, in the order of the schema. Its bytes follow from the
  // schema, the rows and the version of SQLite, whatever was done to get there. (Of a full-text index, that holds where
  // it was filled in one go.)
  [[nodiscard]] std::string packed() &&;

private:
  friend class Insertion;
  struct Closer {
    void operator()(sqlite3* database) const;
  };
  std::unique_ptr<sqlite3, Closer> database_;
  std::optional<std::int64_t> schema_version_; // of the file that it was opened from
};

// The hash of rows in their order, with the tables that they go into.
class RowSum {
public:
  void add(std::string_view bytes);
  [[nodiscard]] ContentHash hash() const;

private:
  ContentHash folded_; // of what came before
  std::string waiting_;
};

// One row after the other into a table: values in the order of its columns. Without a database, rows are only summed.
class Insertion {
public:
  Insertion(const Database* database, RowSum& sum, std::string_view table, int columns);

  Insertion& text(std::string_view value);
  Insertion& text_or_null(std::string_view value); // null where it is empty
  Insertion& integer(std::int64_t value);
  Insertion& real(double value);
  Insertion& null();
  Insertion& real_or_null(const double* value) { return value == nullptr ? null() : real(*value); }
  template <class Value> Insertion& integer_or_null(const std::optional<Value>& value) {
    return value ? integer(static_cast<std::int64_t>(*value)) : null();
  }
  void row(); // every column has its value: in it goes

private:
  enum class Holds : char { text, integer, real, null };
  // As it lies in the bytes of the row.
  struct Cell {
    Holds holds;
    std::size_t begin;
    std::size_t size;
  };
  void add(Holds holds, std::string_view bytes);
  void bind(int column, const Cell& cell);
  void check(int result) const;
  struct Finisher {
    void operator()(sqlite3_stmt* statement) const;
  };
  sqlite3* database_;
  std::unique_ptr<sqlite3_stmt, Finisher> statement_;
  RowSum* sum_;
  std::string table_;
  std::size_t columns_;
  std::string bytes_; // of the row
  std::vector<Cell> cells_;
};

} // namespace coeval
