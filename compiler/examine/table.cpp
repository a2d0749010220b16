#include "examine/table.hpp"

#include <algorithm>
#include <functional>

namespace coeval {
namespace {

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

std::size_t hash_of(const Interval& interval) {
  return std::hash<double>{}(interval.low) * 31 + std::hash<double>{}(interval.high);
}
std::size_t hash_of(const Swatch& swatch) {
  std::size_t hash = swatch.as_figure ? 1 : 0;
  for (const double number : {swatch.lab.lightness, swatch.lab.a, swatch.lab.b, swatch.reach()})
    hash = hash * 31 + std::hash<double>{}(number);
  return hash;
}
std::size_t hash_of(const FeatureAtom& atom) {
  const auto* text = std::get_if<KeptText>(&atom);
  return text != nullptr ? std::hash<std::string>{}(as_read(*text)) : std::hash<FeatureAtom>{}(atom);
}
bool same(const Interval& one, const Interval& other) { return one == other; }
bool same(const Swatch& one, const Swatch& other) { return one == other; }
bool same(const FeatureAtom& one, const FeatureAtom& other) {
  const auto* text = std::get_if<KeptText>(&one);
  const auto* of_other = std::get_if<KeptText>(&other);
  return text != nullptr && of_other != nullptr ? as_read(*text) == as_read(*of_other) : one == other;
}

FeatureAtom as_stated(const SeenAtom& seen) {
  if (const auto* text = std::get_if<std::string>(&seen)) return KeptText{*text};
  if (const auto* number = std::get_if<double>(&seen)) return *number;
  return std::get<bool>(seen);
}

// Numbers distinct values in the order in which they come. Open addressing: a hundred thousand colours need no nodes.
template <class Value> class CodeBook {
public:
  std::uint32_t code_of(const Value& value, std::vector<Value>& values) {
    if (2 * (values.size() + 1) > slots_.size()) grow(values);
    std::size_t slot = hash_of(value) & (slots_.size() - 1);
    while (slots_[slot] != free) {
      if (same(values[slots_[slot]], value)) return slots_[slot];
      slot = (slot + 1) & (slots_.size() - 1);
    }
    slots_[slot] = static_cast<std::uint32_t>(values.size());
    values.push_back(value);
    return slots_[slot];
  }

private:
  static constexpr std::uint32_t free = 0xffffffffU;

  void grow(const std::vector<Value>& values) {
    slots_.assign(std::max<std::size_t>(16, 4 * slots_.size()), free);
    for (std::size_t code = 0; code < values.size(); ++code) {
      std::size_t slot = hash_of(values[code]) & (slots_.size() - 1);
      while (slots_[slot] != free) slot = (slot + 1) & (slots_.size() - 1);
      slots_[slot] = static_cast<std::uint32_t>(code);
    }
  }

  std::vector<std::uint32_t> slots_; // a power of two of them, at most half in use
};

// Gives the codes of one column.
class Coding {
public:
  Coding(const Feature& feature, Column& column, const std::optional<SeenColour>& figure_colour)
      : feature_(feature), column_(column), figure_colour_(figure_colour) {}

  void append(const Stated& stated) {
    // Runs of a mould follow each other and share what it says: most statements are the one before.
    const void* key = stated.value != nullptr ? static_cast<const void*>(stated.value) : stated.lab;
    if (key == last_ && stated.tolerance == last_tolerance_) {
      const std::size_t end = last_end_;
      for (std::size_t i = last_begin_; i < end; ++i) {
        const std::uint32_t again = column_.codes[i];
        column_.codes.push_back(again);
      }
      return;
    }
    last_ = key;
    last_tolerance_ = stated.tolerance;
    last_begin_ = column_.codes.size();
    code(stated);
    last_end_ = column_.codes.size();
  }

private:
  void code(const Stated& stated) {
    if (feature_.kind == FeatureKind::colour) {
      code_colour(stated);
      return;
    }
    if (stated.value == nullptr) return; // [colour] says colours only
    if (feature_.kind == FeatureKind::measure) {
      if (!stated.tolerance) return;
      for (const FeatureAtom& atom : stated.value->alternatives)
        column_.codes.push_back(
            measures_.code_of(around(std::get<double>(atom), *stated.tolerance), column_.intervals));
      return;
    }
    for (const FeatureAtom& atom : stated.value->alternatives)
      column_.codes.push_back(words_.code_of(atom, column_.atoms));
  }

  void code_colour(const Stated& stated) {
    Swatch swatch;
    if (stated.lab != nullptr) {
      if (!stated.tolerance) return;
      swatch = {lab_of(*stated.lab), *stated.tolerance};
    } else {
      swatch.as_figure = true;
      swatch.known = figure_colour_.has_value() && stated.tolerance.has_value();
      if (swatch.known) swatch = {figure_colour_->lab, *stated.tolerance, figure_colour_->uncertainty, true, true};
    }
    column_.codes.push_back(colours_.code_of(swatch, column_.swatches));
  }

  const Feature& feature_;
  Column& column_;
  const std::optional<SeenColour>& figure_colour_;
  const void* last_ = nullptr; // the statement that was coded last, and where its codes are
  std::optional<double> last_tolerance_;
  std::size_t last_begin_ = 0;
  std::size_t last_end_ = 0;
  CodeBook<FeatureAtom> words_;
  CodeBook<Interval> measures_;
  CodeBook<Swatch> colours_;
};

Fit fit_of_colour(const Swatch& swatch, const Observation& observation) {
  if (observation.as_figure && swatch.as_figure) return observation.negated ? Fit::outside : Fit::inside;
  // That the part differs from the figure does not say how it differs from anything else.
  if (observation.negated || !observation.colour || !swatch.known) return Fit::undecided;
  return guarded_difference(ciede2000(observation.colour->lab, swatch.lab),
                            observation.colour->uncertainty + swatch.uncertainty, swatch.tolerance);
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
  const bool named =
      std::ranges::any_of(observation.atoms, [&](const SeenAtom& seen) { return same(as_stated(seen), stated); });
  return named != observation.negated ? Fit::inside : Fit::outside;
}

bool harmless(const Feature& feature) {
  return !feature.destructive && feature.tool != Tool::needle && feature.tool != Tool::solvent;
}

} // namespace coeval
