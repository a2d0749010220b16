#include <fmt/format.h>

#include "report/json_parts.hpp"
#include "report/money.hpp"
#include "report/money_words.hpp"

namespace coeval {
namespace {

Json headed(std::string_view command) { return {{"format", fmt::format("coeval-{}", command)}, {"version", 1}}; }

Json money_or_null(const std::optional<Money>& amount) { return amount ? Json(text(*amount)) : Json(nullptr); }

Json monies(const std::vector<Money>& amounts) {
  Json list = Json::array();
  for (const Money& amount : amounts) list.push_back(text(amount));
  return list;
}

Json sum_json(const LedgerSum& sum, Json json) {
  json["purchases"] = sum.purchases;
  json["paid"] = monies(sum.paid);
  json["at-home"] = money_or_null(sum.at_home);
  return json;
}

Json sums_json(const std::vector<LedgerSum>& sums, const std::string& key) {
  Json list = Json::array();
  for (const LedgerSum& sum : sums) list.push_back(sum_json(sum, {{key, text_or_null(sum.of)}}));
  return list;
}

Json line_json(const LedgerReport& report, const LedgerLine& line) {
  const Purchase& purchase = report.shelf[line.purchase];
  Json json{{"purchase", purchase.id},
            {"on", day_or_null(purchase.entered())},
            {"outlay", name(line.outlay)},
            {"paid", text(line.paid)},
            {"at-home", money_or_null(line.at_home)}};
  const bool stated = line.at_home && line.by == ConvertedBy::stated_rate;
  json["rate-on"] = stated ? Json(iso(report.shelf.rates[line.rate].on)) : Json(nullptr);
  json["fixed-rate"] = line.at_home && line.by == ConvertedBy::fixed_rate;
  json["without-rate"] = line.without_rate;
  return json;
}

Json rate_json(const LedgerReport& report, const UsedRate& used) {
  const Quotation& quoted = report.shelf.rates[used.rate];
  return {{"one", quoted.rate.one.code()}, {"is", text(quoted.rate.is)},    {"of", quoted.rate.other.code()},
          {"on", iso(quoted.on)},          {"source", quoted.source},       {"rounding", text(quoted.rounding)},
          {"amounts", used.lines},         {"most-days-later", used.oldest}};
}

Json costs_json(const CostSet& costs) {
  Json list = Json::array();
  for (std::size_t cost = 0; cost < kinds_of_cost; ++cost)
    if (costs.has(static_cast<Cost>(cost))) list.push_back(text(static_cast<Cost>(cost)));
  return list;
}

Json bill_json(const Landed& bill) {
  const auto amount = [&](std::int64_t minor) { return text(Money{bill.total.currency, minor}); };
  Json lines = Json::array();
  for (const LandedLine& line : bill.lines) {
    Json parts = Json::array();
    for (const LandedLine::Part& part : line.parts)
      parts.push_back({{"percent", text(part.percent)}, {"on", amount(part.on)}});
    Json json{{"cost", text(line.cost)}, {"name", text_or_null(line.name)}, {"amount", amount(line.amount)}};
    json["charged-on"] = costs_json(line.on);
    json["parts"] = std::move(parts);
    json["held"] = name(line.held);
    json["rounding"] = line.parts.empty() ? Json(nullptr) : Json(text(line.rounding.mode));
    json["rounding-to"] = line.parts.empty() ? Json(nullptr) : Json(amount(line.rounding.unit));
    lines.push_back(std::move(json));
  }
  return {{"bid", amount(bill.lines.front().amount)}, {"lines", std::move(lines)}, {"total", text(bill.total)}};
}

Json bill_or_null(const std::optional<Landed>& bill) { return bill ? bill_json(*bill) : Json(nullptr); }

Json spread_json(const PriceSpread& spread, Json json = Json::object()) {
  json["sales"] = spread.count;
  json["lowest"] = text(spread.low);
  json["lower-quartile"] = text(spread.lower_quartile);
  json["median"] = text(spread.median);
  json["upper-quartile"] = text(spread.upper_quartile);
  json["highest"] = text(spread.high);
  return json;
}

Json groups_json(const std::vector<ComparableGroup>& groups) {
  Json list = Json::array();
  for (const ComparableGroup& group : groups)
    list.push_back(spread_json(group.spread, {{"of", text_or_null(group.of)}}));
  return list;
}

Json sale_json(const Sale& sale) {
  return {{"on", iso(sale.on)},
          {"price", text(sale.price)},
          {"condition", sale.condition ? Json(text(*sale.condition)) : Json(nullptr)},
          {"complete", text_or_null(sale.complete)},
          {"place", text_or_null(sale.place)},
          {"source", text_or_null(sale.source)}};
}

Json compared_json(const LinkedShelf& shelf, const ComparedSales& compared) {
  Json sales = Json::array();
  for (const ComparableSale& comparable : compared.sales) {
    Json json = sale_json(shelf.sales[comparable.sale]);
    json["compared"] = text(comparable.price);
    sales.push_back(std::move(json));
  }
  Json quarters = Json::array();
  for (const QuarterSpread& quarter : compared.quarters)
    quarters.push_back(spread_json(quarter.spread, {{"quarter", quarter_words(quarter.quarter)}}));
  return {{"currency", compared.all.median.currency.code()},
          {"all", spread_json(compared.all)},
          {"few", compared.all.count < few_sales},
          {"by-condition", groups_json(compared.conditions)},
          {"by-completeness", groups_json(compared.completeness)},
          {"by-place", groups_json(compared.places)},
          {"by-quarter", std::move(quarters)},
          {"sales", std::move(sales)}};
}

} // namespace

std::string ledger_json(const LedgerReport& report) {
  const Ledger& ledger = report.ledger;
  Json json = headed("ledger");
  json["name"] = text_or_null(report.shelf.name);
  json["home"] = ledger.home ? Json(ledger.home->code()) : Json(nullptr);
  json["total"] = sum_json(ledger.total, Json::object());
  Json things = Json::array();
  for (const LedgerThing& thing : ledger.things)
    things.push_back(sum_json(thing.sum, {{"kind", spec_of(thing.kind).name}, {"id", thing.sum.of}}));
  json["by-piece"] = std::move(things);
  json["by-seller"] = sums_json(ledger.sellers, "seller");
  json["by-year"] = sums_json(ledger.years, "year");
  json["by-month"] = sums_json(ledger.months, "month");
  json["by-currency"] = Json::array();
  for (const LedgerCurrency& currency : ledger.currencies)
    json["by-currency"].push_back(
        {{"amounts", currency.lines}, {"paid", text(currency.paid)}, {"at-home", money_or_null(currency.at_home)}});
  json["lines"] = Json::array();
  for (const LedgerLine& line : ledger.lines) json["lines"].push_back(line_json(report, line));
  json["rates"] = Json::array();
  for (const UsedRate& used : ledger.rates) json["rates"].push_back(rate_json(report, used));
  json["without-rate"] = ledger.lines_without_rate;
  json["not-counted"] = ledger.not_counted;
  return written(json);
}

std::string ceiling_json(const CeilingReport& report) {
  const Currency currency = report.budget.currency;
  Json json = headed("ceiling");
  json["fees"] = report.fees.id;
  json["name"] = text_or_null(report.fees.name);
  json["budget"] = text(report.budget);
  json["increment"] = text(Money{currency, report.fees.increment});
  json["highest"] = bill_or_null(report.bill);
  json["left"] =
      report.bill ? Json(text(Money{currency, report.budget.minor - report.bill->total.minor})) : Json(nullptr);
  json["next"] = bill_or_null(report.next);
  json["caution"] = ceiling_caution;
  return written(json);
}

std::string comparables_json(const ComparablesReport& report) {
  Json json = headed("comparables");
  json["of"] = report.subject;
  json["currencies"] = Json::array();
  for (const ComparedSales& compared : report.comparables.currencies)
    json["currencies"].push_back(compared_json(report.shelf, compared));
  json["without-rate"] = Json::array();
  for (const std::size_t sale : report.comparables.without_rate)
    json["without-rate"].push_back(sale_json(report.shelf.sales[sale]));
  json["only-figure-or-accessory-known"] = report.comparables.of_unknown_issue_or_run;
  json["caution"] = comparables_caution;
  return written(json);
}

} // namespace coeval
