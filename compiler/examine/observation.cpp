#include "examine/observation.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "diagnose/render.hpp"
#include "examine/candidates.hpp"

namespace coeval {
namespace {

struct Unit {
  std::string_view name;
  std::string_view of; // the unit of a knowledge base that it is converted to
  double factor;
};
// The inch and the avoirdupois ounce are exact by the international yard and pound agreement of 1959.
constexpr std::array<Unit, 5> units{Unit{"mm", "mm", 1}, Unit{"cm", "mm", 10}, Unit{"in", "mm", 25.4},
                                    Unit{"g", "g", 1}, Unit{"oz", "g", 28.349523125}};

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

std::vector<std::string_view> split(std::string_view text, char at) {
  std::vector<std::string_view> parts;
  while (true) {
    const std::size_t end = text.find(at);
    parts.push_back(trimmed(text.substr(0, end)));
    if (end == std::string_view::npos) return parts;
    text.remove_prefix(end + 1);
  }
}

// What the user wrote, short enough and safe to be shown.
std::string shown(std::string_view text) {
  constexpr std::size_t most = 120;
  if (text.size() <= most) return printable(text);
  std::size_t end = most;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end; // not inside a character
  return printable(text.substr(0, end)) + "…";
}

// A number at the front of the text, which moves past it.
std::optional<double> take_number(std::string_view& text) {
  double value = 0;
  const char* begin = text.data();
  if (!text.empty() && text.front() == '+') ++begin;
  const auto [end, error] = std::from_chars(begin, text.data() + text.size(), value, std::chars_format::fixed);
  if (error != std::errc{} || end == begin || !std::isfinite(value)) return {};
  text.remove_prefix(static_cast<std::size_t>(end - text.data()));
  return value;
}

// Whether the text goes on with a plus-or-minus, which it then moves past.
bool take_plus_or_minus(std::string_view& text) {
  text = trimmed(text);
  for (const std::string_view sign : {std::string_view{"±"}, std::string_view{"+-"}, std::string_view{"+/-"}}) {
    if (!text.starts_with(sign)) continue;
    text = trimmed(text.substr(sign.size()));
    return true;
  }
  return false;
}

const Unit* take_unit(std::string_view& text) {
  text = trimmed(text);
  std::size_t end = 0;
  while (end < text.size() && text[end] >= 'a' && text[end] <= 'z') ++end;
  const auto found = std::ranges::find(units, text.substr(0, end), &Unit::name);
  if (found == units.end()) return nullptr;
  text = trimmed(text.substr(end));
  return &*found;
}

// Half of the last digit that the number at the front is written to.
double half_last_digit(std::string_view number) {
  const std::size_t dot = number.find('.');
  std::size_t digits = 0;
  if (dot != std::string_view::npos)
    while (dot + 1 + digits < number.size() && number[dot + 1 + digits] >= '0' && number[dot + 1 + digits] <= '9')
      ++digits;
  return 0.5 * std::pow(10.0, -static_cast<double>(digits));
}

constexpr std::string_view colour_example = "write lab(70.8,5.2,44.9)±1.5, where 1.5 is how far the reading may be off";

class Reading {
public:
  Reading(const Feature& feature, std::string_view value) : feature_(feature), value_(value) {}

  std::variant<Observation, Misread> read(Observation observation, const std::optional<SeenColour>& figure_colour) {
    std::optional<Misread> trouble;
    switch (feature_.kind) {
    case FeatureKind::measure:
      trouble = measure(observation);
      break;
    case FeatureKind::colour:
      trouble = colour(observation, figure_colour);
      break;
    case FeatureKind::text:
      trouble = read_text(observation);
      break;
    case FeatureKind::choice:
    case FeatureKind::present:
    case FeatureKind::count:
      trouble = words(observation);
      break;
    }
    if (trouble) return std::move(*trouble);
    return observation;
  }

private:
  [[nodiscard]] Misread misread(std::string message) const { return {std::move(message), what_would_do()}; }

  [[nodiscard]] std::string what_would_do() const {
    const std::string& id = feature_.id;
    switch (feature_.kind) {
    case FeatureKind::choice: {
      const std::vector<std::string_view> known(feature_.values.begin(), feature_.values.end());
      if (known.empty()) return fmt::format("write {}=WORD or {}=!WORD", id, id);
      return fmt::format("it is {}; several after commas where you cannot say which, or !{} for anything else",
                         list_names(known), known.front());
    }
    case FeatureKind::present:
      return fmt::format("write {}=yes or {}=no", id, id);
    case FeatureKind::count:
      return fmt::format("write {}=4, {}=3,4 where you cannot say which, or {}=!4", id, id, id);
    case FeatureKind::measure:
      return fmt::format("write {}=21.4±0.05, in {}{}", id, feature_.unit,
                         feature_.unit == "g" ? ", or with oz behind it" : ", or with cm or in behind it");
    case FeatureKind::colour:
      return fmt::format("{}; or {}=same-as-figure", colour_example, id);
    case FeatureKind::text:
      return fmt::format("write {}= and what it reads", id);
    }
    return {};
  }

