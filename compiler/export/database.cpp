#include "export/database.hpp"

#include <algorithm>
#include <cstring>
#include <stdexcept>
#include <utility>

#include <fmt/format.h>
#include <sqlite3.h>

namespace coeval {
namespace {

constexpr int open_flags =
    SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_URI; // each is used by one thread
constexpr sqlite3_int64 largest_file = 2'000'000'000; // SQLite hands out no more memory in one piece

[[noreturn]] void fail(sqlite3* database) {
  throw std::runtime_error{std::string{"SQLite: "} + (database == nullptr ? "no memory" : sqlite3_errmsg(database))};
}

// Nothing where the database could not be opened; then `sqlite3_errmsg` of it tells why.
sqlite3* opened(const std::string& name) {
  sqlite3* database = nullptr;
  if (sqlite3_open_v2(name.c_str(), &database, open_flags, nullptr) == SQLITE_OK) return database;
  try {
    fail(database);
  } catch (...) {
    sqlite3_close(database);
    throw;
  }
}

// A file in memory would stop at 1 GB.
void allow_largest(sqlite3* database) {
  sqlite3_int64 limit = largest_file;
  sqlite3_file_control(database, "main", SQLITE_FCNTL_SIZE_LIMIT, &limit);
}

std::int64_t schema_version(sqlite3* database) {
  sqlite3_stmt* statement = nullptr;
  if (sqlite3_prepare_v2(database, "PRAGMA schema_version", -1, &statement, nullptr) != SQLITE_OK) fail(database);
  const bool there = sqlite3_step(statement) == SQLITE_ROW;
  const std::int64_t version = there ? sqlite3_column_int64(statement, 0) : 0;
  sqlite3_finalize(statement);
  if (!there) fail(database);
  return version;
}

} // namespace

std::string sqlite_version() { return sqlite3_sourceid(); }

void Database::Closer::operator()(sqlite3* database) const { sqlite3_close(database); }

Database::Database(std::string_view file) : database_(opened(":memory:")) {
  if (file.empty()) return;
  auto* bytes = static_cast<unsigned char*>(sqlite3_malloc64(file.size()));
  if (bytes == nullptr) fail(nullptr);
  std::memcpy(bytes, file.data(), file.size());
  const auto size = static_cast<sqlite3_int64>(file.size());
  if (sqlite3_deserialize(database_.get(), "main", bytes, size, size,
                          SQLITE_DESERIALIZE_FREEONCLOSE | SQLITE_DESERIALIZE_RESIZEABLE) != SQLITE_OK)
    fail(database_.get());
  allow_largest(database_.get());
  schema_version_ = schema_version(database_.get());
}

void Database::run(const std::string& sql) {
  if (sqlite3_exec(database_.get(), sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK) fail(database_.get());
}

// By VACUUM INTO another database in memory, which takes half as long as VACUUM (84 MB: 0.22 s of processor time, and
// 0.45 s with the copies of what is then serialised).
std::string Database::packed() && {
  const std::string name = fmt::format("file:/coeval-export-{}?vfs=memdb", fmt::ptr(this));
  const std::unique_ptr<sqlite3, Closer> file{opened(name)};
  allow_largest(file.get());
  // Packing counts the versions of the schema on by one.
  const std::string version =
      schema_version_ ? fmt::format("PRAGMA schema_version = {};", *schema_version_ - 1) : std::string{};
  if (sqlite3_exec(database_.get(), fmt::format("{} VACUUM INTO '{}';", version, name).c_str(), nullptr, nullptr,
                   nullptr) != SQLITE_OK)
    fail(database_.get());
  database_.reset(); // as large as what is read now
  sqlite3_file* handle = nullptr;
  sqlite3_file_control(file.get(), "main", SQLITE_FCNTL_FILE_POINTER, static_cast<void*>(&handle));
  sqlite3_int64 size = 0;
  if (handle == nullptr || handle->pMethods == nullptr || handle->pMethods->xFileSize(handle, &size) != SQLITE_OK)
    fail(nullptr);
  std::string bytes(static_cast<std::size_t>(size), '\0');
  constexpr std::size_t step = std::size_t{1} << 20U; // xRead counts in int
  for (std::size_t at = 0; at < bytes.size(); at += step)
    if (handle->pMethods->xRead(handle, bytes.data() + at, static_cast<int>(std::min(step, bytes.size() - at)),
                                static_cast<sqlite3_int64>(at)) != SQLITE_OK)
      fail(nullptr);
  // How often the file was changed, and by which version of SQLite (https://www.sqlite.org/fileformat2.html, 1.3.7 and
  // 1.3.20): nothing of what it holds. Zeros, as in a database that was never a file.
  for (const auto& [begin, length] : {std::pair{24, 4}, std::pair{92, 8}}) std::memset(bytes.data() + begin, 0, length);
  return bytes;
}

void RowSum::add(std::string_view bytes) {
  constexpr std::size_t enough = std::size_t{1} << 16U;
  waiting_ += bytes;
  if (waiting_.size() < enough) return;
  folded_ = hash();
  waiting_.clear();
}

ContentHash RowSum::hash() const { return hash_of(text_of(folded_) + waiting_); }

void Insertion::Finisher::operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }

Insertion::Insertion(const Database* database, RowSum& sum, std::string_view table, int columns)
    : database_(database == nullptr ? nullptr : database->database_.get()), sum_(&sum), table_(table),
      columns_(static_cast<std::size_t>(columns)) {
  if (database_ == nullptr) return;
  std::string sql = "INSERT INTO " + table_ + " VALUES (";
  for (int i = 0; i < columns; ++i) sql += i == 0 ? "?" : ",?";
  sqlite3_stmt* statement = nullptr;
  check(sqlite3_prepare_v2(database_, (sql + ")").c_str(), -1, &statement, nullptr));
  statement_.reset(statement);
}

void Insertion::check(int result) const {
  if (result != SQLITE_OK) fail(database_);
}

void Insertion::add(Holds holds, std::string_view bytes) {
  // What kind of value it is, and how long, so that where one ends is never a question of what is in it.
  const std::uint64_t size = bytes.size();
  bytes_ += static_cast<char>(holds);
  bytes_.append(reinterpret_cast<const char*>(&size), sizeof size);
  cells_.push_back({holds, bytes_.size(), bytes.size()});
  bytes_ += bytes;
}

Insertion& Insertion::text(std::string_view value) {
  add(Holds::text, value);
  return *this;
}

Insertion& Insertion::text_or_null(std::string_view value) { return value.empty() ? null() : text(value); }

Insertion& Insertion::integer(std::int64_t value) {
  add(Holds::integer, {reinterpret_cast<const char*>(&value), sizeof value});
  return *this;
}

Insertion& Insertion::real(double value) {
  add(Holds::real, {reinterpret_cast<const char*>(&value), sizeof value});
  return *this;
}

Insertion& Insertion::null() {
  add(Holds::null, {});
  return *this;
}

void Insertion::bind(int column, const Cell& cell) {
  const char* bytes = bytes_.data() + cell.begin;
  sqlite3_stmt* statement = statement_.get();
  switch (cell.holds) {
  case Holds::text:
    return check(sqlite3_bind_text64(statement, column, bytes, cell.size, SQLITE_STATIC, SQLITE_UTF8));
  case Holds::integer: {
    std::int64_t value = 0;
    std::memcpy(&value, bytes, sizeof value);
    return check(sqlite3_bind_int64(statement, column, value));
  }
  case Holds::real: {
    double value = 0;
    std::memcpy(&value, bytes, sizeof value);
    return check(sqlite3_bind_double(statement, column, value));
  }
  case Holds::null:
    return check(sqlite3_bind_null(statement, column));
  }
}

void Insertion::row() {
  if (cells_.size() != columns_) throw std::logic_error{"a row of a table was given too few or too many values"};
  sum_->add(table_);
  sum_->add(bytes_);
  if (statement_) {
    for (std::size_t i = 0; i < cells_.size(); ++i) bind(static_cast<int>(i) + 1, cells_[i]);
    if (sqlite3_step(statement_.get()) != SQLITE_DONE) fail(database_);
    check(sqlite3_reset(statement_.get()));
  }
  bytes_.clear();
  cells_.clear();
}

} // namespace coeval
