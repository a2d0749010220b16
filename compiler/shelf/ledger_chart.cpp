#include "shelf/ledger_chart.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "calendar/day.hpp"

namespace coeval {
namespace {

// What a month came to, in the one currency that can be drawn.
std::optional<Money> drawn_sum(const LedgerSum& month, Currency currency) {
  if (month.at_home) return month.at_home;
  if (month.paid.size() == 1 && month.paid.front().currency == currency) return month.paid.front();
  if (month.paid.empty()) return Money{.currency = currency};
  return {};
}

} // namespace

std::optional<ColumnChart> chart_by_month(const Ledger& ledger) {
  if (ledger.too_large || ledger.total.paid.empty() || (ledger.home && !ledger.total.at_home)) return {};
  if (!ledger.home && ledger.total.paid.size() > 1) return {};
  const Currency currency = ledger.home.value_or(ledger.total.paid.front().currency);
  ColumnChart chart{.title = fmt::format("paid by month, in {}", currency.code()),
                    .unit = std::string{currency.code()},
                    .decimals = currency.decimals()};
  for (const LedgerSum& month : ledger.months) {
    if (!month.first_day) {
      chart.title += fmt::format("; {} purchase{} without a day", month.purchases, month.purchases == 1 ? "" : "s");
      continue;
    }
    const std::optional<Money> sum = drawn_sum(month, currency);
    if (!sum) return {};
    const Date date = date_of(*month.first_day);
    chart.columns.push_back({.year = date.year, .month = date.month, .sum = sum->minor, .words = text(*sum)});
  }
  return chart;
}

} // namespace coeval
