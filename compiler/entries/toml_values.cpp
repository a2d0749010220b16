#include "entries/toml_values.hpp"

#include <algorithm>
#include <cmath>
#include <unordered_map>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "entries/countries.hpp"

namespace coeval {
namespace {

constexpr std::size_t longest_id = 80;
constexpr std::int64_t largest_count = 999'999'999'999'999; // every one of them is exact as a double

std::string_view found(const TomlNode& node) {
  switch (node.type) {
  case TomlNode::Type::table:
    return "a table";
  case TomlNode::Type::list:
    return "a list";
  case TomlNode::Type::text:
    return "text in quotes";
  case TomlNode::Type::integer:
    return "an integer";
  case TomlNode::Type::real:
    return "a number";
  case TomlNode::Type::flag:
    return "true or false without quotes";
  case TomlNode::Type::date:
    return "a TOML date without quotes";
  }
  return "nothing";
}

bool id_character(char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; }
bool is_id(std::string_view text) {
  return !text.empty() && text.size() <= longest_id && std::ranges::all_of(text, id_character);
}

// The id that somebody who wrote `text` probably wants: lower case, runs of anything else as one hyphen.
std::string as_id(std::string_view text) {
  std::string id;
  for (char c : text) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    if (id_character(c) && c != '-')
      id += c;
    else if (!id.empty() && id.back() != '-')
      id += '-';
  }
  while (!id.empty() && id.back() == '-') id.pop_back();
  return id.substr(0, longest_id);
}

bool is_address(std::string_view text) {
  while (true) {
    const std::size_t slash = text.find('/');
    if (!is_id(text.substr(0, slash))) return false;
    if (slash == std::string_view::npos) return true;
    text.remove_prefix(slash + 1);
  }
}

bool is_point(std::string_view text) {
  const std::size_t dot = text.rfind('.');
  if (dot == std::string_view::npos || !is_address(text.substr(0, dot))) return false;
  const std::string_view end = text.substr(dot + 1);
  return end == "start" || end == "end";
}

std::string in_quotes(std::string_view text) { return "\"" + std::string{text} + "\""; }

std::optional<double> number(const TomlNode& node) {
  if (node.type == TomlNode::Type::integer) return static_cast<double>(node.integer);
  if (node.type == TomlNode::Type::real && std::isfinite(node.real)) return node.real;
  return {};
}

} // namespace

void ValueReader::refuse(Code code, Span place, std::string message, std::string help, std::optional<Fix> fix) {
  ++refusals_;
  Diagnostic diagnostic;
  diagnostic.code = code;
  diagnostic.place = place;
  diagnostic.message = std::move(message);
  diagnostic.help = std::move(help);
  diagnostic.fix = std::move(fix);
  out_.report(std::move(diagnostic));
}

void ValueReader::wrong_type(const KeySpec& spec, const TomlNode& node, std::string_view wanted) {
  const Span place = place_of(node);
  std::optional<Fix> fix;
  std::string help;
  const bool list_wanted = wanted.starts_with("a list");
  if (node.is_text() && list_wanted) {
    help = "put it in brackets";
    fix = Fix{place, "[" + std::string{sources_.text(place)} + "]", true};
  } else if (!node.is_text() && !node.is_table() && !node.is_list() &&
             wanted.find("in quotes") != std::string_view::npos) {
    help = "put it in quotes";
    fix = Fix{place, in_quotes(sources_.text(place)), true};
  } else if (node.is_text() && spec.type == ValueType::flag) {
    help = "write true or false without quotes";
  }
  refuse(Code::wrong_type, place, fmt::format("`{}` takes {}, not {}", spec.name, wanted, found(node)), std::move(help),
         std::move(fix));
}

std::optional<std::string_view> ValueReader::text_of(const KeySpec& spec, const TomlNode& node,
                                                     std::string_view wanted) {
  if (node.is_text()) return node.text;
  wrong_type(spec, node, wanted);
  return {};
}

