#include "examine/table.hpp"

#include <algorithm>
#include <array>
#include <functional>
#include <unordered_map>

namespace coeval {
namespace {

using Numbers = std::array<double, 5>;

struct HashOfNumbers {
  std::size_t operator()(const Numbers& numbers) const {
    std::size_t hash = 0;
    for (const double number : numbers) hash = hash * 1'000'003 + std::hash<double>{}(number);
    return hash;
  }
};

// What one mark reads in another's eyes: capitals and the width of gaps are not told apart.
std::string as_read(std::string_view text) {
  std::string read;
  for (char c : text) {
    if (c == '\t' || c == '\n') c = ' ';
    if (c == ' ' && (read.empty() || read.back() == ' ')) continue;
    read += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  while (!read.empty() && read.back() == ' ') read.pop_back();
  return read;
}

// Gives the codes of one column.
class Coding {
public:
  Coding(const Feature& feature, Column& column, const std::optional<SeenColour>& figure_colour)
      : feature_(feature), column_(column), figure_colour_(figure_colour) {}

  void append(const Stated& stated) {
    // Runs share what their mould says: each statement is coded once.
    const void* key = stated.value != nullptr ? static_cast<const void*>(stated.value) : stated.lab;
    const auto [known, is_new] = ranges_.try_emplace(key, column_.codes.size(), std::size_t{0});
    if (is_new) {
      code(stated);
      known->second.second = column_.codes.size() - known->second.first;
      return;
    }
    const auto [begin, count] = known->second;
    for (std::size_t i = 0; i < count; ++i) {
      const std::uint32_t again = column_.codes[begin + i];
      column_.codes.push_back(again);
    }
  }

private:
  void code(const Stated& stated) {
    switch (feature_.kind) {
    case FeatureKind::colour:
      code_colour(stated);
      return;
    case FeatureKind::measure:
      if (!stated.tolerance) return;
      for (const FeatureAtom& atom : stated.value->alternatives) {
        const Interval interval = around(std::get<double>(atom), *stated.tolerance);
        add(numbered_, Numbers{interval.low, interval.high}, column_.intervals, interval);
      }
      return;
    case FeatureKind::text:
      for (const FeatureAtom& atom : stated.value->alternatives)
        add(worded_, FeatureAtom{as_read(std::get<std::string>(atom))}, column_.atoms, atom);
      return;
    case FeatureKind::choice:
    case FeatureKind::present:
    case FeatureKind::count:
      for (const FeatureAtom& atom : stated.value->alternatives) add(worded_, atom, column_.atoms, atom);
      return;
    }
  }

  void code_colour(const Stated& stated) {
    Swatch swatch;
    if (stated.lab != nullptr) {
      if (!stated.tolerance) return;
      swatch = {lab_of(*stated.lab), *stated.tolerance};
    } else {
      swatch.as_figure = true;
      swatch.known = figure_colour_.has_value() && stated.tolerance.has_value();
      // The figure's colour is only as sure as its reading.
      if (swatch.known) swatch = {figure_colour_->lab, *stated.tolerance + figure_colour_->uncertainty, true, true};
    }
    const Numbers key{swatch.lab.lightness, swatch.lab.a, swatch.lab.b, swatch.tolerance, swatch.as_figure ? 1.0 : 0.0};
    add(numbered_, key, column_.swatches, swatch);
  }

  template <class Map, class Key, class Value>
  void add(Map& known, const Key& key, std::vector<Value>& values, const Value& value) {
    const auto [found, is_new] = known.try_emplace(key, static_cast<std::uint32_t>(values.size()));
    if (is_new) values.push_back(value);
    column_.codes.push_back(found->second);
  }

  const Feature& feature_;
  Column& column_;
  const std::optional<SeenColour>& figure_colour_;
  std::unordered_map<const void*, std::pair<std::size_t, std::size_t>> ranges_; // begin and count of codes
  std::unordered_map<FeatureAtom, std::uint32_t> worded_;
  std::unordered_map<Numbers, std::uint32_t, HashOfNumbers> numbered_;
};

Fit fit_of_colour(const Swatch& swatch, const Observation& observation) {
  if (observation.as_figure && swatch.as_figure) return observation.negated ? Fit::outside : Fit::inside;
  // That the part differs from the figure does not say how it differs from anything else.
  if (observation.negated || !observation.colour || !swatch.known) return Fit::undecided;
  return guarded_difference(ciede2000(observation.colour->lab, swatch.lab), observation.colour->uncertainty,
                            swatch.tolerance);
}

} // namespace

FeatureTable tabulate(const LinkedKb& kb, std::span<const Candidate> candidates,
                      const std::optional<SeenColour>& figure_colour) {
  FeatureTable table{&kb, candidates, std::vector<Column>(kb.features.size())};
  std::vector<Coding> codings;
  codings.reserve(kb.features.size());
  for (std::size_t i = 0; i < kb.features.size(); ++i) {
    table.columns[i].first.assign(candidates.size() + 1, 0);
    codings.emplace_back(kb.features[i], table.columns[i], figure_colour);
  }
  for (std::size_t c = 0; c < candidates.size(); ++c) {
    for (const Stated& stated : candidates[c].stated) codings[at(stated.feature)].append(stated);
    for (Column& column : table.columns) column.first[c + 1] = static_cast<std::uint32_t>(column.codes.size());
  }
  return table;
}

Fit fit_of(const Column& column, std::size_t code, const Observation& observation) {
  if (!column.intervals.empty())
    return observation.measured ? guarded(*observation.measured, column.intervals[code]) : Fit::undecided;
  if (!column.swatches.empty()) return fit_of_colour(column.swatches[code], observation);
  const FeatureAtom& stated = column.atoms[code];
  const bool named = std::ranges::any_of(observation.atoms, [&](const FeatureAtom& seen) {
    const auto* one = std::get_if<std::string>(&seen);
    const auto* other = std::get_if<std::string>(&stated);
    return one != nullptr && other != nullptr ? as_read(*one) == as_read(*other) : seen == stated;
  });
  return named != observation.negated ? Fit::inside : Fit::outside;
}

bool harmless(const Feature& feature) {
  return !feature.destructive && feature.tool != Tool::needle && feature.tool != Tool::solvent;
}

} // namespace coeval
