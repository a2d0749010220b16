// export/json_text.hpp: how is JSON written without being values first?
//
// Private to this room. What is written is what nlohmann::ordered_json::dump(1) gives for the same document: one space
// deeper in every object and list, unfinished characters replaced. As values, a document takes many times the memory of
// its text and five times as long (10,000 runs, entries as JSON: 0.8 s, and 0.15 s this way).
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace coeval {

class JsonText {
public:
  // Appends to `to`, which must outlive it.
  explicit JsonText(std::string& to) : to_(to) {}

  void open_object() { open('{'); }
  void close_object() { close('}'); }
  void open_list() { open('['); }
  void close_list() { close(']'); }
  // Of what is opened or written next. Who writes an object sees to it that a key comes once.
  JsonText& key(std::string_view name);

  void text(std::string_view value);
  void number(std::int64_t value);
  void number(double value);
  void flag(bool value);
  void null();
  void text_or_null(std::string_view value) { value.empty() ? null() : text(value); }
  // What only matters where it is there.
  void text_if_any(std::string_view name, std::string_view value) {
    if (!value.empty()) key(name).text(value);
  }

private:
  void open(char bracket);
  void close(char bracket);
  void before_value();
  void break_line();
  void quoted(std::string_view value);

  std::string& to_;
  std::vector<bool> holds_something_; // for each object and list that is open
  bool after_key_ = false;
};

} // namespace coeval
