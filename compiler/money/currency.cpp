#include "money/currency.hpp"

#include <algorithm>
#include <array>
#include <vector>

#include <fmt/format.h>

#include "money/digits.hpp"

namespace coeval {

namespace {

struct CurrencyRow {
  std::string_view code;
  std::int8_t decimals;
  Decimal per_euro{}; // nought where the euro did not replace it
};

constexpr std::int8_t no_decimals = -1; // gold, test codes and the like: nothing can be paid in them

// List one of ISO 4217 (its maintenance agency, published 2024-06-25), and the currencies that the euro replaced with
// their rates from Article 1 of Council Regulation (EC) 2866/98 as amended up to Bulgaria in 2026; the decimals of
// those that list one no longer has are those of the Unicode CLDR.
constexpr std::array rows = std::to_array<CurrencyRow>({{"AED", 2},
                                                        {"AFN", 2},
                                                        {"ALL", 2},
                                                        {"AMD", 2},
                                                        {"ANG", 2},
                                                        {"AOA", 2},
                                                        {"ARS", 2},
                                                        {"ATS", 2, {137603, 4}},
                                                        {"AUD", 2},
                                                        {"AWG", 2},
                                                        {"AZN", 2},
                                                        {"BAM", 2},
                                                        {"BBD", 2},
                                                        {"BDT", 2},
                                                        {"BEF", 2, {403399, 4}},
                                                        {"BGN", 2, {195583, 5}},
                                                        {"BHD", 3},
                                                        {"BIF", 0},
                                                        {"BMD", 2},
                                                        {"BND", 2},
                                                        {"BOB", 2},
                                                        {"BOV", 2},
                                                        {"BRL", 2},
                                                        {"BSD", 2},
                                                        {"BTN", 2},
                                                        {"BWP", 2},
                                                        {"BYN", 2},
                                                        {"BZD", 2},
                                                        {"CAD", 2},
                                                        {"CDF", 2},
                                                        {"CHE", 2},
                                                        {"CHF", 2},
                                                        {"CHW", 2},
                                                        {"CLF", 4},
                                                        {"CLP", 0},
                                                        {"CNY", 2},
                                                        {"COP", 2},
                                                        {"COU", 2},
                                                        {"CRC", 2},
                                                        {"CUC", 2},
                                                        {"CUP", 2},
                                                        {"CVE", 2},
                                                        {"CYP", 2, {585274, 6}},
                                                        {"CZK", 2},
                                                        {"DEM", 2, {195583, 5}},
                                                        {"DJF", 0},
                                                        {"DKK", 2},
                                                        {"DOP", 2},
                                                        {"DZD", 2},
                                                        {"EEK", 2, {156466, 4}},
                                                        {"EGP", 2},
                                                        {"ERN", 2},
                                                        {"ESP", 0, {166386, 3}},
                                                        {"ETB", 2},
                                                        {"EUR", 2},
                                                        {"FIM", 2, {594573, 5}},
                                                        {"FJD", 2},
                                                        {"FKP", 2},
                                                        {"FRF", 2, {655957, 5}},
                                                        {"GBP", 2},
                                                        {"GEL", 2},
                                                        {"GHS", 2},
                                                        {"GIP", 2},
                                                        {"GMD", 2},
                                                        {"GNF", 0},
                                                        {"GRD", 2, {340750, 3}},
                                                        {"GTQ", 2},
                                                        {"GYD", 2},
                                                        {"HKD", 2},
                                                        {"HNL", 2},
                                                        {"HRK", 2, {753450, 5}},
                                                        {"HTG", 2},
                                                        {"HUF", 2},
                                                        {"IDR", 2},
                                                        {"IEP", 2, {787564, 6}},
                                                        {"ILS", 2},
                                                        {"INR", 2},
                                                        {"IQD", 3},
                                                        {"IRR", 2},
                                                        {"ISK", 0},
                                                        {"ITL", 0, {193627, 2}},
                                                        {"JMD", 2},
                                                        {"JOD", 3},
                                                        {"JPY", 0},
                                                        {"KES", 2},
                                                        {"KGS", 2},
                                                        {"KHR", 2},
                                                        {"KMF", 0},
                                                        {"KPW", 2},
                                                        {"KRW", 0},
                                                        {"KWD", 3},
                                                        {"KYD", 2},
                                                        {"KZT", 2},
                                                        {"LAK", 2},
                                                        {"LBP", 2},
                                                        {"LKR", 2},
                                                        {"LRD", 2},
                                                        {"LSL", 2},
                                                        {"LTL", 2, {345280, 5}},
                                                        {"LUF", 0, {403399, 4}},
                                                        {"LVL", 2, {702804, 6}},
                                                        {"LYD", 3},
                                                        {"MAD", 2},
                                                        {"MDL", 2},
                                                        {"MGA", 2},
                                                        {"MKD", 2},
                                                        {"MMK", 2},
                                                        {"MNT", 2},
                                                        {"MOP", 2},
                                                        {"MRU", 2},
                                                        {"MTL", 2, {429300, 6}},
                                                        {"MUR", 2},
                                                        {"MVR", 2},
                                                        {"MWK", 2},
                                                        {"MXN", 2},
                                                        {"MXV", 2},
                                                        {"MYR", 2},
                                                        {"MZN", 2},
                                                        {"NAD", 2},
                                                        {"NGN", 2},
                                                        {"NIO", 2},
                                                        {"NLG", 2, {220371, 5}},
                                                        {"NOK", 2},
                                                        {"NPR", 2},
                                                        {"NZD", 2},
                                                        {"OMR", 3},
                                                        {"PAB", 2},
                                                        {"PEN", 2},
                                                        {"PGK", 2},
                                                        {"PHP", 2},
                                                        {"PKR", 2},
                                                        {"PLN", 2},
                                                        {"PTE", 2, {200482, 3}},
                                                        {"PYG", 0},
                                                        {"QAR", 2},
                                                        {"RON", 2},
                                                        {"RSD", 2},
                                                        {"RUB", 2},
                                                        {"RWF", 0},
                                                        {"SAR", 2},
                                                        {"SBD", 2},
                                                        {"SCR", 2},
                                                        {"SDG", 2},
                                                        {"SEK", 2},
                                                        {"SGD", 2},
                                                        {"SHP", 2},
                                                        {"SIT", 2, {239640, 3}},
                                                        {"SKK", 2, {301260, 4}},
                                                        {"SLE", 2},
                                                        {"SOS", 2},
                                                        {"SRD", 2},
                                                        {"SSP", 2},
                                                        {"STN", 2},
                                                        {"SVC", 2},
                                                        {"SYP", 2},
                                                        {"SZL", 2},
                                                        {"THB", 2},
                                                        {"TJS", 2},
                                                        {"TMT", 2},
                                                        {"TND", 3},
                                                        {"TOP", 2},
                                                        {"TRY", 2},
                                                        {"TTD", 2},
                                                        {"TWD", 2},
                                                        {"TZS", 2},
                                                        {"UAH", 2},
                                                        {"UGX", 0},
                                                        {"USD", 2},
                                                        {"USN", 2},
                                                        {"UYI", 0},
                                                        {"UYU", 2},
                                                        {"UYW", 4},
                                                        {"UZS", 2},
                                                        {"VED", 2},
                                                        {"VES", 2},
                                                        {"VND", 0},
                                                        {"VUV", 0},
                                                        {"WST", 2},
                                                        {"XAF", 0},
                                                        {"XAG", no_decimals},
                                                        {"XAU", no_decimals},
                                                        {"XBA", no_decimals},
                                                        {"XBB", no_decimals},
                                                        {"XBC", no_decimals},
                                                        {"XBD", no_decimals},
                                                        {"XCD", 2},
                                                        {"XDR", no_decimals},
                                                        {"XOF", 0},
                                                        {"XPD", no_decimals},
                                                        {"XPF", 0},
                                                        {"XPT", no_decimals},
                                                        {"XSU", no_decimals},
                                                        {"XTS", no_decimals},
                                                        {"XUA", no_decimals},
                                                        {"XXX", no_decimals},
                                                        {"YER", 2},
                                                        {"ZAR", 2},
                                                        {"ZMW", 2},
                                                        {"ZWG", 2}});

constexpr std::size_t code_length = 3;
static_assert(std::ranges::is_sorted(rows, {}, &CurrencyRow::code));

constexpr std::size_t money_count = static_cast<std::size_t>(
    std::ranges::count_if(rows, [](const CurrencyRow& row) { return row.decimals != no_decimals; }));

constexpr auto codes_of_money() {
  std::array<std::string_view, money_count> codes{};
  std::size_t at = 0;
  for (const CurrencyRow& row : rows)
    if (row.decimals != no_decimals) codes[at++] = row.code;
  return codes;
}

constexpr auto money_codes = codes_of_money();

constexpr char capital(char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; }

// One letter is another, or two neighbours have changed places.
bool nearly(std::string_view one, std::string_view other) {
  std::vector<std::size_t> differing;
  for (std::size_t at = 0; at < one.size(); ++at)
    if (one[at] != other[at]) differing.push_back(at);
  if (differing.size() == 1) return true;
  return differing.size() == 2 && differing[1] == differing[0] + 1 && one[differing[0]] == other[differing[1]] &&
         one[differing[1]] == other[differing[0]];
}

const CurrencyRow* find_row(std::string_view code) {
  const auto* found = std::ranges::lower_bound(rows, code, {}, &CurrencyRow::code);
  return found != rows.end() && found->code == code ? found : nullptr;
}

MisreadAmount unknown_currency(std::string_view code) {
  constexpr std::size_t most_named = 3;
  std::vector<std::string> near;
  if (code.size() == code_length)
    for (const std::string_view known : money_codes)
      if (near.size() < most_named && nearly(code, known)) near.push_back(fmt::format("`{}`", known));
  std::string help = "a currency is three letters of ISO 4217, such as `GBP`, `EUR` or `USD`";
  if (!near.empty()) help = fmt::format("did you mean {}?", fmt::join(near, " or "));
  return {fmt::format("there is no currency {}", quoted(code)), std::move(help)};
}

} // namespace

std::string_view Currency::code() const { return rows[row_].code; }

int Currency::decimals() const { return rows[row_].decimals; }

std::optional<Decimal> Currency::per_euro() const {
  const Decimal& rate = rows[row_].per_euro;
  return rate.digits == 0 ? std::nullopt : std::optional(rate);
}

std::variant<Currency, MisreadAmount> read_currency(std::string_view code) {
  if (code.empty())
    return MisreadAmount{"a currency is missing", "write its three letters of ISO 4217, such as `GBP`, `EUR` or `USD`"};
  const auto* row = find_row(code);
  if (row == nullptr) {
    std::string capitals(code.substr(0, code_length + 1));
    std::ranges::transform(capitals, capitals.begin(), capital);
    if (find_row(capitals) != nullptr)
      return MisreadAmount{fmt::format("{} in small letters", quoted(code)),
                           fmt::format("a currency is written in capitals: `{}`", capitals)};
    return unknown_currency(code);
  }
  if (row->decimals == no_decimals)
    return MisreadAmount{fmt::format("`{}` is no money: ISO 4217 gives it no minor unit", code),
                         "give the price in the currency that was paid"};
  return Currency(static_cast<std::uint16_t>(row - rows.begin()));
}

std::span<const std::string_view> currency_codes() { return money_codes; }

} // namespace coeval
