#include <algorithm>

#include <fmt/format.h>

#include "shelf/edited_text.hpp"
#include "shelf/splices.hpp"

namespace coeval {
namespace {

class TomlEdit {
public:
  explicit TomlEdit(std::string_view text) : text_(text), splices_(text) {}

  // False where that cannot be done in place.
  bool change(const Entry& entry, const KeySpec& key, const std::optional<std::string>& value) {
    const Field* field = entry.find(key.name);
    if (field == nullptr) return insert(entry, key, *value);
    if (!value) return take_out(*field);
    if (!append(*field, key, *value)) splices_.replace(field->place.begin, field->place.end, toml_value(key, *value));
    return true;
  }

  [[nodiscard]] std::string apply() const { return splices_.apply(); }

private:
  // Items behind those that a list has already go behind the last of them, so that remarks between items stay.
  bool append(const Field& field, const KeySpec& key, std::string_view value) {
    const auto* words = std::get_if<Words>(&field.value);
    if (words == nullptr || words->empty()) return false;
    for (const Word& word : *words) {
      if (!value.starts_with(word.text)) return false;
      value.remove_prefix(word.text.size());
      if (!value.starts_with('\n')) return false;
      value.remove_prefix(1);
    }
    const std::string list = toml_value(key, value); // "[…]"
    const std::uint32_t end = words->back().place.end;
    splices_.replace(end, end, ", " + list.substr(1, list.size() - 2));
    return true;
  }

  // The key begins its line, and nothing but a remark stands behind its value.
  [[nodiscard]] bool has_own_lines(const Field& field) const {
    const std::uint32_t begin = splices_.line_begin(field.key_begin);
    const std::string_view indent = text_.substr(begin, field.key_begin - begin);
    const std::uint32_t end = splices_.line_end(field.place.end);
    const std::string_view behind = text_.substr(field.place.end, end - field.place.end);
    const std::size_t remark = behind.find_first_not_of(" \t\r\n");
    return indent.find_first_not_of(" \t") == std::string_view::npos &&
           (remark == std::string_view::npos || behind[remark] == '#');
  }

  bool take_out(const Field& field) {
    if (!has_own_lines(field)) return false;
    splices_.replace(splices_.line_begin(field.key_begin), splices_.line_end(field.place.end), "");
    return true;
  }

  bool insert(const Entry& into, const KeySpec& key, std::string_view value) {
    std::string_view indent;
    std::uint32_t last_byte = into.place.end;
    if (!into.fields.empty()) {
      const Field& last = *std::ranges::max_element(into.fields, {}, [](const Field& one) { return one.place.end; });
      if (!has_own_lines(last)) return false;
      const std::uint32_t begin = splices_.line_begin(last.key_begin);
      indent = text_.substr(begin, last.key_begin - begin);
      last_byte = last.place.end;
    }
    splices_.add_line(last_byte,
                      fmt::format("{}{:<{}} = {}", indent, key.name, key_width(into), toml_value(key, value)));
    return true;
  }

  // How far the equals signs of the table's keys stand from where they begin, where they stand below each other.
  [[nodiscard]] std::size_t key_width(const Entry& into) const {
    std::size_t width = 0;
    for (const Field& field : into.fields) {
      const std::size_t equals = text_.find('=', field.key_place().end);
      if (equals == std::string_view::npos || equals <= field.key_begin + 1) return 0;
      const std::size_t own = equals - field.key_begin - 1;
      if (width != 0 && own != width) return 0;
      width = own;
    }
    return into.fields.size() > 1 ? width : 0;
  }

  std::string_view text_;
  Splices splices_;
};

} // namespace

std::optional<std::string> edited_toml(std::string_view text, const EntrySet& entries, const NewValues& values,
                                       Span& fault) {
  TomlEdit edit{text};
  for (const auto& [place, value] : values) {
    const Entry& entry = entries.entries[place.first];
    if (edit.change(entry, *place.second, value)) continue;
    const Field* field = entry.find(place.second->name);
    fault = field != nullptr ? field->key_place() : entry.place;
    return {};
  }
  return edit.apply();
}

} // namespace coeval
