// Is every total the sum of its lines, shared out without losing a unit, and is no rate made up?
#include <catch2/catch.hpp>

#include <map>
#include <random>

#include "shelf/ledger.hpp"
#include "shelf/ledger_chart.hpp"

using namespace coeval;

namespace {

Currency currency(std::string_view code) { return std::get<Currency>(read_currency(code)); }
Money money(std::string_view written) { return std::get<Money>(read_money(written)); }

Quotation quotation(std::string_view one, std::string_view is, std::string_view other, Day on) {
  return {.rate = {.one = currency(one), .is = std::get<Decimal>(read_decimal(is)), .other = currency(other)},
          .on = on,
          .source = "a newspaper"};
}

struct Builder {
  LinkedShelf shelf;

  Builder() { shelf.entries.entries.push_back({.kind = Kind::purchase}); }

  Purchase& bought(std::string id, std::string seller, std::optional<Day> paid,
                   std::initializer_list<std::pair<Outlay, std::string_view>> outlays) {
    Purchase purchase{.id = std::move(id), .seller = std::move(seller)};
    purchase.days[static_cast<std::size_t>(ParcelState::paid)] = paid;
    for (const auto& [outlay, written] : outlays) purchase.outlays[static_cast<std::size_t>(outlay)] = money(written);
    shelf.purchases.push_back(std::move(purchase));
    return shelf.purchases.back();
  }

  PieceIndex piece(std::string id, PurchaseIndex purchase, std::int64_t share = 1) {
    const PieceIndex index{static_cast<std::uint32_t>(shelf.pieces.size())};
    OwnedPiece piece{.id = std::move(id)};
    piece.received.purchase = purchase;
    piece.received.share = share;
    shelf.pieces.push_back(std::move(piece));
    shelf.purchases[static_cast<std::size_t>(purchase)].pieces.push_back(index);
    return index;
  }

  void part(std::string id, PurchaseIndex purchase, std::int64_t share, std::optional<PieceIndex> in) {
    const PartIndex index{static_cast<std::uint32_t>(shelf.parts.size())};
    OwnedPart part{.id = std::move(id), .in = in};
    part.received.purchase = purchase;
    part.received.share = share;
    shelf.parts.push_back(std::move(part));
    shelf.purchases[static_cast<std::size_t>(purchase)].parts.push_back(index);
  }
};

std::string told(const std::vector<Money>& amounts) {
  std::string words;
  for (const Money& amount : amounts) words += (words.empty() ? "" : " + ") + text(amount);
  return words;
}

std::string at_home(const std::optional<Money>& amount) { return amount ? text(*amount) : "-"; }

Day day(int year, int month, int of_month) { return day_number({year, month, of_month}); }

} // namespace

TEST_CASE("lines are converted one by one, and totals are the sums of them") {
  Builder made;
  made.shelf.home = currency("GBP");
  made.shelf.rates = {quotation("GBP", "1.15", "EUR", day(2026, 1, 1)),
                      quotation("GBP", "1.20", "EUR", day(2026, 3, 1))};
  made.bought("spring", "A. Seller", day(2026, 2, 1), {{Outlay::price, "10.00 EUR"}, {Outlay::shipping, "10.00 EUR"}});
  made.bought("summer", "B. Seller", day(2026, 6, 1), {{Outlay::price, "12.00 EUR"}, {Outlay::tax, "2.40 GBP"}});
  const Ledger ledger = keep_ledger(made.shelf);
  REQUIRE(ledger.lines.size() == 4);
  CHECK(at_home(ledger.lines[0].at_home) == "8.70 GBP"); // 8.6956 …, twice: 17.39 together would be another sum
  CHECK(ledger.total.purchases == 2);
  CHECK(told(ledger.total.paid) == "32.00 EUR + 2.40 GBP");
  CHECK(at_home(ledger.total.at_home) == "29.80 GBP");
  REQUIRE(ledger.sellers.size() == 2);
  CHECK(ledger.sellers[0].of == "A. Seller");
  CHECK(at_home(ledger.sellers[0].at_home) == "17.40 GBP");
  REQUIRE(ledger.months.size() == 2);
  CHECK(ledger.months[0].of == "2026-02");
  REQUIRE(ledger.years.size() == 1);
  CHECK(ledger.years[0].of == "2026");
  CHECK(ledger.years[0].purchases == 2);
  REQUIRE(ledger.currencies.size() == 2);
  CHECK(ledger.currencies[0].lines == 3);
  CHECK(text(ledger.currencies[0].paid) == "32.00 EUR");
  CHECK(at_home(ledger.currencies[0].at_home) == "27.40 GBP");
  REQUIRE(ledger.rates.size() == 2);
  CHECK(ledger.rates[0].lines == 2);
  CHECK(ledger.rates[0].oldest == 31);
  CHECK(ledger.rates[1].oldest == 92);
}

