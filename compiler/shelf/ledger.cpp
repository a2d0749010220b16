#include "shelf/ledger.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include <fmt/format.h>

#include "calendar/day.hpp"
#include "money/apportion.hpp"
#include "shelf/dated_rates.hpp"

namespace coeval {
namespace {

// Amounts in several currencies, and what they are at home.
class Sums {
public:
  Sums(std::optional<Currency> home, bool& too_large)
      : at_home_(home ? std::optional(Money{*home, 0}) : std::nullopt), too_large_(&too_large) {}

  void add(const Money& paid) { put(paid_.try_emplace(paid.currency, Money{paid.currency, 0}).first->second, paid); }
  // Nothing: a rate is missing, and from here on there is no sum at home.
  void add_at_home(const std::optional<Money>& amount) {
    if (!amount) at_home_.reset();
    if (at_home_) put(*at_home_, *amount);
  }
  void add(const Sums& other) {
    for (const auto& [currency, paid] : other.paid_) add(paid);
    add_at_home(other.at_home_);
  }

  [[nodiscard]] std::vector<Money> paid() const {
    std::vector<Money> list;
    for (const auto& [currency, paid] : paid_) list.push_back(paid);
    return list;
  }
  [[nodiscard]] const std::optional<Money>& at_home() const { return at_home_; }

  // The same shared out by weight: each amount for itself, so that the shares of each add up.
  [[nodiscard]] std::vector<Sums> shared(const std::vector<std::int64_t>& weights) const {
    std::vector<Sums> shares(weights.size(),
                             Sums(at_home_ ? std::optional(at_home_->currency) : std::nullopt, *too_large_));
    const auto share_out = [&](const Money& whole, const auto& give) {
      const std::vector<std::int64_t> parts = apportion(whole.minor, weights);
      for (std::size_t i = 0; i < parts.size(); ++i) give(shares[i], Money{whole.currency, parts[i]});
    };
    for (const auto& [currency, paid] : paid_) share_out(paid, [](Sums& share, const Money& part) { share.add(part); });
    if (at_home_) share_out(*at_home_, [](Sums& share, const Money& part) { share.add_at_home(part); });
    return shares;
  }

private:
  void put(Money& sum, const Money& amount) {
    if (const auto larger = coeval::add(sum, amount))
      sum = *larger;
    else
      *too_large_ = true;
  }

  std::map<Currency, Money> paid_;
  std::optional<Money> at_home_;
  bool* too_large_;
};

class Keeper {
public:
  explicit Keeper(const LinkedShelf& shelf) : shelf_(shelf), rates_(dated_rates(shelf)), total_(nothing_yet()) {
    ledger_.home = shelf.home;
  }

  Ledger keep() {
    for (std::size_t i = 0; i < shelf_.purchases.size(); ++i) enter(PurchaseIndex{static_cast<std::uint32_t>(i)});
    std::ranges::stable_sort(ledger_.lines, {}, [&](const LedgerLine& line) {
      const std::optional<Day> day = shelf_[line.purchase].entered();
      return std::pair(!day, day.value_or(0));
    });
    ledger_.lines_without_rate =
        static_cast<std::size_t>(std::ranges::count_if(ledger_.lines, &LedgerLine::without_rate));
    ledger_.total = sum_of({}, total_);
    for (const auto& [name, group] : sellers_) ledger_.sellers.push_back(sum_of(name, group));
    list_by_day(years_, std::string_view{"-01-01"}.size(), ledger_.years);
    list_by_day(months_, std::string_view{"-01"}.size(), ledger_.months);
    for (const auto& [currency, group] : currencies_)
      ledger_.currencies.push_back(
          {.lines = group.count, .paid = group.sums.paid().front(), .at_home = group.sums.at_home()});
    list_things();
    for (const auto& [place, used] : used_) ledger_.rates.push_back(used);
    ledger_.too_large = too_large_;
    return std::move(ledger_);
  }

private:
  struct Group {
    Sums sums;
    std::size_t count = 0; // of purchases; of lines in a currency
  };
  using ByDay = std::map<std::pair<bool, Day>, Group>; // by the first day of the month or year; true: without a day

