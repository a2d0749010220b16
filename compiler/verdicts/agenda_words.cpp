// How is the agenda told in words?
#include <fmt/format.h>

#include "verdicts/agenda.hpp"

namespace coeval {
namespace {

std::string verdicts(std::size_t count) { return fmt::format("{} {}", count, count == 1 ? "verdict" : "verdicts"); }

} // namespace

std::string settles_words(const AgendaItem& item) {
  if (item.least == item.pairs.size()) return verdicts(item.least) + ", whatever the day";
  if (item.least == item.most) return fmt::format("{}; which ones depends on the day", verdicts(item.least));
  if (item.least == 0) return fmt::format("up to {}, depending on the day", verdicts(item.most));
  return fmt::format("{} to {}, depending on the day", item.least, verdicts(item.most));
}

std::string days_words(const AgendaItem& item, const AgendaDays& days) {
  const bool first = days.from == item.known.earliest;
  const bool last = days.to == item.known.latest;
  if (first && last) return "whatever the day";
  if (first) return "by " + iso(*days.to);
  if (last) return fmt::format("on {} or later", iso(*days.from));
  if (*days.from == *days.to) return "on " + iso(*days.from);
  return fmt::format("from {} to {}", iso(*days.from), iso(*days.to));
}

std::string become_words(const AgendaItem& item, const AgendaStep& step) {
  std::string text;
  for (std::size_t i = 0; i < verdict_count; ++i) {
    const std::size_t count = step.become[i];
    if (count == 0) continue;
    const std::string_view word = name(static_cast<Verdict>(i));
    text += text.empty() ? fmt::format("{} {} {}", verdicts(count), count == 1 ? "becomes" : "become", word)
                         : fmt::format(", {} {}", count, word);
  }
  const std::size_t open = item.pairs.size() - step.settled;
  if (text.empty()) return open == 1 ? "the verdict stays open" : "all stay open";
  if (open > 0) text += fmt::format(", {} {} open", open, open == 1 ? "stays" : "stay");
  return text;
}

} // namespace coeval
