// money/rates.hpp: what was an amount worth in another currency on the day that it was paid?
//
// At the latest stated rate of that day or before it, in either direction; no two rates are chained. Between the euro
// and a currency that it replaced the fixed rate serves where none is stated. Each amount is rounded once.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <variant>
#include <vector>

#include "money/money.hpp"

namespace coeval {

struct DatedRate {
  ExchangeRate rate;
  std::int64_t day = 0; // on which it held; any count of days
  Rounding rounding = Rounding::half_up;
};

enum class ConvertedBy : std::uint8_t {
  nothing,     // it was in this currency
  stated_rate, // `rate` says which
  fixed_rate,  // of Council Regulation (EC) 2866/98
};

struct Converted {
  Money money;
  ConvertedBy by = ConvertedBy::nothing;
  std::size_t rate = 0; // the place of a stated rate in what Rates was given
};

enum class NotConverted : std::uint8_t {
  no_rate,   // none is stated for the two currencies on or before the day
  too_large, // the amount does not fit
};

class Rates {
public:
  // Throws std::logic_error for a rate of nought or less, or between one and the same currency.
  explicit Rates(const std::vector<DatedRate>& rates);

  // Of two stated rates of the same day the one that was given last serves. Takes the logarithm of the number of rates.
  [[nodiscard]] std::variant<Converted, NotConverted> convert(const Money& money, Currency to, std::int64_t day) const;

private:
  struct Row {
    Currency lower; // of the two currencies, in the order of their codes
    Currency higher;
    std::int64_t day;
    std::size_t place;
    ExchangeRate rate;
    Rounding rounding;
  };
  std::vector<Row> rows_; // sorted by the first four
};

} // namespace coeval
