// One spelling for everything that a value can say: two fields say the same where these texts are the same.
#include <algorithm>

#include <fmt/format.h>

#include "drift/edits.hpp"

namespace coeval {
namespace {

// Texts one after the other, so that no two lists give the same: each with its length before it.
std::string listed(std::vector<std::string> texts, bool in_order) {
  if (!in_order) std::ranges::sort(texts);
  std::string all;
  for (const std::string& text : texts) all += fmt::format("{}:{};", text.size(), text);
  return all;
}

std::string said_bounds(const DateBounds& bounds) {
  const auto day = [](const std::optional<Day>& value) { return value ? fmt::format("{}", *value) : std::string{"-"}; };
  return fmt::format("{}..{}/{}{}{}", day(bounds.first), day(bounds.last), static_cast<int>(bounds.precision),
                     bounds.approximate ? "~" : "", bounds.uncertain ? "?" : "");
}

struct Sayer {
  std::string operator()(std::string_view text) const { return std::string{text}; }
  std::string operator()(bool flag) const { return flag ? "true" : "false"; }
  std::string operator()(double number) const { return fmt::format("{}", number); }
  std::string operator()(std::int64_t number) const { return fmt::format("{}", number); }
  std::string operator()(const CalendarDay& day) const { return iso(day.day); }
  std::string operator()(const Condition& condition) const { return coeval::text(condition); }
  std::string operator()(const Currency& currency) const { return std::string{currency.code()}; }
  std::string operator()(const Money& money) const { return coeval::text(money); }
  std::string operator()(const Decimal& number) const { return coeval::text(number); }
  std::string operator()(const Numbers& numbers) const {
    std::vector<std::string> texts;
    for (const double number : numbers) texts.push_back((*this)(number));
    return listed(std::move(texts), true);
  }
  std::string operator()(const Words& words) const {
    std::vector<std::string> texts;
    for (const Word& word : words) texts.push_back(word.text);
    return listed(std::move(texts), false);
  }
  std::string operator()(const WrittenDate& date) const {
    return said_bounds(date.edtf.start) + " " + said_bounds(date.edtf.end);
  }
  std::string operator()(const WrittenDates& dates) const {
    return said_bounds(dates.start.bounds) + " " + said_bounds(dates.end.bounds);
  }
  std::string operator()(const Duration& duration) const {
    return fmt::format("{}y{}m{}d", duration.years, duration.months, duration.days);
  }
  std::string operator()(const FeatureAtom& atom) const {
    return std::visit([this](const auto& value) { return fmt::format("{}{}", "bns"[kind_of(value)], (*this)(value)); },
                      atom);
  }
  std::string operator()(const Features& features) const {
    std::vector<std::string> texts;
    for (const FeatureValue& feature : features) {
      std::vector<std::string> alternatives;
      for (const FeatureAtom& atom : feature.alternatives) alternatives.push_back((*this)(atom));
      texts.push_back(feature.feature + "=" + listed(std::move(alternatives), false) +
                      (feature.tolerance ? fmt::format("±{}", *feature.tolerance) : "") + (*this)(feature.lab));
    }
    return listed(std::move(texts), false);
  }

private:
  static std::size_t kind_of(bool) { return 0; }
  static std::size_t kind_of(double) { return 1; }
  static std::size_t kind_of(std::string_view) { return 2; }
};

} // namespace

std::string said(const Value& value) { return std::visit(Sayer{}, value); }

} // namespace coeval
