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

struct sqlite3;
struct sqlite3_stmt;

namespace coeval {

class Database {
public:
  Database();
  void run(const std::string& sql);
  // The file. Its bytes follow from what was done to the database and the version of SQLite, from nothing else.
  [[nodiscard]] std::string bytes() const;

private:
  friend class Insertion;
  struct Closer {
    void operator()(sqlite3* database) const;
  };
  std::unique_ptr<sqlite3, Closer> database_;
};

// One row after the other into a table: values in the order of its columns.
class Insertion {
public:
  Insertion(const Database& database, std::string_view table, int columns);

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
  void check(int result) const;
  struct Finisher {
    void operator()(sqlite3_stmt* statement) const;
  };
  sqlite3* database_;
  std::unique_ptr<sqlite3_stmt, Finisher> statement_;
  int columns_;
  int given_ = 0;
};

} // namespace coeval
