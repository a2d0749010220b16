// entries/schema.hpp: which tables and keys may a knowledge base or a shelf hold, and what does each mean?
//
// The one table behind the reader, its suggestions, the JSON Schema for editors and the reference page of the language.
// To add a field: one row here, then one line in links/ or shelf/ where its meaning is taken up.
#pragma once

#include <cstdint>
#include <initializer_list>
#include <span>
#include <string_view>
#include <vector>

namespace coeval {

enum class Kind : std::uint8_t {
  line,
  leftover,
  allowance,
  figure,
  issue,
  takes,
  pairing,
  accessory,
  mould,
  run,
  exclusive,
  repro,
  colour,
  timing,
  period,
  card,
  plant,
  maker,
  route,
  mark,
  mark_number,
  feature,
  feature_value,
  source,
  claim,
  claimed_pairing,
  claimed_timing,
  picture,
  // what a shelf holds
  shelf,
  rate,
  piece,
  part,
  want,
  purchase,
  certificate,
  voucher,
  sale,
  fees,
  premium,
  premium_tier,
  fixed_fee,
  insurance,
  levy,
};
inline constexpr int kind_count = static_cast<int>(Kind::levy) + 1;

// Two kinds of file: what is known of a line, and what one collector owns.
enum class Language : std::uint8_t { knowledge_base, shelf };

enum class ValueType : std::uint8_t {
  id,           // [a-z0-9-]+
  text,         // plain text; blank lines part paragraphs
  flag,         // true or false
  number,       // an integer or a float, above 0
  count,        // an integer above 0
  numbers,      // three of them: CIELAB L*, a*, b*
  choice,       // one of the words in `choices`
  word_list,    // free words or ids, told apart by nothing but their text
  date,         // EDTF, one date
  dates,        // EDTF interval or date, or { start = EDTF, end = EDTF }
  duration,     // ISO 8601, whole days and longer
  url,          // http or https
  country_list, // ISO 3166-1 alpha-2 or 3166-3 alpha-4, lower case
  country,      // one of them
  address,      // of an entry of one of the kinds in `targets`
  address_list, // several
  mark_list,    // addresses of marks, each with what it reads where it is one that is read: "ID=READING"
  span_list,    // addresses of anything that lasts: period, card, mould, run, issue, route, mark
  span,         // one of them
  point,        // ADDRESS.start or ADDRESS.end of such a span
  citations,    // "SOURCE-ID place in it"
  features,     // a table of feature = value
  file,         // a path below the knowledge base
  day,          // one day, ISO 8601: 2026-05-02
  weight,       // a whole number from 1 to 1000
  text_list,    // several texts of one line each
  choice_list,  // several of the words in `choices`
  condition,    // C1 to C10, halves too, or 0 to 100
  currency,     // ISO 4217
  money,        // "41.50 GBP"
  percent,      // "2.5 %" or "2.5"
  rate,         // "1.1745"
};

// Whether two names are the same. Most differ in their size or first letter.
[[nodiscard]] inline bool same_name(std::string_view one, std::string_view other) {
  return one.size() == other.size() && (one.empty() || (one.front() == other.front() && one == other));
}

// Its values are several words, addresses or citations in brackets.
[[nodiscard]] bool is_word_list(ValueType type);

inline constexpr std::int64_t greatest_weight = 1000;

struct KeySpec {
  std::string_view name;
  ValueType type;
  bool required = false;
  std::string_view doc;
  std::vector<Kind> targets = {};             // for address, address_list, mark_list
  std::vector<std::string_view> choices = {}; // for choice
};

// Where a kind's tables stand.
enum class Standing : std::uint8_t {
  top,    // [name] or [[name]] at the top of a file
  beside, // [[name]] at the top of a file that also holds the [parent] it belongs to
  inside, // [parent.name] or [[parent.name]]
};

struct KindSpec {
  Kind kind;
  std::string_view name; // of its table in TOML
  Standing standing;
  bool repeated; // [[name]], any number; else [name], once
  std::vector<Kind> parents;
  std::string_view doc;
  std::vector<KeySpec> keys;

  [[nodiscard]] Language language() const { return kind < Kind::shelf ? Language::knowledge_base : Language::shelf; }
  [[nodiscard]] const KeySpec* find(std::string_view key) const;
  [[nodiscard]] bool has_id() const { return find("id") != nullptr; }
  // The first word of its addresses ("period/first-voyage"), empty where addresses start with the id of a figure or
  // accessory.
  [[nodiscard]] std::string_view address_prefix() const;
};

[[nodiscard]] std::span<const KindSpec> schema(Language language = Language::knowledge_base);
[[nodiscard]] const KindSpec& spec_of(Kind kind);
// What a kind is called where no table says which is meant: its table's name where no other kind has that too, else
// "claimed-pairing", "feature-value".
[[nodiscard]] std::string_view kind_word(Kind kind);
// The kind of that word; nullptr where there is none.
[[nodiscard]] const KindSpec* find_kind_word(std::string_view word);
// The kinds whose tables stand inside (or, for files, beside) tables of `parent`.
[[nodiscard]] std::vector<const KindSpec*> children_of(Kind parent);
// The kind of a table called `name` inside `parent`; nullptr where there is none.
[[nodiscard]] const KindSpec* find_child(Kind parent, std::string_view name);
// The kind of a table called `name` at the top of a file of the language; nullptr where there is none.
[[nodiscard]] const KindSpec* find_top(std::string_view name, Language language = Language::knowledge_base);
// Kinds that last from a start to an end, and the key that dates them; empty for others.
[[nodiscard]] std::string_view dates_key(Kind kind);

} // namespace coeval
