#include "examine/words.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace coeval {
namespace {

std::string lab_words(const Lab& lab) {
  return fmt::format("lab({}, {}, {})", number_words(lab.lightness), number_words(lab.a), number_words(lab.b));
}

} // namespace

std::string number_words(double number) {
  std::string text = fmt::format("{:.4f}", number);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string atom_words(const FeatureAtom& atom) {
  if (const auto* flag = std::get_if<bool>(&atom)) return *flag ? "yes" : "no";
  if (const auto* number = std::get_if<double>(&atom)) return number_words(*number);
  return std::get<KeptText>(atom);
}

std::string stated_words(const LinkedKb& kb, const Stated& stated) {
  const Feature& feature = kb.features[at(stated.feature)];
  const std::string leeway = stated.tolerance ? " ± " + number_words(*stated.tolerance) : std::string{};
  if (stated.lab != nullptr) return lab_words(lab_of(*stated.lab)) + leeway;
  std::string text;
  const auto& alternatives = stated.value->alternatives;
  for (std::size_t i = 0; i < alternatives.size(); ++i)
    text += (i == 0 ? "" : i + 1 == alternatives.size() ? " or " : ", ") + atom_words(alternatives[i]);
  return feature.kind == FeatureKind::measure ? fmt::format("{}{} {}", text, leeway, feature.unit) : text;
}

std::string_view colour_name(const LinkedKb& kb, EntryIndex run_or_repro) {
  const Entry* colour = kb.colour_of(run_or_repro);
  return colour == nullptr ? std::string_view{} : colour->text("name");
}

std::string shown_words(const FeatureTable& table, std::size_t column, const Showing& showing, std::size_t shown) {
  const Column& values = table.columns[column];
  const Feature& feature = table.feature(column);
  if (!values.intervals.empty())
    return fmt::format("{} to {} {}", number_words(showing.stretches[shown].low),
                       number_words(showing.stretches[shown].high), feature.unit);
  if (values.swatches.empty()) return atom_words(values.atoms[shown]);
  const Swatch& swatch = values.swatches[shown];
  if (swatch.as_figure) return std::string{same_as_figure};
  const std::string_view name = shown_colour(table, column, shown);
  return name.empty() ? lab_words(swatch.lab) : fmt::format("{}, {}", name, lab_words(swatch.lab));
}

std::string_view shown_colour(const FeatureTable& table, std::size_t column, std::size_t shown) {
  const Column& values = table.columns[column];
  for (std::size_t candidate = 0; candidate < table.size(); ++candidate) {
    if (std::ranges::find(values.of(candidate), shown) == values.of(candidate).end()) continue;
    const Stated* stated = table.candidates[candidate].find(FeatureIndex{static_cast<std::uint32_t>(column)});
    const std::string_view name = stated == nullptr ? std::string_view{} : colour_name(*table.kb, stated->from);
    if (!name.empty()) return name;
  }
  return {};
}

} // namespace coeval
