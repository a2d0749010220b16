// entries/toml_values.hpp: does a TOML value have the type that its key asks for, and what does it say?
//
// Private to this room.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "diagnose/diagnostic.hpp"
#include "entries/entry.hpp"
#include "entries/toml_tree.hpp"

namespace coeval {

// Reads the values of one file's tables; refuses with a diagnostic at the value's place.
class ValueReader {
public:
  // What values hold is kept by `store`.
  ValueReader(const SourceSet& sources, FileIndex file, ValueStore& store, Diagnostics& out)
      : sources_(sources), file_(file), store_(store), out_(out) {}

  // The typed value of `spec`; nothing where it was refused, and then it is reported.
  std::optional<Value> read(const KeySpec& spec, const TomlNode& node);

  [[nodiscard]] Span place_of(const TomlNode& node) const { return {file_, node.begin, node.end}; }
  [[nodiscard]] Span key_place_of(const TomlNode& node) const { return {file_, node.key_begin, node.key_end}; }
  void refuse(Code code, Span place, std::string message, std::string help = {}, std::optional<Fix> fix = {});
  // How often so far. Of a list with one bad word the others are read all the same, so a value alone does not tell.
  [[nodiscard]] std::size_t refusals() const { return refusals_; }

private:
  std::optional<std::string_view> text_of(const KeySpec& spec, const TomlNode& node, std::string_view wanted);

  std::optional<Value> read_id(const KeySpec& spec, const TomlNode& node);
  std::optional<Value> read_text(const KeySpec& spec, const TomlNode& node);
  // Whether the text is one of the key's choices; refuses it where it is not.
  bool check_choice(const KeySpec& spec, std::string_view text, Span place);
  std::optional<Value> read_choice(const KeySpec& spec, const TomlNode& node);
  std::optional<Value> read_number(const KeySpec& spec, const TomlNode& node);
  std::optional<Value> read_count(const KeySpec& spec, const TomlNode& node);
  std::optional<Value> read_numbers(const KeySpec& spec, const TomlNode& node);
  std::optional<Value> read_date(const KeySpec& spec, const TomlNode& node);
  std::optional<Value> read_dates(const KeySpec& spec, const TomlNode& node);
  std::optional<Value> read_duration(const KeySpec& spec, const TomlNode& node);
  std::optional<Value> read_url(const KeySpec& spec, const TomlNode& node);
  std::optional<Value> read_word(const KeySpec& spec, const TomlNode& node);
  std::optional<Value> read_words(const KeySpec& spec, const TomlNode& node);
  std::optional<Value> read_features(const KeySpec& spec, const TomlNode& node);
  std::optional<Value> read_day(const KeySpec& spec, const TomlNode& node);
  std::optional<Value> read_weight(const KeySpec& spec, const TomlNode& node);
  std::optional<Value> read_condition_value(const KeySpec& spec, const TomlNode& node);
  std::optional<Value> read_amount_value(const KeySpec& spec, const TomlNode& node);
  std::optional<FeatureAtom> atom(const TomlNode& node);
  std::optional<FeatureValue> read_feature(const TomlNode& node);

  std::optional<Word> word(const KeySpec& spec, const TomlNode& node);
  std::optional<Edtf> edtf(const KeySpec& spec, const TomlNode& node);
  std::optional<WrittenEnd> end(const KeySpec& spec, const TomlNode& node);
  void wrong_type(const KeySpec& spec, const TomlNode& node, std::string_view wanted);

  const SourceSet& sources_;
  FileIndex file_;
  ValueStore& store_;
  Diagnostics& out_;
  std::size_t refusals_ = 0;
  std::vector<Word> words_;            // of the list that is being read
  std::vector<FeatureAtom> atoms_;     // of the feature
  std::vector<FeatureValue> features_; // of the table
};

} // namespace coeval