TEST_CASE("a missing rate leaves out the totals that lack it, and names itself once") {
  Builder made;
  made.shelf.home = currency("GBP");
  made.shelf.rates = {quotation("GBP", "1.25", "USD", day(2026, 5, 1))};
  made.bought("early", "A. Seller", day(2026, 4, 30), {{Outlay::price, "30.00 USD"}, {Outlay::shipping, "5.00 USD"}});
  made.bought("late", "B. Seller", day(2026, 5, 1), {{Outlay::price, "25.00 USD"}});
  made.bought("undated", "C. Seller", {}, {{Outlay::price, "9.00 GBP"}});
  const Ledger ledger = keep_ledger(made.shelf);
  CHECK(ledger.lines_without_rate == 2);
  CHECK_FALSE(ledger.total.at_home);
  CHECK(told(ledger.total.paid) == "9.00 GBP + 60.00 USD");
  CHECK(at_home(ledger.sellers[0].at_home) == "-");
  CHECK(at_home(ledger.sellers[1].at_home) == "20.00 GBP");
  CHECK(at_home(ledger.sellers[2].at_home) == "9.00 GBP");
  CHECK(ledger.years.back().of.empty());
  Diagnostics out;
  report_missing(made.shelf, ledger, out);
  REQUIRE(out.sorted().size() == 1);
  CHECK(out.sorted().front().code == Code::missing_rate);
  CHECK(out.sorted().front().message == "no rate from USD to GBP of 2026-04-30 or before it, nor for 1 more amount");
}

TEST_CASE("without a home currency nothing is converted and nothing is missing") {
  Builder made;
  made.bought("one", "A. Seller", day(2026, 4, 30), {{Outlay::price, "30.00 USD"}});
  const Ledger ledger = keep_ledger(made.shelf);
  CHECK_FALSE(ledger.total.at_home);
  CHECK(ledger.lines_without_rate == 0);
  Diagnostics out;
  report_missing(made.shelf, ledger, out);
  CHECK(out.sorted().empty());
}

TEST_CASE("marks and francs are worth their fixed rate where home is the euro") {
  Builder made;
  made.shelf.home = currency("EUR");
  made.bought("fair", "A. Seller", day(1991, 5, 1), {{Outlay::price, "195.58 DEM"}});
  const Ledger ledger = keep_ledger(made.shelf);
  CHECK(at_home(ledger.total.at_home) == "100.00 EUR");
  CHECK(ledger.fixed_rate_lines == 1);
}

TEST_CASE("a purchase is shared out among what came with it, worn parts to who wears them") {
  Builder made;
  made.shelf.home = currency("GBP");
  made.bought("lot", "A. Seller", day(2026, 4, 30), {{Outlay::price, "10.00 GBP"}});
  made.bought("lantern", "B. Seller", day(2026, 5, 30), {{Outlay::price, "4.00 GBP"}});
  made.bought("catalogue", "B. Seller", day(2026, 5, 30), {{Outlay::price, "1.00 GBP"}});
  const PieceIndex maren = made.piece("maren", PurchaseIndex{0});
  made.piece("tobias", PurchaseIndex{0});
  made.part("oar", PurchaseIndex{0}, 1, {});
  made.part("hat", PurchaseIndex{0}, 4, maren);
  made.part("lantern-1", PurchaseIndex{1}, 3, maren);
  made.part("lantern-2", PurchaseIndex{1}, 1, {});
  const Ledger ledger = keep_ledger(made.shelf);
  std::map<std::string, std::string> costs;
  for (const LedgerThing& thing : ledger.things) costs[thing.sum.of] = at_home(thing.sum.at_home);
  CHECK(costs == std::map<std::string, std::string>{{"maren", "10.14 GBP"},
                                                    {"tobias", "1.43 GBP"},
                                                    {"oar", "1.43 GBP"},
                                                    {"lantern-2", "1.00 GBP"},
                                                    {"catalogue", "1.00 GBP"}});
  CHECK(ledger.things[0].sum.purchases == 2); // though its hat came with the same lot
  CHECK(ledger.things.back().kind == Kind::purchase);
}

TEST_CASE("offers and bids do not count, what has no day does") {
  Builder made;
  Purchase& offer = made.bought("offer", "A. Seller", {}, {{Outlay::price, "10.00 GBP"}});
  offer.days[static_cast<std::size_t>(ParcelState::bid)] = day(2026, 4, 30);
  made.bought("gift", "", {}, {});
  const Ledger ledger = keep_ledger(made.shelf);
  CHECK(ledger.not_counted == 1);
  CHECK(ledger.total.purchases == 1);
  CHECK(ledger.total.paid.empty());
}

