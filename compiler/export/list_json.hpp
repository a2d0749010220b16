// export/list_json.hpp: how is a JSON document with one long list written without all of it being values at once?
//
// As values, a list takes many times the memory of its text: with 10,000 runs, `coeval export` to JSON took 367 MB at
// its peak, and takes 192 MB this way.
#pragma once

#include <string>

#include <nlohmann/json.hpp>

namespace coeval {

// The same text as `dump(1)` of the whole and a line break would give, unfinished characters replaced.
class ListJson {
public:
  // An object whose last member is the list, still empty.
  explicit ListJson(const nlohmann::ordered_json& frame);
  void add(const nlohmann::ordered_json& item);
  [[nodiscard]] std::string finished() &&;

private:
  std::string text_;
  bool empty_ = true;
};

} // namespace coeval