  bool take_not(Observation& observation) {
    observation.negated = value_.starts_with('!');
    if (observation.negated) value_ = trimmed(value_.substr(1));
    return observation.negated;
  }

  std::optional<Misread> words(Observation& observation) {
    take_not(observation);
    for (std::string_view word : split(value_, ',')) {
      if (observation.negated && word.starts_with('!')) word = trimmed(word.substr(1));
      if (word.empty()) return misread(fmt::format("`{}` names no value", shown(observation.text)));
      std::variant<SeenAtom, Misread> atom = read_atom(word);
      if (auto* trouble = std::get_if<Misread>(&atom)) return std::move(*trouble);
      observation.atoms.push_back(std::get<SeenAtom>(std::move(atom)));
    }
    return {};
  }

  std::variant<SeenAtom, Misread> read_atom(std::string_view word) {
    if (feature_.kind == FeatureKind::choice) {
      const std::vector<std::string_view> known(feature_.values.begin(), feature_.values.end());
      if (known.empty() || std::ranges::find(known, word) != known.end()) return SeenAtom{std::string{word}};
      const auto near = near_names(word, known);
      return Misread{fmt::format("`{}` is no value of `{}`", shown(word), feature_.id),
                     near.empty() ? what_would_do() : did_you_mean(near)};
    }
    if (feature_.kind == FeatureKind::present) {
      if (word == "yes" || word == "true") return SeenAtom{true};
      if (word == "no" || word == "false") return SeenAtom{false};
      return misread(fmt::format("`{}` is either there or not, and `{}` is neither", feature_.id, shown(word)));
    }
    std::uint32_t count = 0;
    const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), count);
    if (error == std::errc{} && end == word.data() + word.size()) return SeenAtom{static_cast<double>(count)};
    return misread(fmt::format("`{}` is counted, and `{}` is no count", feature_.id, shown(word)));
  }

  std::optional<Misread> read_text(Observation& observation) {
    take_not(observation);
    if (value_.empty()) return misread(fmt::format("`{}` says nothing of what it reads", shown(observation.text)));
    observation.atoms.emplace_back(std::string{value_});
    return {};
  }

  std::optional<Misread> measure(Observation& observation) {
    std::string_view rest = value_;
    if (rest.starts_with('!'))
      return misread(fmt::format("`{}` is measured, and a measurement cannot be turned round with !", feature_.id));
    const std::string_view written = rest;
    const auto value = take_number(rest);
    if (!value) return misread(fmt::format("`{}` is no measurement", shown(value_)));
    if (*value < 0) return misread(fmt::format("`{}` cannot be below 0", feature_.id));
    const std::string_view number = written.substr(0, written.size() - rest.size());
    const Unit* unit = take_unit(rest);
    double uncertainty = half_last_digit(number);
    const Unit* uncertainty_unit = nullptr;
    if (take_plus_or_minus(rest)) {
      const auto given = take_number(rest);
      if (!given) return misread(fmt::format("`{}` does not say how far the reading may be off", shown(value_)));
      if (*given < 0) return misread(fmt::format("a reading cannot be off by less than 0, as in `{}`", shown(value_)));
      uncertainty = *given;
      uncertainty_unit = take_unit(rest);
    }
    if (!rest.empty()) {
      if (rest.front() == ',') return misread(fmt::format("`{}` has a comma; decimals take a point", shown(value_)));
      return misread(fmt::format("`{}` is no unit for `{}`", shown(rest), feature_.id));
    }
    if (unit == nullptr) unit = uncertainty_unit; // 21.4±0.05mm
    if (uncertainty_unit == nullptr) uncertainty_unit = unit;
    for (const Unit* used : {unit, uncertainty_unit})
      if (used != nullptr && used->of != feature_.unit)
        return misread(fmt::format("`{}` is measured in {}, not in {}", feature_.id, feature_.unit, used->name));
    const double factor = unit == nullptr ? 1 : unit->factor;
    const double uncertainty_factor = uncertainty_unit == nullptr ? 1 : uncertainty_unit->factor;
    observation.measured = around(*value * factor, uncertainty * uncertainty_factor);
    return {};
  }

