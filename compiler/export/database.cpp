#include "export/database.hpp"

#include <stdexcept>

#include <sqlite3.h>

namespace coeval {
namespace {

[[noreturn]] void fail(sqlite3* database) {
  throw std::runtime_error{std::string{"SQLite: "} + (database == nullptr ? "no memory" : sqlite3_errmsg(database))};
}

} // namespace

void Database::Closer::operator()(sqlite3* database) const { sqlite3_close(database); }

Database::Database() {
  sqlite3* opened = nullptr;
  const int result =
      sqlite3_open_v2(":memory:", &opened, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOMUTEX, nullptr);
  database_.reset(opened);
  if (result != SQLITE_OK) fail(opened);
}

void Database::run(const std::string& sql) {
  if (sqlite3_exec(database_.get(), sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK) fail(database_.get());
}

std::string Database::bytes() const {
  sqlite3_int64 size = 0;
  const std::unique_ptr<unsigned char, decltype(&sqlite3_free)> bytes{
      sqlite3_serialize(database_.get(), "main", &size, 0), &sqlite3_free};
  if (!bytes) fail(nullptr);
  return {reinterpret_cast<const char*>(bytes.get()), static_cast<std::size_t>(size)};
}

void Insertion::Finisher::operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }

Insertion::Insertion(const Database& database, std::string_view table, int columns)
    : database_(database.database_.get()), columns_(columns) {
  std::string sql = "INSERT INTO " + std::string{table} + " VALUES (";
  for (int i = 0; i < columns; ++i) sql += i == 0 ? "?" : ",?";
  sqlite3_stmt* statement = nullptr;
  check(sqlite3_prepare_v2(database_, (sql + ")").c_str(), -1, &statement, nullptr));
  statement_.reset(statement);
}

void Insertion::check(int result) const {
  if (result != SQLITE_OK) fail(database_);
}

Insertion& Insertion::text(std::string_view value) {
  check(sqlite3_bind_text64(statement_.get(), ++given_, value.data() == nullptr ? "" : value.data(), value.size(),
                            SQLITE_TRANSIENT, SQLITE_UTF8));
  return *this;
}

Insertion& Insertion::text_or_null(std::string_view value) { return value.empty() ? null() : text(value); }

Insertion& Insertion::integer(std::int64_t value) {
  check(sqlite3_bind_int64(statement_.get(), ++given_, value));
  return *this;
}

Insertion& Insertion::real(double value) {
  check(sqlite3_bind_double(statement_.get(), ++given_, value));
  return *this;
}

Insertion& Insertion::null() {
  check(sqlite3_bind_null(statement_.get(), ++given_));
  return *this;
}

void Insertion::row() {
  if (given_ != columns_) throw std::logic_error{"a row of a table was given too few or too many values"};
  if (sqlite3_step(statement_.get()) != SQLITE_DONE) fail(database_);
  check(sqlite3_reset(statement_.get()));
  given_ = 0;
}

} // namespace coeval
