#include <algorithm>

#include <fmt/format.h>

#include "commands/shelf_commands.hpp"
#include "diagnose/near.hpp"
#include "report/money.hpp"

namespace coeval {
namespace {

// "`a`, `b`": the ids of a list, for somebody who wrote another.
template <class List> std::string known_ids(const List& list) {
  std::vector<std::string_view> ids;
  for (const auto& one : list) ids.push_back(one.id);
  std::ranges::sort(ids);
  constexpr std::size_t most = 12;
  if (ids.size() > most) ids.resize(most);
  return list_names(ids);
}

const FeeTable* find_fees(const LinkedShelf& shelf, const std::string& id) {
  const auto found = std::ranges::find(shelf.fees, id, &FeeTable::id);
  if (found != shelf.fees.end()) return &*found;
  if (shelf.fees.empty())
    print_error("coeval: the shelf has no [[fees]]; enter what comes on top of a bid\n");
  else
    print_error(fmt::format("coeval: the shelf has no fees `{}`; it has {}\n", printable(id), known_ids(shelf.fees)));
  return nullptr;
}

// An amount, or the limit of a want; nothing where it is neither, and standard error says why.
std::optional<Money> find_budget(const LinkedShelf& shelf, const std::string& budget) {
  const auto read = read_money(budget);
  if (const auto* money = std::get_if<Money>(&read)) return *money;
  const auto want = std::ranges::find(shelf.wants, budget, &Want::id);
  if (want != shelf.wants.end() && want->limit) return want->limit;
  if (want != shelf.wants.end())
    print_error(fmt::format("coeval: the want `{}` has no limit; give it one, or an amount like \"250.00 GBP\"\n",
                            printable(budget)));
  else
    print_error(fmt::format("coeval: the budget cannot be read: {}; {}; the id of a want with a limit will do too\n",
                            std::get<MisreadAmount>(read).message, std::get<MisreadAmount>(read).help));
  return {};
}

} // namespace

int run_ceiling(const Settings& settings, const CeilingSettings& wished) {
  const ShelfSession session{settings, wished.shelf};
  if (session.exit) return *session.exit;
  const FeeTable* table = find_fees(session.shelf(), wished.fees);
  if (table == nullptr) return exit_usage;
  const auto limit = find_budget(session.shelf(), wished.budget);
  if (!limit) return exit_usage;
  if (limit->currency != table->schedule.currency) {
    print_error(fmt::format("coeval: the budget is in {} and `{}` reckons in {}; give the budget in {}\n",
                            limit->currency.code(), table->id, table->schedule.currency.code(),
                            table->schedule.currency.code()));
    return exit_usage;
  }
  CeilingReport report{*table, *limit};
  const auto bid = ceiling(table->schedule, limit->minor, table->increment);
  if (bid) report.bill = landed(table->schedule, *bid);
  report.next_bid = bid.value_or(0) + table->increment;
  report.next = landed(table->schedule, report.next_bid);
  print(settings.format == Format::json ? ceiling_json(report) : ceiling_text(report, settings.out));
  return bid ? exit_yes : exit_no;
}

} // namespace coeval
