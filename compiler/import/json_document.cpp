#include "import/json_document.hpp"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

namespace coeval {
namespace {

using Json = nlohmann::ordered_json;

// Called by the parser for each value in turn; false ends the reading.
class JsonBuilder final : public nlohmann::json_sax<Json> {
public:
  JsonBuilder(std::string_view text, std::initializer_list<std::string_view> passed_over)
      : text_(text), passed_over_(passed_over) {}

  bool null() override { return add(nullptr); }
  bool boolean(bool value) override { return add(value); }
  bool number_integer(number_integer_t value) override { return add(value); }
  bool number_unsigned(number_unsigned_t value) override { return add(value); }
  bool number_float(number_float_t value, const string_t&) override { return add(value); }
  bool string(string_t& value) override { return add(std::move(value)); }
  bool binary(binary_t&) override { return false; }
  bool start_object(std::size_t) override { return open(Json::object()); }
  bool start_array(std::size_t) override { return open(Json::array()); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }

  bool key(string_t& name) override {
    Frame& frame = frames_.back();
    if (frame.node != nullptr && frame.node->contains(name)) {
      frame.key = std::move(name);
      return fail("this member comes twice");
    }
    if (++frame.count > most_json_members)
      return fail(fmt::format("an object has more than {} members", most_json_members));
    frame.key = std::move(name);
    return true;
  }

  bool parse_error(std::size_t position, const std::string&, const nlohmann::detail::exception&) override {
    const std::string_view before = text_.substr(0, std::min(position == 0 ? 0 : position - 1, text_.size()));
    const std::size_t line_start = before.rfind('\n') + 1; // 0 where there is none
    return fail(fmt::format("this is not JSON from line {}, byte {} on", std::ranges::count(before, '\n') + 1,
                            before.size() - line_start + 1));
  }

  JsonResult take() { return {std::move(root_), std::move(fault_)}; }

private:
  struct Frame {
    Json* node = nullptr; // nothing where it is passed over
    bool array = false;
    std::string key;       // of the member that is being read
    std::size_t count = 0; // of members or items so far
  };

  bool fail(std::string message) {
    if (!fault_) fault_ = JsonFault{pointer(), std::move(message)};
    return false;
  }

  // Of the value that is being read.
  [[nodiscard]] std::string pointer() const {
    std::string text;
    for (const Frame& frame : frames_)
      if (frame.array)
        text += fmt::format("/{}", frame.count == 0 ? 0 : frame.count - 1);
      else if (frame.count > 0)
        text += pointer_part(frame.key);
    return text;
  }

  // Puts a value where it belongs. Where it went; nothing where it is passed over.
  Json* place(Json value) {
    if (frames_.empty()) {
      root_ = std::move(value);
      return &root_;
    }
    Frame& frame = frames_.back();
    if (frame.array) ++frame.count;
    if (frame.node == nullptr) return nullptr;
    if (frame.array) {
      frame.node->push_back(std::move(value));
      return &frame.node->back();
    }
    constexpr std::size_t depth_of_passing_over = 3;
    if (frames_.size() == depth_of_passing_over && std::ranges::find(passed_over_, frame.key) != passed_over_.end())
      return nullptr;
    Json& member = (*frame.node)[frame.key];
    member = std::move(value);
    return &member;
  }

  template <class Value> bool add(Value value) {
    place(Json(std::move(value)));
    return true;
  }

  bool open(Json empty) {
    const bool array = empty.is_array();
    Json* node = place(std::move(empty));
    if (frames_.size() == most_json_depth) return fail(fmt::format("this lies deeper than {} levels", most_json_depth));
    frames_.push_back({node, array, {}, 0});
    return true;
  }

  bool close() {
    frames_.pop_back();
    return true;
  }

  std::string_view text_;
  std::vector<std::string_view> passed_over_;
  Json root_;
  std::vector<Frame> frames_; // from the outermost object or array to the innermost that is open
  std::optional<JsonFault> fault_;
};

} // namespace

std::string pointer_part(std::string_view name) {
  std::string text = "/";
  for (const char c : name)
    if (c == '~')
      text += "~0";
    else if (c == '/')
      text += "~1";
    else
      text += c;
  return text;
}

JsonResult read_json(std::string_view text, std::initializer_list<std::string_view> passed_over) {
  JsonBuilder builder{text, passed_over};
  (void)Json::sax_parse(text, &builder);
  return builder.take();
}

} // namespace coeval
