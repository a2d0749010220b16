#include <algorithm>

#include <fmt/format.h>

#include "diagnose/glyphs.hpp"
#include "report/money.hpp"
#include "report/money_words.hpp"

namespace coeval {
namespace {

constexpr std::size_t most_money_rows = 60; // of a table for a person; JSON has them all
constexpr std::string_view not_said = "not said";

std::string plural(std::size_t count, std::string_view noun) {
  return fmt::format("{} {}{}", count, noun, count == 1 ? "" : "s");
}

// Columns on a terminal.
std::size_t width_of(std::string_view text) {
  std::size_t width = 0;
  for (const Glyph& glyph : read_glyphs(text)) width += glyph.width;
  return width;
}

// A name of somebody's own, made safe and no wider than a column of a table may be.
std::string named(std::string_view words) {
  constexpr std::size_t widest = 44;
  std::string cut;
  std::size_t width = 0;
  for (const Glyph& glyph : read_glyphs(words)) {
    if (width + glyph.width >= widest) return cut + "…";
    cut += glyph.shown;
    width += glyph.width;
  }
  return cut;
}

std::string padding(std::string_view text, std::size_t width) {
  return std::string(width - std::min(width, width_of(text)), ' ');
}

std::string line_of(std::string text) {
  while (!text.empty() && text.back() == ' ') text.pop_back();
  return text + "\n";
}

// A table with its first column to the left and the others to the right, as wide as what is in them.
class AmountTable {
public:
  explicit AmountTable(std::vector<std::string> head) : rows_{std::move(head)} {}
  void add(std::vector<std::string> cells) {
    if (rows_.size() <= most_money_rows)
      rows_.push_back(std::move(cells));
    else
      ++left_out_;
  }
  [[nodiscard]] std::string text() const {
    std::vector<std::size_t> widths(rows_.front().size(), 0);
    for (const auto& row : rows_)
      for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], width_of(row[i]));
    std::string text;
    for (const auto& row : rows_) {
      std::string cells = "  " + row.front() + padding(row.front(), widths.front());
      for (std::size_t i = 1; i < row.size(); ++i) cells += "  " + padding(row[i], widths[i]) + row[i];
      text += line_of(std::move(cells));
    }
    if (left_out_ > 0) text += fmt::format("  and {}; --format json has them all\n", plural(left_out_, "more row"));
    return text;
  }

private:
  std::vector<std::vector<std::string>> rows_;
  std::size_t left_out_ = 0;
};

std::string said(const std::string& words) { return words.empty() ? std::string{not_said} : named(words); }

std::string at_home_words(const std::optional<Money>& amount) { return amount ? amount_text(*amount) : "-"; }

std::vector<std::string> ledger_head(const Ledger& ledger, std::string of, std::string counted) {
  std::vector<std::string> head{std::move(of), std::move(counted), "paid"};
  if (ledger.home) head.push_back(fmt::format("in {}", ledger.home->code()));
  return head;
}

// One row for each currency in which was paid; what it is at home stands in the first.
void add_sum(AmountTable& table, const Ledger& ledger, std::string of, const LedgerSum& sum) {
  for (std::size_t i = 0; i < std::max<std::size_t>(sum.paid.size(), 1); ++i) {
    std::vector<std::string> cells{i == 0 ? of : "", i == 0 ? fmt::format("{}", sum.purchases) : "",
                                   sum.paid.empty() ? "" : text(sum.paid[i])};
    if (ledger.home) cells.push_back(i == 0 ? at_home_words(sum.at_home) : "");
    table.add(std::move(cells));
  }
}

std::string sums_table(const Ledger& ledger, std::string_view heading, std::string_view nameless,
                       const std::vector<LedgerSum>& sums) {
  AmountTable table(ledger_head(ledger, "", "purchases"));
  for (const LedgerSum& sum : sums) add_sum(table, ledger, sum.of.empty() ? std::string{nameless} : named(sum.of), sum);
  return fmt::format("\nby {}\n{}", heading, table.text());
}

std::string things_table(const Ledger& ledger) {
  AmountTable table(ledger_head(ledger, "", "purchases"));
  for (const LedgerThing& thing : ledger.things) {
    const std::string_view what = thing.kind == Kind::piece  ? ""
                                  : thing.kind == Kind::part ? " (loose)"
                                                             : " (nothing on the shelf)";
    add_sum(table, ledger, named(thing.sum.of) + std::string{what}, thing.sum);
  }
  return "\nby piece, with what it wears\n" + table.text();
}

std::string currencies_table(const Ledger& ledger) {
  AmountTable table(ledger_head(ledger, "", "amounts"));
  for (const LedgerCurrency& currency : ledger.currencies) {
    std::vector<std::string> cells{std::string{currency.paid.currency.code()}, fmt::format("{}", currency.lines),
                                   text(currency.paid)};
    if (ledger.home) cells.push_back(at_home_words(currency.at_home));
    table.add(std::move(cells));
  }
  return "\nby currency\n" + table.text();
}