TEST_CASE("the months are drawn in one currency, or not at all") {
  Builder made;
  made.shelf.home = currency("GBP");
  made.bought("spring", "A. Seller", day(2026, 2, 1), {{Outlay::price, "10.00 GBP"}});
  made.bought("later", "A. Seller", day(2026, 2, 28), {{Outlay::price, "2.50 GBP"}});
  made.bought("undated", "A. Seller", {}, {{Outlay::price, "4.00 GBP"}});
  const auto chart = chart_by_month(keep_ledger(made.shelf));
  REQUIRE(chart);
  CHECK(chart->title == "paid by month, in GBP; 1 purchase without a day");
  REQUIRE(chart->columns.size() == 1);
  CHECK(chart->columns[0].year == 2026);
  CHECK(chart->columns[0].month == 2);
  CHECK(chart->columns[0].sum == 1250);
  CHECK(chart->columns[0].words == "12.50 GBP");
  made.shelf.home.reset();
  CHECK(chart_by_month(keep_ledger(made.shelf))->unit == "GBP");
  made.bought("abroad", "A. Seller", day(2026, 2, 28), {{Outlay::price, "2.50 EUR"}});
  CHECK_FALSE(chart_by_month(keep_ledger(made.shelf)));
  made.shelf.home = currency("GBP");
  CHECK_FALSE(chart_by_month(keep_ledger(made.shelf)));
}

TEST_CASE("sums that do not fit are told, and never wrap") {
  Builder made;
  made.shelf.home = currency("JPY");
  for (int i = 0; i < 9300; ++i)
    made.bought("p" + std::to_string(i), "A. Seller", day(2026, 1, 1), {{Outlay::price, "999999999999999 JPY"}});
  const Ledger ledger = keep_ledger(made.shelf);
  CHECK(ledger.too_large);
  Diagnostics out;
  report_missing(made.shelf, ledger, out);
  REQUIRE(out.sorted().size() == 1);
  CHECK(out.sorted().front().code == Code::broken_amount);
}

TEST_CASE("every way of grouping adds up to the same total") {
  std::mt19937_64 random(2866);
  const std::vector<std::string_view> codes = {"GBP", "EUR", "USD", "JPY", "KWD"};
  Builder made;
  made.shelf.home = currency("GBP");
  for (const std::string_view code : {"EUR", "USD", "JPY", "KWD"})
    for (Day on = 0; on < 9000; on += 100) {
      Quotation quoted = quotation("GBP", "1.1", code, on);
      quoted.rate.is = {.digits = 1 + static_cast<std::int64_t>(random() % 99'999), .scale = 4};
      made.shelf.rates.push_back(quoted);
    }
  std::ranges::stable_sort(made.shelf.rates, {}, &Quotation::on);
  for (int i = 0; i < 400; ++i) {
    Purchase& purchase = made.bought("p" + std::to_string(i), "seller " + std::to_string(random() % 30),
                                     static_cast<Day>(random() % 9000), {});
    for (std::size_t outlay = 0; outlay < outlay_count; ++outlay)
      if (random() % 2 == 0)
        purchase.outlays[outlay] =
            Money{currency(codes[random() % codes.size()]), static_cast<std::int64_t>(random() % 100'000)};
    const PurchaseIndex index{static_cast<std::uint32_t>(i)};
    std::optional<PieceIndex> last;
    for (auto pieces = random() % 3; pieces > 0; --pieces)
      last = made.piece("piece", index, 1 + static_cast<std::int64_t>(random() % 5));
    for (auto parts = random() % 3; parts > 0; --parts)
      made.part("part", index, 1 + static_cast<std::int64_t>(random() % 5), random() % 2 == 0 ? last : std::nullopt);
  }
  const Ledger ledger = keep_ledger(made.shelf);
  REQUIRE(ledger.total.at_home);
  const auto check = [&](const std::vector<LedgerSum>& sums) {
    std::map<std::string, std::int64_t> paid;
    std::int64_t home = 0;
    for (const LedgerSum& sum : sums) {
      for (const Money& amount : sum.paid) paid[std::string{amount.currency.code()}] += amount.minor;
      REQUIRE(sum.at_home);
      home += sum.at_home->minor;
    }
    CHECK(home == ledger.total.at_home->minor);
    REQUIRE(paid.size() == ledger.total.paid.size());
    for (const Money& amount : ledger.total.paid) CHECK(paid.at(std::string{amount.currency.code()}) == amount.minor);
  };
  check(ledger.sellers);
  check(ledger.years);
  check(ledger.months);
  std::vector<LedgerSum> things;
  for (const LedgerThing& thing : ledger.things) things.push_back(thing.sum);
  check(things);
  std::vector<LedgerSum> lines;
  for (const LedgerLine& line : ledger.lines) lines.push_back({.paid = {line.paid}, .at_home = line.at_home});
  check(lines);
  std::vector<LedgerSum> currencies;
  for (const LedgerCurrency& one : ledger.currencies)
    currencies.push_back({.paid = {one.paid}, .at_home = one.at_home});
  check(currencies);
}
