#include "entries/plain_toml.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <string>

namespace coeval {
namespace {

using Position = TomlTree::Position;

// Keys of a table are looked up one by one, and hostile text may nest deeply: beyond these it is not plain.
constexpr std::uint32_t most_keys = 64;
constexpr int most_nested = 8;

// What a byte may be; several at once.
enum : std::uint8_t {
  bare = 1,  // part of a bare key
  digit = 2, // 0 to 9
  inner = 4, // within a text in double quotes: as it is meant, on one line
  blank = 8, // space or tab
};

constexpr std::array<std::uint8_t, 256> classes = [] {
  std::array<std::uint8_t, 256> all{};
  for (unsigned c = 0; c < all.size(); ++c) {
    const bool number = c >= '0' && c <= '9';
    if (number || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '-' || c == '_') all[c] |= bare;
    if (number) all[c] |= digit;
    if ((c >= 0x20 && c != 0x7f && c != '"' && c != '\\') || c == '\t') all[c] |= inner;
    if (c == ' ' || c == '\t') all[c] |= blank;
  }
  return all;
}();

bool is(char c, unsigned wanted) { return (classes[static_cast<unsigned char>(c)] & wanted) != 0; }

// Every function reads from at_ on and returns false where that is not plain; all that is left then is to give up. What
// may stand behind a value is not asked by who reads the value, but by who goes on.
class PlainReader {
public:
  PlainReader(std::string_view text, TomlTree& tree, ValueStore& store) : text_(text), tree_(tree), store_(store) {}

  bool read() {
    tree_.clear();
    while (skip_blank(), at_ < text_.size()) {
      const char c = text_[at_];
      const bool plain = c == '\n' || c == '#' || (c == '[' ? read_head() : read_pair(table_));
      if (!plain || !end_line()) return false;
    }
    return true;
  }

private:
  // What stands at at_; a line break at the end of the text, as if it ended in one.
  [[nodiscard]] char here() const { return at_ < text_.size() ? text_[at_] : '\n'; }
  bool take(char c) {
    if (at_ >= text_.size() || text_[at_] != c) return false;
    ++at_;
    return true;
  }
  void skip_blank() { skip(blank); }
  void skip(unsigned wanted) {
    while (at_ < text_.size() && is(text_[at_], wanted)) ++at_;
  }
  [[nodiscard]] std::string_view since(std::size_t begin) const { return text_.substr(begin, at_ - begin); }
  [[nodiscard]] static std::uint32_t byte(std::size_t at) { return static_cast<std::uint32_t>(at); }

  void skip_remark() {
    if (here() != '#') return;
    while (at_ < text_.size() && (is(text_[at_], inner) || text_[at_] == '"' || text_[at_] == '\\')) ++at_;
  }
  bool end_line() {
    skip_blank();
    skip_remark();
    return at_ == text_.size() || take('\n');
  }

  // A bare key, for the value that comes.
  bool read_key(TomlNode& value) {
    const std::size_t begin = at_;
    skip(bare);
    value.key = since(begin);
    value.key_begin = byte(begin);
    value.key_end = byte(at_);
    return at_ > begin;
  }

  // Nothing of that name is in the table yet, and not too much else.
  [[nodiscard]] bool is_new(Position table, std::string_view key) const {
    return tree_[table].held < most_keys && tree_[table].find(key) == nullptr;
  }

  // [a.b] or [[a.b]], of which all but the last were there before.
  bool read_head() {
    TomlNode head;
    head.begin = byte(at_++);
    const bool repeated = take('[');
    table_ = 0;
    while (read_key(head)) {
      if (take(']')) {
        if (repeated && !take(']')) return false;
        head.end = byte(at_);
        return repeated ? add_repeated(head) : add_table(head);
      }
      if (!take('.') || !enter(head.key)) return false;
    }
    return false;
  }

  // From table_ on to what it holds under that key: a table that has a head, or the last of several.
  bool enter(std::string_view key) {
    const TomlNode* inside = tree_[table_].find(key);
    if (inside == nullptr || !has_head(*inside)) return false;
    table_ = position_of(inside);
    if (inside->is_list()) table_ += inside->last;
    return true;
  }
  // Whether it came from a head, and not from behind an equals sign.
  [[nodiscard]] bool has_head(const TomlNode& node) const {
    if (node.is_list()) return node.held > 0 && has_head(*(&node + node.last));
    return node.is_table() && text_[node.begin] == '[';
  }
  [[nodiscard]] Position position_of(const TomlNode* node) const { return static_cast<Position>(node - &tree_.root()); }

  bool add_table(const TomlNode& head) {
    if (!is_new(table_, head.key)) return false;
    table_ = tree_.add(table_, head);
    return true;
  }

  bool add_repeated(const TomlNode& head) {
    const TomlNode* before = tree_[table_].find(head.key);
    Position list = 0;
    if (before != nullptr) {
      if (!before->is_list() || !has_head(*before)) return false;
      list = position_of(before);
    } else {
      TomlNode all = head;
      all.type = TomlNode::Type::list;
      if (!is_new(table_, head.key)) return false;
      list = tree_.add(table_, all);
    }
    tree_[list].end = head.end;
    TomlNode one;
    one.begin = head.begin;
    one.end = head.end;
    table_ = tree_.add(list, one);
    return true;
  }

  bool read_pair(Position table) {
    TomlNode value;
    if (!read_key(value)) return false;
    skip_blank();
    if (!take('=') || !is_new(table, value.key)) return false;
    skip_blank();
    return read_value(table, value, most_nested);
  }

