#include "export/json_text.hpp"

#include <algorithm>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace coeval {
namespace {

// Stands in quotes as it is. Everything else is rare here, and left to the library.
bool is_plain(char c) { return c >= ' ' && c <= '~' && c != '"' && c != '\\'; }

} // namespace

JsonText& JsonText::key(std::string_view name) {
  before_value();
  quoted(name);
  to_ += ": ";
  after_key_ = true;
  return *this;
}

void JsonText::text(std::string_view value) {
  before_value();
  quoted(value);
}

void JsonText::number(std::int64_t value) {
  before_value();
  to_ += fmt::format_int{value}.c_str();
}

void JsonText::number(double value) {
  before_value();
  to_ += nlohmann::json(value).dump();
}

void JsonText::flag(bool value) {
  before_value();
  to_ += value ? "true" : "false";
}

void JsonText::null() {
  before_value();
  to_ += "null";
}

void JsonText::open(char bracket) {
  before_value();
  to_ += bracket;
  holds_something_.push_back(false);
}

void JsonText::close(char bracket) {
  const bool empty = !holds_something_.back();
  holds_something_.pop_back();
  if (!empty) break_line();
  to_ += bracket;
}

void JsonText::before_value() {
  if (after_key_) {
    after_key_ = false;
    return;
  }
  if (holds_something_.empty()) return;
  if (holds_something_.back()) to_ += ',';
  holds_something_.back() = true;
  break_line();
}

void JsonText::break_line() {
  to_ += '\n';
  to_.append(holds_something_.size(), ' ');
}

void JsonText::quoted(std::string_view value) {
  if (!std::ranges::all_of(value, is_plain)) {
    to_ += nlohmann::json(value).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
    return;
  }
  to_ += '"';
  to_ += value;
  to_ += '"';
}

} // namespace coeval