std::optional<Value> ValueReader::read(const KeySpec& spec, const TomlNode& node) {
  switch (spec.type) {
  case ValueType::id:
    return read_id(spec, node);
  case ValueType::text:
    return read_text(spec, node);
  case ValueType::flag:
    if (node.type == TomlNode::Type::flag) return Value{node.flag};
    wrong_type(spec, node, "true or false");
    return {};
  case ValueType::number:
    return read_number(spec, node);
  case ValueType::count:
    return read_count(spec, node);
  case ValueType::numbers:
    return read_numbers(spec, node);
  case ValueType::choice:
    return read_choice(spec, node);
  case ValueType::date:
    return read_date(spec, node);
  case ValueType::dates:
    return read_dates(spec, node);
  case ValueType::duration:
    return read_duration(spec, node);
  case ValueType::url:
    return read_url(spec, node);
  case ValueType::country:
  case ValueType::address:
  case ValueType::span:
  case ValueType::point:
  case ValueType::file:
    return read_word(spec, node);
  case ValueType::word_list:
  case ValueType::country_list:
  case ValueType::address_list:
  case ValueType::mark_list:
  case ValueType::span_list:
  case ValueType::citations:
  case ValueType::text_list:
  case ValueType::choice_list:
    return read_words(spec, node);
  case ValueType::features:
    return read_features(spec, node);
  case ValueType::day:
    return read_day(spec, node);
  case ValueType::weight:
    return read_weight(spec, node);
  case ValueType::condition:
    return read_condition_value(spec, node);
  case ValueType::currency:
  case ValueType::money:
  case ValueType::percent:
  case ValueType::rate:
    return read_amount_value(spec, node);
  }
  return {};
}

std::optional<Value> ValueReader::read_id(const KeySpec& spec, const TomlNode& node) {
  const auto text = text_of(spec, node, "an id in quotes");
  if (!text) return {};
  if (is_id(*text)) return Value{KeptText{*text}};
  const Span place = place_of(node);
  const std::string better = as_id(*text);
  std::optional<Fix> fix;
  if (!better.empty()) fix = Fix{place, in_quotes(better), false};
  refuse(Code::broken_id, place,
         text->size() > longest_id ? fmt::format("this id has {} characters; {} are allowed", text->size(), longest_id)
                                   : fmt::format("`{}` is not an id: ids have only a-z, 0-9 and hyphens", *text),
         better.empty() ? "choose a short id such as `ring-top`" : fmt::format("for example `{}`", better), fix);
  return {};
}

std::optional<Value> ValueReader::read_text(const KeySpec& spec, const TomlNode& node) {
  const auto text = text_of(spec, node, "text in quotes");
  if (!text) return {};
  if (text->find_first_not_of(" \t\r\n") == std::string_view::npos) {
    refuse(spec.required ? Code::missing_key : Code::empty_text, place_of(node),
           fmt::format("`{}` says nothing", spec.name),
           spec.required ? "write what it should say" : "write what it should say, or leave the key out");
    return {};
  }
  return Value{KeptText{*text}};
}

bool ValueReader::check_choice(const KeySpec& spec, std::string_view text, Span place) {
  if (std::ranges::find(spec.choices, text) != spec.choices.end()) return true;
  const auto near = near_names(text, spec.choices, 1);
  std::optional<Fix> fix;
  if (!near.empty()) fix = Fix{place, in_quotes(near.front()), false};
  refuse(Code::wrong_value, place, fmt::format("`{}` cannot be `{}`", spec.name, text),
         near.empty() ? fmt::format("it is one of {}", list_names(spec.choices)) : did_you_mean(near), fix);
  return false;
}

std::optional<Value> ValueReader::read_choice(const KeySpec& spec, const TomlNode& node) {
  const auto text = text_of(spec, node, "a word in quotes");
  if (!text || !check_choice(spec, *text, place_of(node))) return {};
  return Value{KeptText{*text}};
}

