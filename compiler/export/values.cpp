#include "export/values.hpp"

#include <fmt/format.h>

#include "links/asset_path.hpp"

namespace coeval {
namespace {

std::string duration_text(const Duration& duration) {
  std::string text = "P";
  if (duration.years != 0) text += fmt::format("{}Y", duration.years);
  if (duration.months != 0) text += fmt::format("{}M", duration.months);
  if (duration.days != 0 || text == "P") text += fmt::format("{}D", duration.days);
  return text;
}

// As it is written: one text, or a table of its ends.
void write_written(const WrittenDates& dates, JsonText& json) {
  if (!dates.text.empty()) return json.text(dates.text);
  json.open_object();
  json.text_if_any("start", dates.start.text);
  json.text_if_any("end", dates.end.text);
  json.close_object();
}

std::string ends_text(const WrittenDates& dates) {
  std::string ends;
  const auto add = [&](std::string_view end, std::string_view text) {
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

void write_numbers(const Numbers& numbers, JsonText& json) {
  json.open_list();
  for (const double number : numbers) json.number(number);
  json.close_list();
}

void write_features(const Features& features, JsonText& json) {
  json.open_object();
  for (const FeatureValue& value : features) {
    json.key(value.feature).open_object();
    json.key("values").open_list();
    for (const FeatureAtom& atom : value.alternatives) write_atom(atom, json);
    json.close_list();
    if (!value.lab.empty()) write_numbers(value.lab, json.key("lab"));
    if (value.tolerance) json.key("tolerance").number(*value.tolerance);
    json.close_object();
  }
  json.close_object();
}

void write_bounds(const DateBounds& bounds, JsonText& json) {
  json.open_object();
  write_day(bounds.first, json.key("first"));
  write_day(bounds.last, json.key("last"));
  if (bounds.approximate) json.key("approximate").flag(true);
  if (bounds.uncertain) json.key("uncertain").flag(true);
  json.close_object();
}

// Of values that are no text as they stand.
std::string made_text(const SourceSet& sources, const Field& field) {
  if (const auto* number = std::get_if<double>(&field.value)) return fmt::format("{}", *number);
  if (const auto* numbers = std::get_if<Numbers>(&field.value)) return numbers_text(*numbers);
  if (const auto* duration = value_if<Duration>(field.value)) return duration_text(*duration);
  if (const auto* features = std::get_if<Features>(&field.value)) return features_text(*features);
  if (const auto* dates = value_if<WrittenDates>(field.value)) return ends_text(*dates);
  if (field.spec->type == ValueType::file) return asset_path(sources, field);
  std::string list;
  for (const Word& word : std::get<Words>(field.value)) (list += list.empty() ? "" : "; ") += word.text;
  return list;
}

} // namespace

void write_day(const std::optional<Day>& day, JsonText& json) { day ? json.text(iso(*day)) : json.null(); }

void write_atom(const FeatureAtom& atom, JsonText& json) {
  if (const auto* flag = std::get_if<bool>(&atom)) return json.flag(*flag);
  if (const auto* number = std::get_if<double>(&atom)) return json.number(*number);
  json.text(std::get<KeptText>(atom));
}

std::string_view value_text(const SourceSet& sources, const Field& field, std::string& room) {
  if (const auto* text = std::get_if<KeptText>(&field.value)) return *text;
  if (const auto* flag = std::get_if<bool>(&field.value)) return *flag ? "true" : "false";
  if (const auto* date = value_if<WrittenDate>(field.value)) return date->text;
  if (const auto* dates = value_if<WrittenDates>(field.value); dates != nullptr && !dates->text.empty())
    return dates->text;
  room = made_text(sources, field);
  return room;
}

void write_value(const SourceSet& sources, const Field& field, JsonText& json) {
  if (const auto* flag = std::get_if<bool>(&field.value)) return json.flag(*flag);
  if (const auto* number = std::get_if<double>(&field.value))
    return field.spec->type == ValueType::count ? json.number(static_cast<std::int64_t>(*number))
                                                : json.number(*number);
  if (const auto* numbers = std::get_if<Numbers>(&field.value)) return write_numbers(*numbers, json);
  if (const auto* features = std::get_if<Features>(&field.value)) return write_features(*features, json);
  if (const auto* dates = value_if<WrittenDates>(field.value)) {
    json.open_object();
    write_written(*dates, json.key("written"));
    write_bounds(dates->start.bounds, json.key("start"));
    write_bounds(dates->end.bounds, json.key("end"));
    return json.close_object();
  }
  if (const auto* words = std::get_if<Words>(&field.value); words != nullptr && is_word_list(field.spec->type)) {
    json.open_list();
    for (const Word& word : *words) json.text(word.text);
    return json.close_list();
  }
  std::string room;
  json.text(value_text(sources, field, room));
}

} // namespace coeval
