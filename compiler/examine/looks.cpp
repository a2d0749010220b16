#include "examine/looks.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numeric>

namespace coeval {
namespace {

// Beyond this many stretches of a scale, neighbours are joined: nobody reads a printed scale more finely.
constexpr std::size_t most_stretches = 1024;
// Beyond this many colours, those of one cell of CIELAB count as one.
constexpr std::size_t most_colours = 512;
// Half the width that a value without any leeway is given, in the feature's unit.
constexpr double hair = 1e-7;

double information(double probability) { return probability > 0 ? -probability * std::log2(probability) : 0; }

Interval widened(Interval interval) {
  return interval.high - interval.low > 2 * hair ? interval : Interval{interval.low - hair, interval.high + hair};
}

Showing showing_of_scale(const std::vector<Interval>& intervals, const std::vector<char>& used) {
  std::vector<double> borders;
  for (std::size_t code = 0; code < intervals.size(); ++code) {
    if (used[code] == 0) continue;
    const Interval wide = widened(intervals[code]);
    borders.push_back(wide.low);
    borders.push_back(wide.high);
  }
  std::ranges::sort(borders);
  // Limits that are equal as decimals are one border.
  const auto same = [](double one, double other) { return other - one < hair / 2; };
  borders.erase(std::unique(borders.begin(), borders.end(), same), borders.end());
  if (borders.size() > most_stretches) {
    const std::size_t step = borders.size() / most_stretches + 1;
    std::vector<double> fewer;
    for (std::size_t i = 0; i < borders.size(); i += step) fewer.push_back(borders[i]);
    if (fewer.back() != borders.back()) fewer.push_back(borders.back());
    borders = std::move(fewer);
  }
  Showing showing;
  showing.shares.resize(intervals.size());
  constexpr std::size_t not_shown = static_cast<std::size_t>(-1);
  std::vector<std::size_t> number(borders.size(), not_shown); // of the stretch from border i to the next
  for (std::size_t code = 0; code < intervals.size(); ++code) {
    if (used[code] == 0) continue;
    const Interval wide = widened(intervals[code]);
    const auto after = std::ranges::upper_bound(borders, wide.low + hair / 2);
    double total = 0;
    for (std::size_t i = static_cast<std::size_t>(after - borders.begin()) - (after == borders.begin() ? 0 : 1);
         i + 1 < borders.size() && borders[i] < wide.high - hair / 2; ++i) {
      const double overlap = std::min(borders[i + 1], wide.high) - std::max(borders[i], wide.low);
      if (overlap <= hair / 2) continue;
      if (number[i] == not_shown) number[i] = 0;
      showing.shares[code].push_back({static_cast<std::uint32_t>(i), overlap});
      total += overlap;
    }
    for (Share& share : showing.shares[code]) share.probability /= total;
  }
  // Numbered in the order of the scale, gaps left out.
  for (std::size_t i = 0; i < number.size(); ++i) {
    if (number[i] == not_shown) continue;
    number[i] = showing.count++;
    showing.stretches.push_back({borders[i], borders[i + 1]});
  }
  for (auto& shares : showing.shares)
    for (Share& share : shares) share.shown = static_cast<std::uint32_t>(number[share.shown]);
  return showing;
}

// For so many colours that comparing each with each would take seconds: shown is the cell of CIELAB that a colour lies
// in, as wide as the widest tolerance reaches. What tolerances reach into the next cell is neglected, so a look seems
// to tell slightly more than it does.
Showing showing_of_cells(const std::vector<Swatch>& swatches, const std::vector<std::uint32_t>& order, double edge,
                         Showing showing) {
  std::map<std::array<int, 3>, std::uint32_t> cells;
  for (const std::uint32_t code : order) {
    const Lab& lab = swatches[code].lab;
    const auto cell = [&](double x) { return static_cast<int>(std::floor(x / edge)); };
    // A cell goes by the number of its first colour.
    const auto found = cells.try_emplace({cell(lab.lightness), cell(lab.a), cell(lab.b)}, code).first;
    showing.shares[code].push_back({found->second, 1});
  }
  return showing;
}

// Shown is the stated colour that comes nearest; a part can come near another colour the more, the more the two
// tolerances overlap.
Showing showing_of_colours(const std::vector<Swatch>& swatches, const std::vector<char>& used) {
  Showing showing;
  showing.count = swatches.size();
  showing.shares.resize(swatches.size());
  std::vector<std::uint32_t> order;
  double widest = 0;
  for (std::size_t code = 0; code < swatches.size(); ++code)
    if (used[code] != 0 && !swatches[code].known) {
      showing.shares[code].push_back({static_cast<std::uint32_t>(code), 1}); // found by comparing with the figure
    } else if (used[code] != 0) {
      order.push_back(static_cast<std::uint32_t>(code));
      widest = std::max(widest, swatches[code].reach());
    }
  if (order.size() > most_colours)
    return showing_of_cells(swatches, order, std::max(2 * widest, 1.0), std::move(showing));
  std::ranges::stable_sort(order, {}, [&](std::uint32_t code) { return swatches[code].lab.lightness; });
  for (std::size_t i = 0; i < order.size(); ++i) {
    const Swatch& one = swatches[order[i]];
    showing.shares[order[i]].push_back({order[i], std::max(2 * one.reach(), hair)});
    for (std::size_t j = i + 1; j < order.size(); ++j) {
      const Swatch& other = swatches[order[j]];
      if (other.lab.lightness - one.lab.lightness > most_lightness_per_difference * (one.reach() + widest)) break;
      const double overlap = one.reach() + other.reach() - ciede2000(one.lab, other.lab);
      if (overlap <= 0) continue;
      showing.shares[order[i]].push_back({order[j], overlap});
      showing.shares[order[j]].push_back({order[i], overlap});
    }
  }
  for (auto& shares : showing.shares) {
    const double total = std::accumulate(shares.begin(), shares.end(), 0.0,
                                         [](double sum, const Share& share) { return sum + share.probability; });
    for (Share& share : shares) share.probability /= total;
    std::ranges::sort(shares, {}, &Share::shown);
  }
  return showing;
}

// What a candidate's codes show together: each of them is as likely as the others.
void add_shown(const Showing& showing, std::span<const std::uint32_t> codes, double weight, std::vector<double>& to) {
  std::size_t telling = 0;
  for (const std::uint32_t code : codes) telling += showing.shares[code].empty() ? 0 : 1;
  for (const std::uint32_t code : codes)
    for (const Share& share : showing.shares[code])
      to[share.shown] += weight * share.probability / static_cast<double>(telling);
}

bool tells(const Showing& showing, std::span<const std::uint32_t> codes) {
  return std::ranges::any_of(codes, [&](std::uint32_t code) { return !showing.shares[code].empty(); });
}

// For each candidate its own class: what is shown on the whole, less what each candidate leaves uncertain itself.
double bits_of_each(const Column& column, const Showing& showing, const std::vector<std::size_t>& left,
                    const Classes& classes) {
  std::vector<double> shown(showing.count, 0);
  std::vector<double> own(showing.count, 0);
  std::vector<double> of_code(showing.shares.size(), -1); // the entropy of what one code shows
  double all = 0;
  double telling = 0;
  double unsure = 0;
  for (const std::size_t candidate : left) {
    const double weight = classes.weight.empty() ? 1 : classes.weight[candidate];
    all += weight;
    const auto codes = column.of(candidate);
    if (codes.empty() || !tells(showing, codes)) continue;
    telling += weight;
    if (codes.size() == 1) {
      double& known = of_code[codes.front()];
      if (known < 0) {
        known = 0;
        for (const Share& share : showing.shares[codes.front()]) known += information(share.probability);
      }
      unsure += weight * known;
      for (const Share& share : showing.shares[codes.front()]) shown[share.shown] += weight * share.probability;
      continue;
    }
    add_shown(showing, codes, 1, own);
    for (const std::uint32_t code : codes)
      for (const Share& share : showing.shares[code]) {
        unsure += weight * information(own[share.shown]);
        shown[share.shown] += weight * own[share.shown];
        own[share.shown] = 0;
      }
  }
  return telling > 0 ? (telling * entropy(shown) - unsure) / all : 0;
}

double bits_of_classes(const Column& column, const Showing& showing, const std::vector<std::size_t>& left,
                       const Classes& classes) {
  std::vector<std::vector<double>> shown(classes.count, std::vector<double>(showing.count, 0));
  std::vector<double> silent(classes.count, 0);
  std::vector<double> together(showing.count, 0);
  for (const std::size_t candidate : left) {
    const double weight = classes.weight.empty() ? 1 : classes.weight[candidate];
    const auto codes = column.of(candidate);
    if (codes.empty() || !tells(showing, codes)) {
      silent[classes.of[candidate]] += weight;
    } else {
      add_shown(showing, codes, weight, shown[classes.of[candidate]]);
    }
  }
  double telling = 0;
  for (const auto& of_class : shown)
    for (std::size_t i = 0; i < showing.count; ++i) {
      together[i] += of_class[i];
      telling += of_class[i];
    }
  if (telling <= 0) return 0;
  double all = telling;
  for (const double weight : silent) all += weight;
  double bits = entropy(together);
  for (std::size_t k = 0; k < classes.count; ++k) {
    double weight = silent[k];
    for (std::size_t i = 0; i < showing.count; ++i) {
      weight += shown[k][i];
      shown[k][i] += silent[k] * together[i] / telling;
    }
    bits -= weight / all * entropy(shown[k]);
  }
  return bits;
}

} // namespace

double entropy(const std::vector<double>& weights) {
  const double total = std::accumulate(weights.begin(), weights.end(), 0.0);
  double bits = 0;
  if (total > 0)
    for (const double weight : weights) bits += information(weight / total);
  return bits;
}

Showing showing_of(const Column& column, const std::vector<char>& used) {
  if (!column.intervals.empty()) return showing_of_scale(column.intervals, used);
  if (!column.swatches.empty()) return showing_of_colours(column.swatches, used);
  Showing showing;
  showing.count = column.atoms.size();
  showing.shares.resize(showing.count);
  for (std::size_t code = 0; code < showing.count; ++code)
    if (used[code] != 0) showing.shares[code].push_back({static_cast<std::uint32_t>(code), 1});
  return showing;
}

Showing showing_of(const Column& column) { return showing_of(column, std::vector<char>(column.distinct(), 1)); }

Classes Classes::claimed_or_not(std::size_t candidates, std::size_t claimed, std::size_t left) {
  Classes classes{std::vector<std::uint32_t>(candidates, 1), std::vector<double>(candidates, 1), 2};
  classes.of[claimed] = 0;
  classes.weight[claimed] = static_cast<double>(left) - 1;
  return classes;
}

Classes Classes::original_or_not(std::span<const Candidate> candidates) {
  Classes classes{{}, {}, 2};
  for (const Candidate& candidate : candidates) classes.of.push_back(candidate.original() ? 0 : 1);
  return classes;
}

double bits_told(const Column& column, const std::vector<std::size_t>& left, const Classes& classes) {
  std::vector<char> used(column.distinct(), 0);
  for (const std::size_t candidate : left)
    for (const std::uint32_t code : column.of(candidate)) used[code] = 1;
  if (std::ranges::count(used, 1) < 2) return 0;
  const Showing showing = showing_of(column, used);
  const double bits = classes.of.empty() ? bits_of_each(column, showing, left, classes)
                                         : bits_of_classes(column, showing, left, classes);
  constexpr double rounding = 1e-9; // what is left of a difference of two equal sums
  return bits > rounding ? bits : 0;
}

std::vector<Look> rank_looks(const FeatureTable& table, const std::vector<std::size_t>& left, const Classes& classes,
                             bool seller_first) {
  std::vector<Look> looks;
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    const Feature& feature = table.feature(i);
    if (!harmless(feature)) continue;
    const double bits = bits_told(table.columns[i], left, classes);
    if (bits > 0) looks.push_back({FeatureIndex{static_cast<std::uint32_t>(i)}, bits, feature.effort});
  }
  std::ranges::stable_sort(looks, [&](const Look& one, const Look& other) {
    const bool one_later = seller_first && table.feature(at(one.feature)).by == LookBy::in_hand;
    const bool other_later = seller_first && table.feature(at(other.feature)).by == LookBy::in_hand;
    if (one_later != other_later) return other_later;
    return one.bits_per_minute() > other.bits_per_minute() + 1e-12;
  });
  return looks;
}

} // namespace coeval