std::optional<Value> ValueReader::read_number(const KeySpec& spec, const TomlNode& node) {
  const auto value = number(node);
  if (!value) {
    wrong_type(spec, node, "a number");
    return {};
  }
  if (*value > 0) return Value{*value};
  refuse(Code::wrong_value, place_of(node), fmt::format("`{}` is a number above 0", spec.name));
  return {};
}

std::optional<Value> ValueReader::read_count(const KeySpec& spec, const TomlNode& node) {
  if (node.type != TomlNode::Type::integer) {
    wrong_type(spec, node, "a whole number");
    return {};
  }
  if (node.integer > 0 && node.integer <= largest_count) return Value{static_cast<double>(node.integer)};
  refuse(Code::wrong_value, place_of(node),
         fmt::format("`{}` is a whole number from 1 to {}", spec.name, largest_count));
  return {};
}

std::optional<Value> ValueReader::read_numbers(const KeySpec& spec, const TomlNode& node) {
  std::vector<double> values;
  if (node.is_list())
    for (const TomlNode& item : HeldBy{node})
      if (const auto value = number(item)) values.push_back(*value);
  const bool sound = values.size() == 3 && node.held == 3 && values[0] >= 0 && values[0] <= 100 &&
                     std::abs(values[1]) <= 200 && std::abs(values[2]) <= 200;
  if (sound) return Value{store_.keep(values)};
  refuse(Code::broken_colour, place_of(node),
         fmt::format("`{}` takes three numbers: L* from 0 to 100, then a* and b* from -200 to 200", spec.name),
         "for example [72.1, 6.0, 48.5]; leave it out if the colour was not measured");
  return {};
}

std::optional<Edtf> ValueReader::edtf(const KeySpec& spec, const TomlNode& node) {
  const auto text = text_of(spec, node, "a date in quotes");
  if (!text) return {};
  EdtfResult result = parse_edtf(*text);
  if (result.value) return result.value;
  Span place = place_of(node);
  // Point at the byte in question where the string is written plainly, so that its bytes are the file's bytes.
  const std::string_view written = sources_.text(place);
  if (written.size() == text->size() + 2 && written.substr(1, text->size()) == *text && result.offset <= text->size()) {
    place.begin += 1 + static_cast<std::uint32_t>(result.offset);
    place.end = std::max(place.begin, place.end - 1);
  }
  refuse(Code::broken_date, place, fmt::format("`{}` is not a date: {}", *text, result.refusal),
         "dates are EDTF: 1979, 1979-06, 1979-06-30, 1976/1979, 1979~, [1978..1979]");
  return {};
}

std::optional<Value> ValueReader::read_date(const KeySpec& spec, const TomlNode& node) {
  const auto date = edtf(spec, node);
  if (!date) return {};
  if (date->shape == EdtfShape::interval) {
    refuse(Code::broken_date, place_of(node), fmt::format("`{}` takes one date, not a range from / until", spec.name),
           "for some day in a range write [1978..1979]");
    return {};
  }
  return Value{store_.keep_one(WrittenDate{*date, KeptText{node.text}})};
}

namespace {

// A date that stands for one day somewhere in it.
WrittenEnd some_day_of(const Edtf& date, Span place) {
  WrittenEnd end;
  end.bounds = date.start;
  end.bounds.first = date.first();
  end.bounds.last = date.last();
  end.bounds.approximate = date.start.approximate || date.end.approximate;
  end.bounds.uncertain = date.start.uncertain || date.end.uncertain;
  end.place = place;
  return end;
}

} // namespace

std::optional<WrittenEnd> ValueReader::end(const KeySpec& spec, const TomlNode& node) {
  const auto date = edtf(spec, node);
  if (!date) return {};
  const Span place = place_of(node);
  if (date->shape == EdtfShape::interval || date->shape == EdtfShape::all_of) {
    refuse(Code::broken_date, place, "an end is one day, and this is several",
           "for some day in a range write [1978..1979]");
    return {};
  }
  WrittenEnd end = some_day_of(*date, place);
  end.text = KeptText{node.text};
  return end;
}