  Group nothing_yet() { return {.sums = Sums(shelf_.home, too_large_)}; }

  static void take(Group& group, const Sums& sums) {
    group.sums.add(sums);
    ++group.count;
  }

  static LedgerSum sum_of(std::string of, const Group& group) {
    return {.of = std::move(of), .purchases = group.count, .paid = group.sums.paid(), .at_home = group.sums.at_home()};
  }

  void enter(PurchaseIndex index) {
    const Purchase& purchase = shelf_[index];
    if (!purchase.counts()) {
      ++ledger_.not_counted;
      return;
    }
    const std::optional<Day> day = purchase.entered();
    Sums sums(shelf_.home, too_large_);
    for (std::size_t outlay = 0; outlay < outlay_count; ++outlay) {
      if (!purchase.outlays[outlay]) continue;
      const LedgerLine line = line_of(index, static_cast<Outlay>(outlay), *purchase.outlays[outlay], day);
      sums.add(line.paid);
      sums.add_at_home(line.at_home);
      Group& currency = currencies_.try_emplace(line.paid.currency, nothing_yet()).first->second;
      currency.sums.add(line.paid);
      currency.sums.add_at_home(line.at_home);
      ++currency.count;
      ledger_.lines.push_back(line);
    }
    take(total_, sums);
    take(sellers_.try_emplace(purchase.seller, nothing_yet()).first->second, sums);
    const Date date = date_of(day.value_or(0));
    const Day year = day ? day_number({date.year, 1, 1}) : 0;
    const Day month = day ? day_number({date.year, date.month, 1}) : 0;
    take(years_.try_emplace({!day, year}, nothing_yet()).first->second, sums);
    take(months_.try_emplace({!day, month}, nothing_yet()).first->second, sums);
    share_out(index, sums);
  }

  LedgerLine line_of(PurchaseIndex purchase, Outlay outlay, const Money& paid, const std::optional<Day>& day) {
    LedgerLine line{.purchase = purchase, .outlay = outlay, .paid = paid};
    if (!ledger_.home) return line;
    // Without a day no rate is of its day, but what was paid in the home currency needs none.
    line.without_rate = !day && paid.currency != *ledger_.home;
    if (line.without_rate) return line;
    const auto converted = rates_.convert(paid, *ledger_.home, day.value_or(0));
    if (const auto* found = std::get_if<Converted>(&converted)) {
      line.at_home = found->money;
      line.by = found->by;
      line.rate = found->rate;
      if (found->by == ConvertedBy::fixed_rate) ++ledger_.fixed_rate_lines;
      if (found->by == ConvertedBy::stated_rate) {
        UsedRate& used = used_.try_emplace(found->rate, UsedRate{.rate = found->rate}).first->second;
        ++used.lines;
        used.oldest = std::max(used.oldest, *day - shelf_.rates[found->rate].on);
      }
    } else {
      line.without_rate = std::get<NotConverted>(converted) == NotConverted::no_rate;
      too_large_ = too_large_ || !line.without_rate;
    }
    return line;
  }

  // A worn part counts with the piece that wears it, whatever it came with.
  void share_out(PurchaseIndex index, const Sums& sums) {
    const Purchase& purchase = shelf_[index];
    std::vector<Thing> things;
    std::vector<std::int64_t> weights;
    for (const PieceIndex piece : purchase.pieces) {
      things.push_back(thing_of(piece));
      weights.push_back(shelf_[piece].received.share);
    }
    for (const PartIndex part : purchase.parts) {
      const auto& wearer = shelf_[part].in;
      things.push_back(wearer ? thing_of(*wearer) : Thing{Kind::part, static_cast<std::uint32_t>(part)});
      weights.push_back(shelf_[part].received.share);
    }
    if (things.empty()) {
      things.emplace_back(Kind::purchase, static_cast<std::uint32_t>(index));
      weights.push_back(1);
    }
    const std::vector<Sums> shares = sums.shared(weights);
    std::vector<Thing> counted; // a purchase counts once for a piece, however many of its parts came with it
    for (std::size_t i = 0; i < things.size(); ++i) {
      Group& group = things_.try_emplace(things[i], nothing_yet()).first->second;
      group.sums.add(shares[i]);
      counted.push_back(things[i]);
    }
    std::ranges::sort(counted);
    counted.erase(std::unique(counted.begin(), counted.end()), counted.end());
    for (const Thing& thing : counted) ++things_.at(thing).count;
  }