std::string lines_table(const LedgerReport& report) {
  const Ledger& ledger = report.ledger;
  std::vector<std::string> head{"", "on", "for", "paid"};
  if (ledger.home) head.push_back(fmt::format("in {}", ledger.home->code()));
  AmountTable table(std::move(head));
  for (const LedgerLine& line : ledger.lines) {
    const Purchase& purchase = report.shelf[line.purchase];
    const std::optional<Day> day = purchase.entered();
    std::vector<std::string> cells{named(purchase.id), day ? iso(*day) : "-", std::string{name(line.outlay)},
                                   text(line.paid)};
    if (ledger.home) cells.push_back(at_home_words(line.at_home));
    table.add(std::move(cells));
  }
  return "\nevery amount\n" + table.text();
}

std::string rates_list(const LedgerReport& report, TextStyle style) {
  const Ledger& ledger = report.ledger;
  if (ledger.rates.empty() && ledger.fixed_rate_lines == 0) return {};
  std::string list = "\nrates\n";
  for (std::size_t i = 0; i < std::min(ledger.rates.size(), most_money_rows); ++i) {
    const UsedRate& used = ledger.rates[i];
    const Quotation& quoted = report.shelf.rates[used.rate];
    std::string words = fmt::format("1 {} = {} {} on {} ({}), rounded {}: {}", quoted.rate.one.code(),
                                    text(quoted.rate.is), quoted.rate.other.code(), iso(quoted.on),
                                    quoted.source.empty() ? std::string{not_said} : printable(quoted.source),
                                    text(quoted.rounding), plural(used.lines, "amount"));
    if (used.oldest > 0)
      words += fmt::format(", the last {} later", plural(static_cast<std::size_t>(used.oldest), "day"));
    list += fmt::format("  {}\n", wrap(words, 2, style));
  }
  if (ledger.rates.size() > most_money_rows)
    list += fmt::format("  and {}; --format json has them all\n",
                        plural(ledger.rates.size() - most_money_rows, "more rate"));
  if (ledger.fixed_rate_lines > 0)
    list += fmt::format("  {}\n", wrap(fmt::format("rates fixed by Council Regulation (EC) No 2866/98, rounded as No "
                                                   "1103/97 says: {}",
                                                   plural(ledger.fixed_rate_lines, "amount")),
                                       2, style));
  return list;
}

std::vector<std::string> spread_cells(const PriceSpread& spread) {
  std::vector<std::string> cells{fmt::format("{}", spread.count)};
  for (const Money& amount : {spread.low, spread.lower_quartile, spread.median, spread.upper_quartile, spread.high})
    cells.push_back(amount_text(amount));
  return cells;
}

void add_spread(AmountTable& table, std::string of, const PriceSpread& spread) {
  std::vector<std::string> cells = spread_cells(spread);
  cells.insert(cells.begin(), std::move(of));
  table.add(std::move(cells));
}

AmountTable spread_table(std::string of) {
  return AmountTable({std::move(of), "sales", "lowest", "lower quartile", "median", "upper quartile", "highest"});
}

std::string groups_table(std::string heading, const std::vector<ComparableGroup>& groups) {
  const bool nothing_said = groups.size() == 1 && groups.front().of.empty();
  if (nothing_said) return {};
  AmountTable table = spread_table(std::move(heading));
  for (const ComparableGroup& group : groups) add_spread(table, said(group.of), group.spread);
  return "\n" + table.text();
}

std::string sales_list(const LinkedShelf& shelf, const ComparedSales& compared) {
  AmountTable table({"sold on", "for", "condition", "with it", "where"});
  for (const ComparableSale& comparable : compared.sales) {
    const Sale& sale = shelf.sales[comparable.sale];
    table.add({iso(sale.on), text(sale.price), sale.condition ? text(*sale.condition) : "-",
               sale.complete.empty() ? "-" : sale.complete, sale.place.empty() ? "-" : named(sale.place)});
  }
  return "\n" + table.text();
}

std::string compared_text(const LinkedShelf& shelf, const ComparedSales& compared, TextStyle style) {
  AmountTable all = spread_table(fmt::format("in {}", compared.all.median.currency.code()));
  add_spread(all, "all", compared.all);
  std::string told = "\n" + all.text();
  if (compared.all.count < few_sales)
    told += fmt::format("  {}\n", wrap(fmt::format("only {}: too few for quartiles to say much; read the sales "
                                                   "themselves",
                                                   plural(compared.all.count, "sale")),
                                       2, style));
  told += groups_table("condition", compared.conditions);
  told += groups_table("with it", compared.completeness);
  told += groups_table("where", compared.places);
  AmountTable quarters = spread_table("quarter");
  for (const QuarterSpread& quarter : compared.quarters)
    add_spread(quarters, quarter_words(quarter.quarter), quarter.spread);
  return told + "\n" + quarters.text() + sales_list(shelf, compared);
}

} // namespace