std::optional<Value> ValueReader::read_dates(const KeySpec& spec, const TomlNode& node) {
  const Span place = place_of(node);
  WrittenDates dates;
  if (node.is_table()) {
    bool sound = true;
    for (const TomlNode& value : HeldBy{node}) {
      if (value.key == "start" || value.key == "end") {
        const auto read = end(spec, value);
        sound = sound && read.has_value();
        if (read) (value.key == "start" ? dates.start : dates.end) = *read;
      } else {
        refuse(Code::unknown_key, key_place_of(value), fmt::format("`{}` has no key `{}`", spec.name, value.key),
               "its keys are `start` and `end`, both EDTF dates");
        sound = false;
      }
    }
    if (!sound) return {};
    if (!dates.start.place.known()) dates.start.place = place;
    if (!dates.end.place.known()) dates.end.place = place;
    // How far an approximate end reaches is the policy of a line, which is not known here.
    const bool exact = !dates.start.bounds.approximate && !dates.end.bounds.approximate;
    if (exact && dates.start.bounds.first && dates.end.bounds.last &&
        *dates.start.bounds.first > *dates.end.bounds.last) {
      refuse(Code::impossible_interval, place,
             fmt::format("it starts on {} at the earliest and ends on {} at the latest", iso(*dates.start.bounds.first),
                         iso(*dates.end.bounds.last)),
             "exchange the two, or mend the wrong one");
      return {};
    }
    return Value{store_.keep_one(dates)};
  }
  if (!node.is_text()) {
    wrong_type(spec, node, "dates in quotes, \"from/until\", or { start = …, end = … }");
    return {};
  }
  const auto date = edtf(spec, node);
  if (!date) return {};
  if (date->shape == EdtfShape::date || date->shape == EdtfShape::one_of) {
    // Wholly within the one date.
    dates.start = dates.end = some_day_of(*date, place);
  } else {
    dates.start = {date->start, place, {}};
    dates.end = {date->end, place, {}};
  }
  dates.text = KeptText{node.text};
  return Value{store_.keep_one(dates)};
}

std::optional<Value> ValueReader::read_duration(const KeySpec& spec, const TomlNode& node) {
  const auto text = text_of(spec, node, "a duration in quotes");
  if (!text) return {};
  DurationResult result = parse_duration(*text);
  if (result.value) return Value{store_.keep_one(*result.value)};
  refuse(Code::broken_duration, place_of(node), fmt::format("`{}` is not a duration: {}", *text, result.refusal),
         "durations are ISO 8601: P10D, P2W, P6M, P1Y, P1Y6M");
  return {};
}

std::optional<Value> ValueReader::read_url(const KeySpec& spec, const TomlNode& node) {
  const auto text = text_of(spec, node, "a web address in quotes");
  if (!text) return {};
  const bool http = text->starts_with("http://") || text->starts_with("https://");
  const std::size_t host = text->find("//");
  const bool has_host = http && host + 2 < text->size() && (*text)[host + 2] != '/' && (*text)[host + 2] != '?';
  const bool plain = std::ranges::all_of(
      *text, [](char c) { return c > ' ' && c < 0x7f && c != '"' && c != '<' && c != '>' && c != '\\'; });
  if (has_host && plain && text->size() <= 2000) return Value{KeptText{*text}};
  std::string what = !http       ? "it does not start with https:// or http://"
                     : !has_host ? "it names no host"
                     : !plain    ? "it holds a space, a quote or another character that must be percent-encoded"
                                 : "it is longer than 2000 characters";
  refuse(Code::broken_url, place_of(node), fmt::format("`{}` is not a web address: {}", spec.name, what),
         "give an address that starts with https:// or http://, or leave the key out");
  return {};
}

