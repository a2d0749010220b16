#include "report/money_words.hpp"

#include <array>
#include <vector>

#include <fmt/format.h>

#include "diagnose/near.hpp"

namespace coeval {

std::string cost_words(const CostSet& costs) {
  constexpr std::array all{Cost::hammer,    Cost::premium, Cost::fee, Cost::shipping,
                           Cost::insurance, Cost::duty,    Cost::tax};
  std::vector<std::string_view> names;
  for (const Cost cost : all)
    if (costs.has(cost)) names.push_back(text(cost));
  std::string words;
  for (std::size_t i = 0; i < names.size(); ++i)
    words += fmt::format("{}{}", i == 0 ? "" : i + 1 == names.size() ? " and " : ", ", names[i]);
  return words;
}

std::string charge_words(const LandedLine& line, Currency currency) {
  std::string words;
  for (const LandedLine::Part& part : line.parts)
    words +=
        fmt::format("{}{} % of {}", words.empty() ? "" : " and ", text(part.percent), amount_text({currency, part.on}));
  if (words.empty()) return words;
  if (line.cost != Cost::premium) words += fmt::format(" ({})", cost_words(line.on));
  switch (line.held) {
  case LandedLine::Held::no:
    break;
  case LandedLine::Held::at_least:
    words += ", raised to its minimum";
    break;
  case LandedLine::Held::at_most:
    words += ", lowered to its maximum";
    break;
  case LandedLine::Held::below_threshold:
    words += ", not charged: below its threshold";
    break;
  }
  return words;
}

std::string_view name(LandedLine::Held held) {
  switch (held) {
  case LandedLine::Held::no:
    return "no";
  case LandedLine::Held::at_least:
    return "at-least";
  case LandedLine::Held::at_most:
    return "at-most";
  case LandedLine::Held::below_threshold:
    return "below-threshold";
  }
  return {};
}

std::string quarter_words(const Quarter& quarter) { return fmt::format("{:04}-Q{}", quarter.year, quarter.quarter); }

} // namespace coeval
