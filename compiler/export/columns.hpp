// export/columns.hpp: where in the database does the value of a key stand?
//
// Private to this room: the tables are made, and filled, by the same rule.
#pragma once

#include "entries/schema.hpp"

namespace coeval {

enum class ColumnShape : std::uint8_t {
  one,      // a column of the kind's table
  lab,      // three columns
  point,    // two columns: an address and which end of it
  list,     // a table of its own
  features, // rows of stated_features
  cited,    // rows of citations
};

[[nodiscard]] constexpr ColumnShape column_shape(ValueType type) {
  switch (type) {
  case ValueType::numbers:
    return ColumnShape::lab;
  case ValueType::point:
    return ColumnShape::point;
  case ValueType::word_list:
  case ValueType::country_list:
  case ValueType::address_list:
  case ValueType::span_list:
  case ValueType::mark_list:
    return ColumnShape::list;
  case ValueType::features:
    return ColumnShape::features;
  case ValueType::citations:
    return ColumnShape::cited;
  default:
    return ColumnShape::one;
  }
}

// Holds the address of an entry, in full.
[[nodiscard]] constexpr bool holds_address(ValueType type) {
  return type == ValueType::address || type == ValueType::address_list || type == ValueType::span ||
         type == ValueType::span_list || type == ValueType::mark_list;
}

} // namespace coeval