std::optional<Word> ValueReader::word(const KeySpec& spec, const TomlNode& node) {
  const Span place = place_of(node);
  if (!node.is_text()) {
    refuse(Code::wrong_type, place, fmt::format("`{}` takes text in quotes here, not {}", spec.name, found(node)));
    return {};
  }
  const std::string_view text = node.text;
  switch (spec.type) {
  case ValueType::country:
  case ValueType::country_list: {
    if (std::ranges::binary_search(country_codes(), text)) break;
    std::string lower{text};
    for (char& c : lower)
      if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    const bool cased = std::ranges::binary_search(country_codes(), std::string_view{lower});
    std::optional<Fix> fix;
    if (cased) fix = Fix{place, in_quotes(lower), true};
    refuse(Code::broken_country, place, fmt::format("`{}` is not a country code", text),
           cased ? "codes are written in lower case"
                 : "use the two letters of ISO 3166-1 (gb, hk) or the four of ISO 3166-3 for a country that is no more "
                   "(ddde)",
           fix);
    return {};
  }
  case ValueType::address:
  case ValueType::address_list:
  case ValueType::span:
  case ValueType::span_list:
    if (is_address(text)) break;
    refuse(Code::broken_address, place, fmt::format("`{}` is not an address", text),
           "an address is ids joined by /, for example signal-lantern/ring-top/brass or period/first-voyage");
    return {};
  case ValueType::mark_list:
    if (is_address(text.substr(0, text.find('=')))) break;
    refuse(Code::broken_address, place, fmt::format("`{}` is not a mark", text),
           "write the mark's id and, where it is one that is read, what it reads: \"copyright=1977\"");
    return {};
  case ValueType::choice_list:
    if (check_choice(spec, text, place)) break;
    return {};
  case ValueType::point:
    if (is_point(text)) break;
    refuse(Code::broken_address, place, fmt::format("`{}` is not a point in time", text),
           "write the address of something that lasts and which end of it: period/first-voyage.start or ring-top.end");
    return {};
  case ValueType::citations: {
    const std::string_view id = text.substr(0, text.find(' '));
    if (is_id(id)) break;
    refuse(Code::broken_address, place, fmt::format("`{}` does not start with the id of a source", text),
           "write the source's id, a space, and the place in it: \"trade-catalogue-1977 p. 14\"");
    return {};
  }
  default:
    if (spec.type == ValueType::text_list && text.find_first_of("\r\n") != std::string_view::npos) {
      refuse(Code::wrong_value, place, fmt::format("a line break in one text of `{}`", spec.name),
             "write each text on one line, and several as several texts");
      return {};
    }
    if (text.find_first_not_of(" \t\r\n") != std::string_view::npos) break;
    refuse(Code::wrong_value, place, fmt::format("`{}` is empty here", spec.name),
           "write what it should say, or take it out");
    return {};
  }
  return Word{KeptText{text}, place};
}

std::optional<Value> ValueReader::read_word(const KeySpec& spec, const TomlNode& node) {
  if (!node.is_text()) {
    wrong_type(spec, node,
               spec.type == ValueType::country ? "a country code in quotes"
               : spec.type == ValueType::file  ? "a path in quotes"
                                               : "an address in quotes");
    return {};
  }
  auto value = word(spec, node);
  if (!value) return {};
  return Value{store_.keep(std::span<const Word>{&*value, 1})};
}

std::optional<Value> ValueReader::read_words(const KeySpec& spec, const TomlNode& node) {
  if (!node.is_list()) {
    wrong_type(spec, node, "a list");
    return {};
  }
  // Short lists are searched word by word, which is quicker; long ones by a table, so that no list takes a time that
  // grows with the square of its length.
  constexpr std::size_t long_list = 16;
  words_.clear();
  std::unordered_map<std::string_view, Span> listed;
  for (const TomlNode& item : HeldBy{node}) {
    const auto value = word(spec, item);
    if (!value) continue; // reported; the others still count
    std::optional<Span> first;
    if (node.held < long_list) {
      const auto twin = std::ranges::find(words_, value->text, &Word::text);
      if (twin != words_.end()) first = twin->place;
    } else if (const auto [twin, fresh] = listed.try_emplace(value->text, value->place); !fresh) {
      first = twin->second;
    }
    if (!first) {
      words_.push_back(*value);
      continue;
    }
    Diagnostic twice;
    twice.code = Code::duplicate_value;
    twice.place = value->place;
    twice.message = fmt::format("`{}` is listed twice in `{}`", value->text, spec.name);
    twice.help = "take one of them out";
    twice.labels.push_back({*first, "first listed here"});
    out_.report(std::move(twice));
  }
  if (node.held == 0)
    refuse(Code::empty_text, place_of(node), fmt::format("`{}` lists nothing", spec.name),
           "list something, or leave the key out");
  if (words_.empty()) return {};
  return Value{store_.keep(words_)};
}

