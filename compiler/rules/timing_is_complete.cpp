// A [[timing]] table orders either two whole spans (relation and span) or one end (this) against one other thing (on,
// after, before or same-day-as). Anything less says nothing; anything more could be read in two ways.
#include <vector>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "rules/rule_list.hpp"

namespace coeval {
namespace {

constexpr std::string_view forms = "write relation and span; or this and one of on, after, before, same-day-as";

std::string trouble(const Entry& entry) {
  std::vector<std::string_view> anchors;
  for (const std::string_view key : {"on", "after", "before", "same-day-as"})
    if (entry.find(key) != nullptr) anchors.push_back(key);
  const bool relation = entry.find("relation") != nullptr;
  const bool span = entry.find("span") != nullptr;
  const bool end = entry.find("this") != nullptr;
  const bool gap = entry.find("at-least") != nullptr || entry.find("at-most") != nullptr;
  if (relation || span) {
    if (!relation) return "`span` stands here without `relation`";
    if (!span) return "`relation` stands here without `span`";
    if (end || !anchors.empty() || gap) return "a relation of whole spans stands beside an order of ends";
    return {};
  }
  if (!end)
    return anchors.empty() ? "this orders nothing" : fmt::format("`{}` stands here without `this`", anchors.front());
  if (anchors.empty()) return "`this` is set in order with nothing";
  if (anchors.size() > 1) return fmt::format("{} stand here together", list_names(anchors, "and"));
  if (gap && (anchors.front() == "on" || anchors.front() == "same-day-as"))
    return fmt::format("a gap means nothing with `{}`", anchors.front());
  const auto* least = entry.get<Duration>("at-least");
  const auto* most = entry.get<Duration>("at-most");
  if (most != nullptr && most->most_days() < (least == nullptr ? 1 : least->fewest_days()))
    return "the largest gap is smaller than the smallest";
  return {};
}

} // namespace

void check_timing_is_complete(const RuleInput& input, Diagnostics& out) {
  for (const Entry& entry : input.kb.entries.entries) {
    if ((entry.kind != Kind::timing && entry.kind != Kind::claimed_timing) || entry.broken) continue;
    std::string message = trouble(entry);
    if (message.empty()) continue;
    Diagnostic incomplete;
    incomplete.code = Code::incomplete_timing;
    incomplete.place = entry.place;
    incomplete.message = std::move(message);
    incomplete.help = forms;
    out.report(std::move(incomplete));
  }
}

} // namespace coeval
