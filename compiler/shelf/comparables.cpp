#include "shelf/comparables.hpp"

#include <algorithm>
#include <array>
#include <map>

#include <fmt/format.h>

#include "calendar/day.hpp"
#include "shelf/dated_rates.hpp"

namespace coeval {
namespace {

enum class Match : std::uint8_t { no, maybe, yes };

Match yes_if(bool same) { return same ? Match::yes : Match::no; }

// Of a thing that is one of several: the wider thing alone does not say which.
Match narrow(bool same, bool of_the_same_kind, bool known) {
  if (known) return yes_if(same);
  return of_the_same_kind ? Match::maybe : Match::no;
}

Match match(const LinkedKb& kb, const Sale& sale, EntryIndex subject) {
  const std::uint32_t place = kb.position[at(subject)];
  const auto accessory_of_sale = sale.run ? std::optional(kb.runs[at(*sale.run)].accessory) : sale.accessory;
  const auto figure_of_sale = sale.issue ? std::optional(kb.issues[at(*sale.issue)].figure) : sale.figure;
  switch (kb.entries[subject].kind) {
  case Kind::issue:
    return narrow(sale.issue == IssueIndex{place}, figure_of_sale == kb.issues[place].figure, sale.issue.has_value());
  case Kind::figure:
    return yes_if(figure_of_sale == FigureIndex{place});
  case Kind::run:
    return narrow(sale.run == RunIndex{place}, accessory_of_sale == kb.runs[place].accessory, sale.run.has_value());
  case Kind::mould:
    return narrow(sale.run && kb.runs[at(*sale.run)].mould == MouldIndex{place},
                  accessory_of_sale == kb.moulds[place].accessory, sale.run.has_value());
  case Kind::accessory:
    return yes_if(accessory_of_sale == AccessoryIndex{place});
  default:
    return Match::no;
  }
}

// Groups of prices that sort by a key, the first of it first.
template <class Key>
std::vector<ComparableGroup> listed(const std::map<Key, std::vector<Money>>& groups, auto name_of) {
  std::vector<ComparableGroup> list;
  for (const auto& [key, prices] : groups) list.push_back({.of = name_of(key), .spread = *spread_of(prices)});
  return list;
}

// Steps of the scale of ten stay; those of the hundred are told by tens, 100 alone.
struct ConditionStep {
  bool said = false;
  Condition::Scale scale{};
  int tenths = 0; // the lowest of the step
};
ConditionStep step_of(const std::optional<Condition>& condition) {
  if (!condition) return {};
  const bool tens = condition->scale == Condition::Scale::hundred;
  return {.said = true, .scale = condition->scale, .tenths = tens ? condition->tenths / 100 * 100 : condition->tenths};
}

std::string words_of(const ConditionStep& step) {
  if (!step.said) return {};
  const Condition lowest{.scale = step.scale, .tenths = step.tenths};
  const bool alone = step.scale == Condition::Scale::c || step.tenths == 1000;
  return alone ? text(lowest) : fmt::format("{} to {}", step.tenths / 10, step.tenths / 10 + 9);
}

constexpr std::array completeness{"sealed", "complete", "incomplete", "bare"};

ComparedSales compared(const LinkedShelf& shelf, std::vector<ComparableSale> sales) {
  std::vector<Money> all;
  std::vector<DatedAmount> dated;
  std::map<std::tuple<bool, Condition::Scale, int>, std::vector<Money>> conditions; // the best first
  std::map<std::size_t, std::vector<Money>> complete;
  std::map<std::pair<bool, std::string>, std::vector<Money>> places;
  for (const ComparableSale& compared_sale : sales) {
    const Sale& sale = shelf.sales[compared_sale.sale];
    const Money& price = compared_sale.price;
    const Date day = date_of(sale.on);
    const ConditionStep step = step_of(sale.condition);
    all.push_back(price);
    dated.push_back({.amount = price, .quarter = quarter_of(day.year, day.month)});
    conditions[{!step.said, step.scale, -step.tenths}].push_back(price);
    complete[static_cast<std::size_t>(std::ranges::find(completeness, sale.complete) - completeness.begin())].push_back(
        price);
    places[{sale.place.empty(), sale.place}].push_back(price);
  }
  return {.sales = std::move(sales),
          .all = *spread_of(all),
          .conditions = listed(conditions,
                               [](const auto& key) {
                                 return words_of({!std::get<0>(key), std::get<1>(key), -std::get<2>(key)});
                               }),
          .completeness = listed(complete,
                                 [](std::size_t word) {
                                   return word < completeness.size() ? std::string{completeness[word]} : std::string{};
                                 }),
          .places = listed(places, [](const auto& key) { return key.second; }),
          .quarters = by_quarter(dated)};
}

} // namespace

Comparables compare_sales(const LinkedShelf& shelf, const LinkedKb& kb, EntryIndex subject) {
  const Rates rates{dated_rates(shelf)};
  Comparables result;
  std::map<Currency, std::vector<ComparableSale>> currencies;
  for (std::size_t i = 0; i < shelf.sales.size(); ++i) {
    const Sale& sale = shelf.sales[i];
    const Match matches = match(kb, sale, subject);
    if (matches == Match::maybe) ++result.of_unknown_issue_or_run;
    if (matches != Match::yes) continue;
    const auto converted = rates.convert(sale.price, shelf.home.value_or(sale.price.currency), sale.on);
    if (const auto* found = std::get_if<Converted>(&converted))
      currencies[found->money.currency].push_back({.sale = i, .price = found->money});
    else
      result.without_rate.push_back(i);
  }
  for (auto& [currency, sales] : currencies) result.currencies.push_back(compared(shelf, std::move(sales)));
  return result;
}

} // namespace coeval