  void list_by_day(const ByDay& groups, std::size_t cut, std::vector<LedgerSum>& list) const {
    for (const auto& [key, group] : groups) {
      const std::string day = iso(key.second);
      list.push_back(sum_of(key.first ? std::string{} : day.substr(0, day.size() - cut), group));
      if (!key.first) list.back().first_day = key.second;
    }
  }

  void list_things() {
    for (const auto& [thing, group] : things_) {
      const auto& [kind, at] = thing;
      const std::string& id = kind == Kind::piece  ? shelf_.pieces[at].id
                              : kind == Kind::part ? shelf_.parts[at].id
                                                   : shelf_.purchases[at].id;
      ledger_.things.push_back({.kind = kind, .sum = sum_of(id, group)});
    }
  }

  using Thing = std::pair<Kind, std::uint32_t>; // pieces, then parts, then purchases
  static_assert(Kind::piece < Kind::part && Kind::part < Kind::purchase);
  static Thing thing_of(PieceIndex piece) { return {Kind::piece, static_cast<std::uint32_t>(piece)}; }

  const LinkedShelf& shelf_;
  bool too_large_ = false;
  Rates rates_;
  Ledger ledger_;
  Group total_;
  std::map<std::string, Group> sellers_;
  ByDay years_;
  ByDay months_;
  std::map<Currency, Group> currencies_;
  std::map<Thing, Group> things_;
  std::map<std::size_t, UsedRate> used_;
};

} // namespace

Ledger keep_ledger(const LinkedShelf& shelf) { return Keeper{shelf}.keep(); }

void report_missing(const LinkedShelf& shelf, const Ledger& ledger, Diagnostics& out) {
  const auto place_of = [&](const LedgerLine& line) {
    const Entry& entry = shelf.entries[shelf[line.purchase].entry];
    const Field* field = entry.find(name(line.outlay));
    return field == nullptr ? entry.place : field->place;
  };
  std::map<Currency, std::vector<const LedgerLine*>> by_currency;
  for (const LedgerLine& line : ledger.lines)
    if (line.without_rate) by_currency[line.paid.currency].push_back(&line);
  for (const auto& [currency, lines] : by_currency) {
    const LedgerLine& first = *lines.front();
    const std::optional<Day> day = shelf[first.purchase].entered();
    Diagnostic missing;
    missing.code = Code::missing_rate;
    missing.place = place_of(first);
    missing.message =
        day ? fmt::format("no rate from {} to {} of {} or before it", currency.code(), ledger.home->code(), iso(*day))
            : fmt::format("no rate from {} to {} for a purchase without a day", currency.code(), ledger.home->code());
    if (lines.size() > 1)
      missing.message += fmt::format(", nor for {} more amount{}", lines.size() - 1, lines.size() == 2 ? "" : "s");
    missing.help = day ? fmt::format("add a [[rate]] with one = \"{}\", is, of = \"{}\", on and source",
                                     currency.code(), ledger.home->code())
                       : std::string{"say on which day it was `paid`"};
    out.report(std::move(missing));
  }
  if (!ledger.too_large || ledger.lines.empty()) return;
  Diagnostic large;
  large.code = Code::broken_amount;
  large.place =
      place_of(*std::ranges::max_element(ledger.lines, {}, [](const LedgerLine& line) { return line.paid.minor; }));
  large.message = "the amounts are too large to add up; this is the largest";
  large.help = "mend it: no total is given until the sums fit";
  out.report(std::move(large));
}

} // namespace coeval
