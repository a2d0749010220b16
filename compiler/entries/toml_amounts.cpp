// Values of a shelf: days, weights, conditions and money.
#include <fmt/format.h>

#include "entries/toml_values.hpp"

namespace coeval {

std::optional<Value> ValueReader::read_day(const KeySpec& spec, const TomlNode& node) {
  const auto text = text_of(spec, node, "a day in quotes");
  if (!text) return {};
  if (const auto day = coeval::read_day(*text)) return Value{CalendarDay{*day}};
  refuse(Code::broken_date, place_of(node), fmt::format("`{}` is not a day", *text),
         "write year, month and day as ISO 8601 does: 2026-05-02");
  return {};
}

std::optional<Value> ValueReader::read_weight(const KeySpec& spec, const TomlNode& node) {
  if (node.type != TomlNode::Type::integer) {
    wrong_type(spec, node, "a whole number");
    return {};
  }
  if (node.integer >= 1 && node.integer <= greatest_weight) return Value{node.integer};
  refuse(Code::wrong_value, place_of(node),
         fmt::format("`{}` is a whole number from 1 to {}", spec.name, greatest_weight));
  return {};
}

std::optional<Value> ValueReader::read_condition_value(const KeySpec& spec, const TomlNode& node) {
  std::string text;
  if (node.is_text()) text = node.text;
  if (node.type == TomlNode::Type::integer) text = std::to_string(node.integer);
  if (text.empty()) {
    wrong_type(spec, node, "a condition such as \"C8\"");
    return {};
  }
  if (const auto condition = read_condition(text)) return Value{*condition};
  refuse(Code::broken_condition, place_of(node), fmt::format("`{}` is not a condition", text),
         "write \"C1\" to \"C10\" in steps of a half, or 0 to 100; anything else belongs into `notes`");
  return {};
}

std::optional<Value> ValueReader::read_amount_value(const KeySpec& spec, const TomlNode& node) {
  const std::string_view wanted = spec.type == ValueType::money      ? "an amount in quotes, \"41.50 GBP\""
                                  : spec.type == ValueType::currency ? "a currency in quotes, \"GBP\""
                                  : spec.type == ValueType::percent  ? "a percentage in quotes, \"2.5 %\""
                                                                     : "a rate in quotes, \"1.1745\"";
  const auto text = text_of(spec, node, wanted);
  if (!text) return {};
  const auto give = [&](const auto& read) -> std::optional<Value> {
    if (const auto* misread = std::get_if<MisreadAmount>(&read)) {
      refuse(Code::broken_amount, place_of(node), misread->message, misread->help);
      return {};
    }
    return Value{std::get<0>(read)};
  };
  switch (spec.type) {
  case ValueType::money:
    return give(read_money(*text));
  case ValueType::currency:
    return give(read_currency(*text));
  case ValueType::percent:
    return give(read_percent(*text));
  default:
    const auto rate = read_decimal(*text);
    if (const auto* number = std::get_if<Decimal>(&rate); number != nullptr && number->digits == 0) {
      refuse(Code::broken_amount, place_of(node), fmt::format("`{}` is no rate: nothing is worth nought", *text),
             "write what one unit was worth: \"1.1745\"");
      return {};
    }
    return give(rate);
  }
}

} // namespace coeval
