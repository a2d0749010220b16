// entries/entry.hpp: what did the curator write, with types but before anything is looked up?
//
// An Entry is one TOML table of a known kind. Its fields hold values of the type that the schema asks for; a value that
// was refused is absent and its entry marked broken, so that later stages stay quiet about what is already reported.
// Entries stand in the order of their files and, within a file, of the text; a parent comes before its children. Their
// texts and lists are views of what the stores of their EntrySet keep, and are good while one of its copies is there.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "calendar/duration.hpp"
#include "calendar/edtf.hpp"
#include "entries/schema.hpp"
#include "entries/value_store.hpp"
#include "money/money.hpp"
#include "source/text.hpp"

namespace coeval {

enum class EntryIndex : std::uint32_t {};
inline constexpr EntryIndex no_entry{0xffffffffU};

// A word, address or citation with its own place.
struct Word {
  KeptText text;
  Span place;
};
using Words = Kept<Word>;
using Numbers = Kept<double>;

// One end of a span. Absent bounds are unknown.
struct WrittenEnd {
  DateBounds bounds;
  Span place;
  KeptText text; // where it is written by itself, in a table of start and end; else empty
};

// The dates of a span as written. For a set {a, b} the span reaches from some day of a to some day of b.
struct WrittenDates {
  WrittenEnd start;
  WrittenEnd end;
  KeptText text; // where both ends are written as one; else empty
};

struct WrittenDate {
  Edtf edtf;
  KeptText text;
};

using FeatureAtom = std::variant<bool, double, KeptText>;

// What a feature is said to be. Several alternatives: the part is found with any of them.
struct FeatureValue {
  KeptText feature;
  Span name_place;
  Span place;
  Kept<FeatureAtom> alternatives;  // one or more, unless `lab` is given
  std::optional<double> tolerance; // for one number: plus or minus, in the feature's unit; for `lab`: CIEDE2000
  Numbers lab;                     // empty or CIELAB L*, a*, b*
};
using Features = Kept<FeatureValue>;

// How well something is kept, on one of the trade's two scales (common practice, no published source).
struct Condition {
  enum class Scale : std::uint8_t { c, hundred }; // C1 to C10; 0 to 100
  Scale scale = Scale::c;
  int tenths = 0; // C8.5: 85
  friend bool operator==(const Condition&, const Condition&) = default;
};
[[nodiscard]] std::optional<Condition> read_condition(std::string_view text);
[[nodiscard]] std::string text(const Condition& condition); // "C8.5", "85"

// A weight is a std::int64_t; a day is a CalendarDay; a percent and a rate are Decimals.
struct CalendarDay {
  Day day = 0;
  friend auto operator<=>(const CalendarDay&, const CalendarDay&) = default;
};

// 24 bytes: what is larger lies apart.
using Value = std::variant<KeptText, bool, double, Numbers, Words, Apart<WrittenDate>, Apart<WrittenDates>,
                           Apart<Duration>, Features, std::int64_t, CalendarDay, Condition, Currency, Money, Decimal>;

// The value, if it is of this type.
template <class Type> [[nodiscard]] const Type* value_if(const Value& value) {
  if constexpr (std::is_same_v<Type, WrittenDate> || std::is_same_v<Type, WrittenDates> ||
                std::is_same_v<Type, Duration>) {
    const auto* apart = std::get_if<Apart<Type>>(&value);
    return apart == nullptr ? nullptr : &static_cast<const Type&>(*apart);
  } else {
    return std::get_if<Type>(&value);
  }
}

// 48 bytes: a knowledge base of a million runs has 29 million of them.
struct Field {
  const KeySpec* spec = nullptr;
  Span place;
  std::uint32_t key_begin = 0; // in the same file
  Value value;

  // Where the key is written; of one in quotes, where it would end without them.
  [[nodiscard]] Span key_place() const {
    return {place.file, key_begin, key_begin + static_cast<std::uint32_t>(spec->name.size())};
  }
};

struct Entry {
  Kind kind{};
  bool broken = false;
  EntryIndex parent = no_entry;
  KeptText id; // empty where the kind has none, or it was refused
  Span place;  // of the id, or of the table's head
  Kept<Field> fields;

  [[nodiscard]] const Field* find(std::string_view key) const;
  // The value of a key; nothing where it is not given. Asking for a type other than the schema's is a bug and stops.
  template <class Type> [[nodiscard]] const Type* get(std::string_view key) const {
    const Field* field = find(key);
    if (field == nullptr) return nullptr;
    const Type* value = value_if<Type>(field->value);
    return value != nullptr ? value : throw std::bad_variant_access{};
  }
  [[nodiscard]] std::string_view text(std::string_view key) const {
    const auto* value = get<KeptText>(key);
    return value == nullptr ? std::string_view{} : std::string_view{*value};
  }
  [[nodiscard]] bool flag(std::string_view key) const {
    const auto* value = get<bool>(key);
    return value != nullptr && *value;
  }
};

// The name that an entry gives itself: its name, its title or, of a claim, what it says; empty where it has none.
[[nodiscard]] std::string_view entry_name(const Entry& entry);

struct EntrySet {
  std::vector<Entry> entries;
  std::vector<std::shared_ptr<const ValueStore>> stores; // of what the entries hold
  [[nodiscard]] const Entry& operator[](EntryIndex index) const { return entries[static_cast<std::size_t>(index)]; }
};

} // namespace coeval
