// The numbers of a mark were given out in order. A row that says otherwise would date every part that carries a number
// from it on wrongly, and rows of a mark that is not read would be believed to date something.
#include <set>

#include <fmt/format.h>

#include "links/readings.hpp"
#include "rules/rule_list.hpp"

namespace coeval {
namespace {

void report_numbers(Span place, std::string message, std::string help, std::optional<Span> other, Diagnostics& out) {
  Diagnostic wrong;
  wrong.code = Code::broken_numbers;
  wrong.place = place;
  wrong.message = std::move(message);
  wrong.help = std::move(help);
  if (other) wrong.labels.push_back({*other, "the row before it"});
  out.report(std::move(wrong));
}

// `row` follows `before` in the order of their numbers.
void check_order(const LinkedKb& kb, const NumberRow& before, const NumberRow& row, Diagnostics& out) {
  const Span place = kb.entries[row.entry].place;
  const Span other = kb.entries[before.entry].place;
  const std::string number = reading_text(ReadingKind::number, row.from);
  if (row.from == before.from) {
    report_numbers(place, fmt::format("two rows start at {}", number), "take one of them out", other, out);
    return;
  }
  // Compared as written: `~` and `?` say how sure a date is, not where it stands in the order.
  const auto first = row.on->edtf.first();
  const auto least = before.on->edtf.first();
  if (first && least && *first < *least)
    report_numbers(place,
                   fmt::format("the numbers from {} on were given out on {} or later, and those from {} on, which are "
                               "lower, on {} or later",
                               number, iso(*first), reading_text(ReadingKind::number, before.from), iso(*least)),
                   "correct the number or the date of one of them", other, out);
}

} // namespace

void check_mark_numbers(const RuleInput& input, Diagnostics& out) {
  std::set<EntryIndex> refused; // marks of which some row could not be read; that is reported already
  for (const Entry& entry : input.kb.entries.entries)
    if (entry.kind == Kind::mark_number && entry.broken) refused.insert(entry.parent);
  for (const Mark& mark : input.kb.marks) {
    const Entry& entry = input.kb.entries[mark.entry];
    if (entry.broken || refused.contains(mark.entry)) continue;
    const bool numbered = mark.reading == ReadingKind::number;
    if (numbered && mark.numbers.empty())
      report_numbers(entry.place,
                     fmt::format("`{}` reads a number, and nothing says when its numbers were given out",
                                 input.kb.address(mark.entry)),
                     "add [[mark.number]] tables, each with the first number (`from`) of a date (`on`)", {}, out);
    if (!numbered && !mark.numbers.empty())
      report_numbers(input.kb.entries[mark.numbers.front().entry].place,
                     fmt::format("`{}` does not read a number", input.kb.address(mark.entry)),
                     "give the mark reading = \"number\", or take the table out", {}, out);
    for (std::size_t i = 1; i < mark.numbers.size(); ++i)
      check_order(input.kb, mark.numbers[i - 1], mark.numbers[i], out);
  }
}

} // namespace coeval
