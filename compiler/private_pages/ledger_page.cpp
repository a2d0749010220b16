#include <fmt/format.h>

#include "private_pages/tell.hpp"
#include "shelf/ledger_chart.hpp"

namespace coeval {
namespace {

// "41.50 GBP + 12.00 EUR"
std::string paid_words(const std::vector<Money>& paid) {
  std::string sum;
  for (const Money& money : paid) sum += (sum.empty() ? "" : " + ") + text(money);
  return sum.empty() ? "nothing" : sum;
}

std::string home_words(const std::optional<Money>& at_home) { return at_home ? text(*at_home) : "no rate"; }

Cell cell(std::string text) { return {{words(std::move(text))}}; }

Table sums(std::string caption, std::string of, bool at_home, const std::vector<LedgerSum>& list) {
  Table table;
  table.caption = std::move(caption);
  table.columns = {cell(std::move(of)), cell("Purchases"), cell("Paid")};
  if (at_home) table.columns.push_back(cell("At home"));
  for (const LedgerSum& sum : list) {
    table.rows.push_back(
        {cell(sum.of.empty() ? "not said" : sum.of), cell(std::to_string(sum.purchases)), cell(paid_words(sum.paid))});
    if (at_home) table.rows.back().push_back(cell(home_words(sum.at_home)));
  }
  return table;
}

Table currencies(const Ledger& ledger) {
  Table table;
  table.caption = "By currency";
  table.columns = {cell("Currency"), cell("Amounts"), cell("Paid")};
  if (ledger.home) table.columns.push_back(cell("At home"));
  for (const LedgerCurrency& currency : ledger.currencies) {
    table.rows.push_back({cell(std::string{currency.paid.currency.code()}), cell(std::to_string(currency.lines)),
                          cell(text(currency.paid))});
    if (ledger.home) table.rows.back().push_back(cell(home_words(currency.at_home)));
  }
  return table;
}

Table rates(const PrivatePagesInput& input) {
  Table table;
  table.caption = "Exchange rates that were used";
  table.columns = {cell("Rate"), cell("Of the day"), cell("Read in"), cell("Amounts"), cell("Used up to")};
  for (const UsedRate& used : input.ledger.rates) {
    const Quotation& rate = input.shelf.rates[used.rate];
    table.rows.push_back(
        {cell(fmt::format("1 {} = {} {}", rate.rate.one.code(), text(rate.rate.is), rate.rate.other.code())),
         cell(iso(rate.on)), cell(rate.source), cell(std::to_string(used.lines)),
         cell(fmt::format("{} days later", used.oldest))});
  }
  return table;
}

} // namespace

Page ledger_page(const PrivatePagesInput& input) {
  const Ledger& ledger = input.ledger;
  const bool at_home = ledger.home.has_value();
  Page page{.path = "ledger.html", .title = "Ledger"};
  page.summary = fmt::format("What {} purchases cost, to the smallest coin.", ledger.total.purchases);
  Facts facts;
  facts.facts.push_back({"paid", {words(paid_words(ledger.total.paid))}, {}});
  if (at_home) facts.facts.push_back({"at home", {words(home_words(ledger.total.at_home))}, {}});
  if (ledger.not_counted != 0)
    facts.facts.push_back({"not counted", {words(fmt::format("{} offers and bids", ledger.not_counted))}, {}});
  if (ledger.lines_without_rate != 0)
    facts.facts.push_back({"without a rate", {words(fmt::format("{} amounts", ledger.lines_without_rate))}, {}});
  page.sections.push_back({"intro", {}, {}, {std::move(facts)}});

  std::vector<Block> months{sums("By month", "Month", at_home, ledger.months)};
  if (const auto chart = chart_by_month(ledger))
    months.insert(months.begin(), DrawingBlock{draw_columns(*chart, 360), draw_columns(*chart, 760), chart->title});
  add_to_list(page, "By month", std::move(months));
  add_to_list(page, "By year", {sums("By year", "Year", at_home, ledger.years)});
  add_to_list(page, "By seller", {sums("By seller", "Seller", at_home, ledger.sellers)});
  add_to_list(page, "By currency", {currencies(ledger)});
  if (!ledger.rates.empty()) add_to_list(page, "Rates", {rates(input)});
  std::vector<LedgerSum> things;
  for (const LedgerThing& thing : ledger.things) things.push_back(thing.sum);
  add_to_list(page, "By thing",
              {sums("By piece with what it wears, loose part, or purchase of nothing on this shelf", "Thing", at_home,
                    things)});
  return page;
}

} // namespace coeval