  // Adds the value that begins here to the table or list; `value` has its key.
  bool read_value(Position holder, TomlNode& value, int most_inside) {
    value.begin = byte(at_);
    bool plain = false;
    switch (here()) {
    case '[':
    case '{':
      return most_inside > 0 && read_several(holder, value, most_inside - 1);
    case '"':
      plain = read_text(value);
      break;
    case '\'':
      plain = read_literal(value);
      break;
    case 't':
    case 'f':
      plain = read_flag(value);
      break;
    default:
      plain = read_number(value);
    }
    value.end = byte(at_);
    if (plain) tree_.add(holder, value);
    return plain;
  }

  bool read_several(Position holder, TomlNode& value, int most_inside) {
    const bool list = here() == '[';
    ++at_;
    value.type = list ? TomlNode::Type::list : TomlNode::Type::table;
    const Position own = tree_.add(holder, value);
    if (!(list ? read_items(own, most_inside) : read_pairs(own, most_inside))) return false;
    tree_[own].end = byte(at_);
    return true;
  }

  void skip_lines() {
    while (true) {
      skip_blank();
      skip_remark();
      if (!take('\n')) return;
    }
  }

  bool read_items(Position list, int most_inside) {
    while (true) {
      skip_lines();
      if (take(']')) return true;
      TomlNode item;
      if (!read_value(list, item, most_inside)) return false;
      skip_lines();
      if (!take(',')) return take(']');
    }
  }

  bool read_pairs(Position table, int most_inside) {
    skip_blank();
    if (take('}')) return true;
    while (true) {
      TomlNode value;
      skip_blank();
      if (!read_key(value)) return false;
      skip_blank();
      if (!take('=') || !is_new(table, value.key)) return false;
      skip_blank();
      if (!read_value(table, value, most_inside)) return false;
      skip_blank();
      if (!take(',')) return take('}');
    }
  }

  bool read_flag(TomlNode& value) {
    value.type = TomlNode::Type::flag;
    value.flag = here() == 't';
    const std::string_view word = value.flag ? "true" : "false";
    if (text_.substr(at_, word.size()) != word) return false;
    at_ += word.size();
    return true;
  }

  bool read_number(TomlNode& value) {
    const std::size_t begin = at_;
    if (here() == '+' || here() == '-') ++at_;
    const std::size_t whole = at_;
    skip(digit);
    if (at_ == whole || (text_[whole] == '0' && at_ - whole > 1)) return false;
    value.type = TomlNode::Type::integer;
    if (take('.')) {
      value.type = TomlNode::Type::real;
      if (!is(here(), digit)) return false;
      skip(digit);
    }
    const char* first = text_.data() + (text_[begin] == '+' ? whole : begin);
    const char* last = text_.data() + at_;
    const auto result = value.type == TomlNode::Type::real ? std::from_chars(first, last, value.real)
                                                           : std::from_chars(first, last, value.integer);
    return result.ec == std::errc{} && result.ptr == last;
  }

  bool read_literal(TomlNode& value) {
    value.type = TomlNode::Type::text;
    const std::size_t begin = ++at_;
    while (at_ < text_.size() && text_[at_] != '\'' &&
           (is(text_[at_], inner) || text_[at_] == '"' || text_[at_] == '\\'))
      ++at_;
    value.text = since(begin);
    return take('\'');
  }

  bool read_text(TomlNode& value) {
    value.type = TomlNode::Type::text;
    const bool several_lines = text_.substr(at_, 3) == "\"\"\"";
    at_ += several_lines ? 3 : 1;
    if (several_lines) take('\n'); // is no part of it
    std::size_t begin = at_;
    bool escaped = false;
    unescaped_.clear();
    while (true) {
      skip(inner);
      if (at_ == text_.size()) return false;
      const char c = text_[at_];
      if (c == '"') {
        const std::size_t quotes = several_lines ? 3 : 1;
        if (!several_lines || text_.substr(at_, quotes) == "\"\"\"") {
          const std::string_view rest = since(begin);
          value.text = escaped ? std::string_view{store_.keep_text(unescaped_.append(rest))} : rest;
          at_ += quotes;
          return true;
        }
        ++at_;
      } else if (c == '\n' && several_lines) {
        ++at_;
      } else if (c == '\\') {
        escaped = true;
        unescaped_.append(since(begin));
        if (!read_escape(several_lines)) return false;
        begin = at_;
      } else {
        return false;
      }
    }
  }

  bool read_escape(bool several_lines) {
    if (++at_ == text_.size()) return false;
    switch (const char c = text_[at_++]) {
    case '"':
    case '\\':
      unescaped_ += c;
      return true;
    case 'n':
      unescaped_ += '\n';
      return true;
    case 't':
      unescaped_ += '\t';
      return true;
    case '\n': // goes on where the next text is
      while (at_ < text_.size() && (is(text_[at_], blank) || text_[at_] == '\n')) ++at_;
      return several_lines && static_cast<unsigned char>(here()) < 0x80; // there are other blanks
    default:
      return false;
    }
  }

  std::string_view text_;
  TomlTree& tree_;
  ValueStore& store_;
  std::size_t at_ = 0;
  Position table_ = 0;    // whose head was read last
  std::string unescaped_; // of the text that is being read, up to its last escape
};

} // namespace

bool read_plain_toml(std::string_view text, TomlTree& tree, ValueStore& store) {
  return PlainReader{text, tree, store}.read();
}

} // namespace coeval