std::optional<FeatureAtom> ValueReader::atom(const TomlNode& node) {
  if (node.is_text() && !node.text.empty()) return FeatureAtom{KeptText{node.text}};
  if (node.type == TomlNode::Type::flag) return FeatureAtom{node.flag};
  if (const auto value = number(node)) return FeatureAtom{*value};
  return {};
}

std::optional<FeatureValue> ValueReader::read_feature(const TomlNode& node) {
  FeatureValue feature;
  feature.feature = KeptText{node.key};
  feature.name_place = key_place_of(node);
  feature.place = place_of(node);
  atoms_.clear();
  const auto bad = [&](std::string message) {
    refuse(Code::wrong_feature_value, feature.place, std::move(message),
           "write a word in quotes, a number, true or false, a list of these, { value = 21.5, tolerance = 0.3 } or { "
           "lab = [72.1, 6.0, 48.5] }");
    return std::optional<FeatureValue>{};
  };
  if (node.is_list()) {
    for (const TomlNode& item : HeldBy{node}) {
      auto value = atom(item);
      if (!value) return bad(fmt::format("a value of the feature `{}` cannot be {}", node.key, found(item)));
      atoms_.push_back(*value);
    }
    if (node.held == 0) return bad(fmt::format("the feature `{}` lists no value", node.key));
    feature.alternatives = store_.keep(atoms_);
    return feature;
  }
  if (node.is_table()) {
    for (const TomlNode& value : HeldBy{node}) {
      const auto real = number(value);
      const auto said = value.key == "value" ? atom(value) : std::nullopt;
      if (said)
        atoms_.push_back(*said);
      else if (value.key == "tolerance" && real && *real >= 0)
        feature.tolerance = *real;
      else if (value.key == "lab" && value.is_list()) {
        const KeySpec lab{"lab", ValueType::numbers, false, {}};
        const auto numbers = read_numbers(lab, value);
        if (!numbers) return {};
        feature.lab = std::get<Numbers>(*numbers);
      } else
        return bad(fmt::format("`{}` of the feature `{}` cannot be understood", value.key, node.key));
    }
    if (atoms_.empty() == feature.lab.empty())
      return bad(fmt::format("the feature `{}` needs either a value or lab", node.key));
    feature.alternatives = store_.keep(atoms_);
    return feature;
  }
  auto value = atom(node);
  if (!value) return bad(fmt::format("a value of the feature `{}` cannot be {}", node.key, found(node)));
  feature.alternatives = store_.keep(std::span<const FeatureAtom>{&*value, 1});
  return feature;
}

std::optional<Value> ValueReader::read_features(const KeySpec& spec, const TomlNode& node) {
  if (!node.is_table()) {
    wrong_type(spec, node, "a table { feature = value, … }");
    return {};
  }
  features_.clear();
  for (const TomlNode& value : HeldBy{node}) {
    if (!is_id(value.key)) {
      refuse(Code::broken_id, key_place_of(value),
             fmt::format("`{}` is not the id of a feature: ids have only a-z, 0-9 and hyphens", value.key));
      continue;
    }
    if (const auto feature = read_feature(value)) features_.push_back(*feature);
  }
  return Value{store_.keep(features_)};
}

} // namespace coeval
