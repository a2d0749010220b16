// money/currency.hpp: which currencies are there, and how many decimals has each?
//
// The codes of ISO 4217 with their minor units, and those currencies that the euro replaced, with the rate that was
// fixed for each: a purchase of the 1990s is in marks or francs.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>

#include "money/decimal.hpp"

namespace coeval {

// One currency of the table. Compares and sorts by its code.
class Currency {
public:
  [[nodiscard]] std::string_view code() const; // "GBP"
  [[nodiscard]] int decimals() const;          // 0..4: how many decimals its minor unit has
  // Units of this currency for one euro, where the euro replaced it.
  [[nodiscard]] std::optional<Decimal> per_euro() const;
  friend auto operator<=>(const Currency&, const Currency&) = default;

private:
  explicit Currency(std::uint16_t row) : row_(row) {}
  friend std::variant<Currency, MisreadAmount> read_currency(std::string_view code);
  std::uint16_t row_; // of the table, which is sorted by code
};

// "GBP". Refuses codes that are no money (gold, test codes …), small letters and unknown codes, naming near ones.
[[nodiscard]] std::variant<Currency, MisreadAmount> read_currency(std::string_view code);

// Every code that read_currency takes, sorted.
[[nodiscard]] std::span<const std::string_view> currency_codes();

} // namespace coeval
