#include "export/values.hpp"

#include <fmt/format.h>

#include "links/asset_path.hpp"

namespace coeval {
namespace {

using Json = nlohmann::ordered_json;

std::string duration_text(const Duration& duration) {
  std::string text = "P";
  if (duration.years != 0) text += fmt::format("{}Y", duration.years);
  if (duration.months != 0) text += fmt::format("{}M", duration.months);
  if (duration.days != 0 || text == "P") text += fmt::format("{}D", duration.days);
  return text;
}

// As it is written: one text, or a table of its ends.
Json written_json(const WrittenDates& dates) {
  if (!dates.text.empty()) return dates.text;
  Json ends = Json::object();
  if (!dates.start.text.empty()) ends["start"] = dates.start.text;
  if (!dates.end.text.empty()) ends["end"] = dates.end.text;
  return ends;
}

std::string dates_text(const WrittenDates& dates) {
  if (!dates.text.empty()) return dates.text;
  std::string ends;
  const auto add = [&](std::string_view end, const std::string& text) {
    if (!text.empty()) ends += fmt::format("{} {} = \"{}\"", ends.empty() ? "" : ",", end, text);
  };
  add("start", dates.start.text);
  add("end", dates.end.text);
  return "{" + ends + " }";
}

std::string atom_text(const FeatureAtom& atom) {
  if (const auto* flag = std::get_if<bool>(&atom)) return *flag ? "true" : "false";
  if (const auto* number = std::get_if<double>(&atom)) return fmt::format("{}", *number);
  return std::get<KeptText>(atom);
}

std::string numbers_text(const Numbers& numbers) {
  std::string text;
  for (const double number : numbers) text += fmt::format("{}{}", text.empty() ? "" : " ", number);
  return text;
}

// "top = ring or notch; height-mm = 22.4 +- 0.3".
std::string features_text(const Features& features) {
  std::string text;
  for (const FeatureValue& value : features) {
    text += (text.empty() ? "" : "; ") + value.feature + " = ";
    std::string alternatives = value.lab.empty() ? "" : "lab " + numbers_text(value.lab);
    for (const FeatureAtom& atom : value.alternatives)
      alternatives += (alternatives.empty() ? "" : " or ") + atom_text(atom);
    text += alternatives;
    if (value.tolerance) text += fmt::format(" +- {}", *value.tolerance);
  }
  return text;
}

Json features_json(const Features& features) {
  Json json = Json::object();
  for (const FeatureValue& value : features) {
    Json values = Json::array();
    for (const FeatureAtom& atom : value.alternatives)
      std::visit([&](const auto& item) { values.push_back(item); }, atom);
    Json said{{"values", std::move(values)}};
    if (!value.lab.empty()) said["lab"] = value.lab;
    if (value.tolerance) said["tolerance"] = *value.tolerance;
    json[value.feature] = std::move(said);
  }
  return json;
}

Json day_json(const std::optional<Day>& day) { return day ? Json(iso(*day)) : Json(nullptr); }

Json bounds_json(const DateBounds& bounds) {
  Json json{{"first", day_json(bounds.first)}, {"last", day_json(bounds.last)}};
  if (bounds.approximate) json["approximate"] = true;
  if (bounds.uncertain) json["uncertain"] = true;
  return json;
}

} // namespace

std::string value_text(const SourceSet& sources, const Field& field) {
  if (const auto* text = std::get_if<KeptText>(&field.value)) return *text;
  if (const auto* flag = std::get_if<bool>(&field.value)) return *flag ? "true" : "false";
  if (const auto* number = std::get_if<double>(&field.value)) return fmt::format("{}", *number);
  if (const auto* numbers = std::get_if<Numbers>(&field.value)) return numbers_text(*numbers);
  if (const auto* date = value_if<WrittenDate>(field.value)) return date->text;
  if (const auto* duration = value_if<Duration>(field.value)) return duration_text(*duration);
  if (const auto* features = std::get_if<Features>(&field.value)) return features_text(*features);
  if (const auto* dates = value_if<WrittenDates>(field.value)) return dates_text(*dates);
  if (field.spec->type == ValueType::file) return asset_path(sources, field);
  std::string list;
  for (const Word& word : std::get<Words>(field.value)) list += (list.empty() ? "" : "; ") + word.text;
  return list;
}

nlohmann::ordered_json value_json(const SourceSet& sources, const Field& field) {
  if (const auto* flag = std::get_if<bool>(&field.value)) return *flag;
  if (const auto* number = std::get_if<double>(&field.value))
    return field.spec->type == ValueType::count ? Json(static_cast<std::int64_t>(*number)) : Json(*number);
  if (const auto* numbers = std::get_if<Numbers>(&field.value)) return *numbers;
  if (const auto* features = std::get_if<Features>(&field.value)) return features_json(*features);
  if (const auto* dates = value_if<WrittenDates>(field.value))
    return Json{{"written", written_json(*dates)},
                {"start", bounds_json(dates->start.bounds)},
                {"end", bounds_json(dates->end.bounds)}};
  if (const auto* words = std::get_if<Words>(&field.value); words != nullptr && is_word_list(field.spec->type)) {
    Json list = Json::array();
    for (const Word& word : *words) list.push_back(word.text);
    return list;
  }
  return value_text(sources, field);
}

} // namespace coeval
