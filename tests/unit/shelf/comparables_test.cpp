// Are exactly the sales of the same thing compared, in one currency, and grouped as they were described?
#include <catch2/catch.hpp>

#include "in_memory_kb.hpp"
#include "shelf/comparables.hpp"

using namespace coeval;

namespace {

constexpr const char* two_issues = R"(
[figure]
id   = "keeper"
name = "Keeper"

[[issue]]
id     = "first"
packed = "1976/1977"

[[issue]]
id     = "second"
packed = "1978/1979"
)";

constexpr const char* two_runs = R"(
[accessory]
id   = "lantern"
name = "Lantern"
slot = "hand"

[[mould]]
id = "ring"

[[mould.run]]
id = "brass"

[[mould.run]]
id = "grey"

[[mould]]
id = "plain"

[[mould.run]]
id = "red"
)";

struct Market {
  in_memory::Kb kb{std::vector<SourceFile>{{"keeper.toml", two_issues}, {"lantern.toml", two_runs}}};
  LinkedShelf shelf;

  Sale& sold(std::string_view price, Day on = 0) {
    shelf.sales.push_back({.on = on, .price = std::get<Money>(read_money(price))});
    return shelf.sales.back();
  }
  [[nodiscard]] Comparables of(std::string_view address) const {
    REQUIRE(kb.entry(address) != no_entry);
    return compare_sales(shelf, kb.kb, kb.entry(address));
  }
  [[nodiscard]] std::size_t count(std::string_view address) const {
    std::size_t sales = 0;
    for (const ComparedSales& compared : of(address).currencies) sales += compared.sales.size();
    return sales;
  }
};

std::vector<std::string> names(const std::vector<ComparableGroup>& groups) {
  std::vector<std::string> list;
  for (const ComparableGroup& group : groups) list.push_back(group.of);
  return list;
}

Condition c(int tenths) { return {.scale = Condition::Scale::c, .tenths = tenths}; }
Condition hundred(int points) { return {.scale = Condition::Scale::hundred, .tenths = points * 10}; }

} // namespace

TEST_CASE("sales of the same issue, run or mould are compared, and those that may be of it are counted apart") {
  Market market;
  INFO(market.kb.troubles());
  market.sold("10.00 GBP").issue = market.kb.issue("keeper/first");
  market.sold("20.00 GBP").issue = market.kb.issue("keeper/second");
  market.sold("30.00 GBP").figure = FigureIndex{0};
  market.sold("1.00 GBP").run = market.kb.run("lantern/ring/brass");
  market.sold("2.00 GBP").run = market.kb.run("lantern/ring/grey");
  market.sold("3.00 GBP").run = market.kb.run("lantern/plain/red");
  market.sold("4.00 GBP").accessory = AccessoryIndex{0};
  CHECK(market.count("keeper/first") == 1);
  CHECK(market.of("keeper/first").of_unknown_issue_or_run == 1);
  CHECK(market.count("keeper") == 3);
  CHECK(market.of("keeper").of_unknown_issue_or_run == 0);
  CHECK(market.count("lantern/ring/brass") == 1);
  CHECK(market.of("lantern/ring/brass").of_unknown_issue_or_run == 1);
  CHECK(market.count("lantern/ring") == 2);
  CHECK(market.of("lantern/ring").of_unknown_issue_or_run == 1);
  CHECK(market.count("lantern") == 4);
}

TEST_CASE("prices are compared in the home currency, each at the rate of its day, or each currency for itself") {
  Market market;
  const IssueIndex first = market.kb.issue("keeper/first");
  market.sold("10.00 GBP", 100).issue = first;
  market.sold("11.00 EUR", 100).issue = first;
  market.sold("11.00 EUR", 50).issue = first;
  REQUIRE(market.of("keeper/first").currencies.size() == 2);
  CHECK(text(market.of("keeper/first").currencies[0].all.median) == "11.00 EUR");
  const auto currency = [](std::string_view code) { return std::get<Currency>(read_currency(code)); };
  market.shelf.home = currency("GBP");
  market.shelf.rates = {
      {.rate = {.one = currency("GBP"), .is = {.digits = 11, .scale = 1}, .other = currency("EUR")}, .on = 60}};
  const Comparables compared = market.of("keeper/first");
  REQUIRE(compared.currencies.size() == 1);
  CHECK(compared.currencies[0].all.count == 2);
  CHECK(text(compared.currencies[0].all.high) == "10.00 GBP");
  CHECK(compared.without_rate == std::vector<std::size_t>{2});
}

TEST_CASE("groups stand from the best to what is not said, and quarters in order") {
  Market market;
  const auto sell = [&](std::string_view price, std::optional<Condition> condition, std::string complete, Day on) {
    Sale& sale = market.sold(price, on);
    sale.issue = market.kb.issue("keeper/first");
    sale.condition = condition;
    sale.complete = std::move(complete);
  };
  sell("10.00 GBP", c(85), "complete", day_number({2026, 5, 1}));
  sell("20.00 GBP", c(90), "sealed", day_number({2025, 12, 31}));
  sell("12.00 GBP", c(85), "", day_number({2026, 4, 1}));
  sell("50.00 GBP", hundred(100), "bare", day_number({2026, 7, 1}));
  sell("40.00 GBP", hundred(89), "incomplete", day_number({2026, 7, 1}));
  sell("30.00 GBP", hundred(80), "complete", day_number({2026, 7, 1}));
  sell("1.00 GBP", {}, "complete", day_number({2026, 7, 1}));
  const ComparedSales compared = market.of("keeper/first").currencies.at(0);
  CHECK(names(compared.conditions) == std::vector<std::string>{"C9", "C8.5", "100", "80 to 89", ""});
  CHECK(compared.conditions[1].spread.count == 2);
  CHECK(text(compared.conditions[1].spread.median) == "11.00 GBP");
  CHECK(compared.conditions[3].spread.count == 2);
  CHECK(names(compared.completeness) == std::vector<std::string>{"sealed", "complete", "incomplete", "bare", ""});
  CHECK(names(compared.places) == std::vector<std::string>{""});
  REQUIRE(compared.quarters.size() == 3);
  CHECK(compared.quarters[0].quarter == Quarter{2025, 4});
  CHECK(compared.quarters[1].spread.count == 2);
  CHECK(compared.quarters[2].spread.count == 4);
}