std::string ledger_text(const LedgerReport& report, TextStyle style) {
  const Ledger& ledger = report.ledger;
  std::string told =
      report.shelf.name.empty() ? "ledger\n" : fmt::format("ledger of {}\n", printable(report.shelf.name));
  if (ledger.total.purchases == 0) {
    told += "\nnothing was bought\n";
  } else {
    AmountTable total(ledger_head(ledger, "", "purchases"));
    add_sum(total, ledger, "total", ledger.total);
    told += "\n" + total.text();
    told += things_table(ledger);
    told += sums_table(ledger, "seller", not_said, ledger.sellers);
    told += sums_table(ledger, "year", "without a day", ledger.years);
    told += currencies_table(ledger);
    if (report.every_amount) told += lines_table(report);
    told += rates_list(report, style);
  }
  if (ledger.not_counted > 0)
    told += fmt::format("\nnot counted: {}, no further than a bid\n", plural(ledger.not_counted, "purchase"));
  return told;
}

std::string ceiling_text(const CeilingReport& report, TextStyle style) {
  const Currency currency = report.budget.currency;
  const auto amount = [&](std::int64_t minor) { return amount_text({currency, minor}); };
  const std::string at = report.fees.name.empty() ? report.fees.id : named(report.fees.name);
  if (!report.bill) {
    std::string told = fmt::format("no bid at {} is within {}\n", at, text(report.budget));
    if (report.next)
      told += fmt::format("\nthe lowest, {}, comes to {}\n", amount(report.next_bid), text(report.next->total));
    return told + "\n" + wrap(ceiling_caution, 0, style) + "\n";
  }
  const std::int64_t bid = report.bill->lines.front().amount;
  std::string told =
      fmt::format("the highest bid at {} within {} is {}\n\n", at, text(report.budget), text(Money{currency, bid}));
  const auto what = [](const LandedLine& line) {
    return line.name.empty() ? std::string{text(line.cost)} : named(line.name);
  };
  std::size_t name_width = std::string_view{"total"}.size();
  for (const LandedLine& line : report.bill->lines) name_width = std::max(name_width, width_of(what(line)));
  const std::size_t amount_width = amount(report.bill->total.minor).size();
  const auto row = [&](const std::string& left, std::int64_t minor, const std::string& words) {
    const std::string head =
        "  " + left + padding(left, name_width) + "  " + padding(amount(minor), amount_width) + amount(minor) + "   ";
    told += line_of(head + wrap(words, width_of(head), style));
  };
  for (const LandedLine& line : report.bill->lines) {
    std::string words = charge_words(line, currency);
    if (!line.parts.empty() && line.rounding != StepRounding{})
      words += fmt::format(", rounded {} to {}", text(line.rounding.mode), amount(line.rounding.unit));
    row(what(line), line.amount, words);
  }
  const std::int64_t total = report.bill->total.minor;
  row("total", total, fmt::format("{} left", amount(report.budget.minor - total)));
  if (report.next)
    told += fmt::format("\nthe next bid, {}, comes to {}\n", amount(report.next_bid), text(report.next->total));
  return told + "\n" + wrap(ceiling_caution, 0, style) + "\n";
}

std::string comparables_text(const ComparablesReport& report, TextStyle style) {
  std::size_t sales = 0;
  for (const ComparedSales& compared : report.comparables.currencies) sales += compared.sales.size();
  std::string told = fmt::format("{} of {}\n", sales == 0 ? "no sale" : plural(sales, "sale"), report.subject);
  for (const ComparedSales& compared : report.comparables.currencies)
    told += compared_text(report.shelf, compared, style);
  if (const std::size_t missing = report.comparables.without_rate.size(); missing > 0) {
    told +=
        fmt::format("\nleft out: {}, for want of a rate to {}\n", plural(missing, "sale"), report.shelf.home->code());
    for (std::size_t i = 0; i < std::min(missing, most_money_rows); ++i) {
      const Sale& sale = report.shelf.sales[report.comparables.without_rate[i]];
      told += fmt::format("  {}  {}\n", iso(sale.on), text(sale.price));
    }
    if (missing > most_money_rows) told += fmt::format("  and {} more\n", missing - most_money_rows);
  }
  if (report.comparables.of_unknown_issue_or_run > 0)
    told += "\n" +
            wrap(fmt::format("not compared: {} of which only the figure or accessory is known",
                             plural(report.comparables.of_unknown_issue_or_run, "sale")),
                 0, style) +
            "\n";
  return told + "\n" + wrap(comparables_caution, 0, style) + "\n";
}

} // namespace coeval