  std::optional<Misread> colour(Observation& observation, const std::optional<SeenColour>& figure_colour) {
    const bool negated = take_not(observation);
    if (value_ == same_as_figure) {
      observation.as_figure = true;
      observation.colour = figure_colour;
      // "The same" to the eye means no further off than what still counts as the same.
      if (observation.colour) observation.colour->uncertainty += feature_.tolerance.value_or(0);
      return {};
    }
    if (negated) return misread("of colours, only !same-as-figure can be turned round with !");
    if (!value_.starts_with("lab")) return misread(fmt::format("`{}` is no colour in numbers", shown(value_)));
    if (value_.find("±") == std::string_view::npos && value_.find("+-") == std::string_view::npos &&
        value_.find("+/-") == std::string_view::npos)
      return misread(fmt::format("`{}` does not say how far the reading may be off", shown(value_)));
    std::variant<SeenColour, Misread> seen = read_colour(value_);
    if (auto* trouble = std::get_if<Misread>(&seen)) return std::move(*trouble);
    observation.colour = std::get<SeenColour>(seen);
    return {};
  }

  const Feature& feature_;
  std::string_view value_;
};

} // namespace

std::variant<SeenColour, Misread> read_colour(std::string_view text) {
  const auto no = [&](std::string message) { return Misread{std::move(message), std::string{colour_example}}; };
  std::string_view rest = trimmed(text);
  const bool bracketed = rest.starts_with("lab");
  if (bracketed) {
    rest = trimmed(rest.substr(3));
    if (!rest.starts_with('(')) return no(fmt::format("`{}` is no colour", shown(text)));
    rest = trimmed(rest.substr(1));
  }
  std::array<double, 3> numbers{};
  for (std::size_t i = 0; i < 3; ++i) {
    if (i > 0) {
      if (!rest.starts_with(',')) return no(fmt::format("`{}` has not the three numbers of CIELAB", shown(text)));
      rest = trimmed(rest.substr(1));
    }
    const auto number = take_number(rest);
    if (!number) return no(fmt::format("`{}` has not the three numbers of CIELAB", shown(text)));
    numbers[i] = *number;
    rest = trimmed(rest);
  }
  if (bracketed) {
    if (!rest.starts_with(')')) return no(fmt::format("`{}` has no closing bracket", shown(text)));
    rest = trimmed(rest.substr(1));
  }
  SeenColour seen{{numbers[0], numbers[1], numbers[2]}, 0};
  if (take_plus_or_minus(rest)) {
    const auto given = take_number(rest);
    if (!given) return no(fmt::format("`{}` does not say how far the reading may be off", shown(text)));
    if (*given < 0) return no(fmt::format("a reading cannot be off by less than 0, as in `{}`", shown(text)));
    seen.uncertainty = *given;
  }
  if (!trimmed(rest).empty()) return no(fmt::format("`{}` goes on after the colour", shown(text)));
  if (seen.lab.lightness < 0 || seen.lab.lightness > 100)
    return no(fmt::format("lightness goes from 0 to 100, and `{}` says {}", shown(text), seen.lab.lightness));
  if (std::abs(seen.lab.a) > 200 || std::abs(seen.lab.b) > 200)
    return no(fmt::format("a* and b* of a plastic lie between -200 and 200, unlike those of `{}`", shown(text)));
  return seen;
}

std::variant<Observation, Misread> read_observation(const LinkedKb& kb, std::string_view text,
                                                    const std::optional<SeenColour>& figure_colour) {
  const std::size_t equals = text.find('=');
  if (equals == std::string_view::npos)
    return Misread{fmt::format("`{}` says no value", shown(text)), "write FEATURE=VALUE, such as top=ring"};
  const std::string_view id = trimmed(text.substr(0, equals));
  const auto feature = kb.find_feature(id);
  if (!feature) {
    std::vector<std::string_view> known;
    for (const Feature& other : kb.features) known.push_back(other.id);
    const auto near = near_names(id, known);
    std::string help;
    if (!near.empty())
      help = did_you_mean(near);
    else if (known.empty())
      help = "this knowledge base declares no feature";
    else
      help = "`coeval list feature` shows what can be looked at";
    return Misread{fmt::format("there is no feature `{}`", shown(id)), std::move(help)};
  }
  Observation observation;
  observation.feature = *feature;
  observation.text = std::string{trimmed(text)};
  return Reading{kb.features[at(*feature)], trimmed(text.substr(equals + 1))}.read(std::move(observation),
                                                                                   figure_colour);
}

} // namespace coeval
