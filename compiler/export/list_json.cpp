#include "export/list_json.hpp"

#include <stdexcept>
#include <string_view>

namespace coeval {
namespace {

constexpr std::string_view closed_list = "]\n}";

std::string one_space_deep(const nlohmann::ordered_json& json) {
  return json.dump(1, ' ', false, nlohmann::ordered_json::error_handler_t::replace);
}

} // namespace

ListJson::ListJson(const nlohmann::ordered_json& frame) : text_(one_space_deep(frame)) {
  if (!text_.ends_with("[" + std::string{closed_list})) throw std::logic_error{"json: the list is not the last member"};
  text_.resize(text_.size() - closed_list.size());
}

void ListJson::add(const nlohmann::ordered_json& item) {
  text_ += empty_ ? "\n  " : ",\n  ";
  empty_ = false;
  for (const char c : one_space_deep(item)) { // within texts, line breaks are escaped
    text_ += c;
    if (c == '\n') text_ += "  ";
  }
}

std::string ListJson::finished() && {
  if (!empty_) text_ += "\n ";
  text_ += closed_list;
  text_ += '\n';
  return std::move(text_);
}

} // namespace coeval
