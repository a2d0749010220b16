#include "examine/key.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>
#include <tuple>

#include "examine/words.hpp"

namespace coeval {
namespace {

using Set = std::vector<std::uint32_t>; // ascending

// What a look does to a set of kinds.
struct Part {
  Set kinds;
  std::vector<std::size_t> shown; // that lead here
  double probability = 0;
};
using Split = std::vector<Part>; // empty: the look tells nothing

constexpr double rounding = 1e-12;

class KeyMaker {
public:
  explicit KeyMaker(const FeatureTable& table) : table_(table) {
    gather_kinds();
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      if (!harmless(table.feature(i)) || table.columns[i].distinct() < 2) continue;
      looks_.push_back({i, showing_of(table.columns[i]), {}});
      spread(looks_.back());
    }
  }

  Key make() {
    Key key;
    if (table_.size() == 0) return key;
    Set all(members_.size());
    std::iota(all.begin(), all.end(), 0U);
    searching_ = members_.size() <= most_kinds_searched;
    if (searching_) least_minutes(all, {});
    grow(key, std::move(all));
    key.optimal = searching_; // the search gives up where there are too many sets
    reckon(key);
    return key;
  }

private:
  struct UsableLook {
    std::size_t column = 0;
    Showing showing;
    std::vector<std::vector<Share>> of_kind; // what each kind shows; empty where it states nothing
  };
  struct Best {
    double minutes = 0;
    std::optional<std::size_t> look; // of looks_
  };
  struct State {
    Set kinds;
    Set used; // looks that were taken and could still split the set, if a part showed another of its values
    friend bool operator<(const State& one, const State& other) {
      return std::tie(one.kinds, one.used) < std::tie(other.kinds, other.used);
    }
  };

  // Candidates that state the same in every harmless look are of one kind.
  void gather_kinds() {
    std::map<std::vector<std::vector<std::uint32_t>>, std::size_t> known;
    for (std::size_t candidate = 0; candidate < table_.size(); ++candidate) {
      std::vector<std::vector<std::uint32_t>> signature;
      for (std::size_t i = 0; i < table_.columns.size(); ++i) {
        if (!harmless(table_.feature(i))) continue;
        const auto codes = table_.columns[i].of(candidate);
        signature.emplace_back(codes.begin(), codes.end());
        std::ranges::sort(signature.back());
      }
      const auto [found, is_new] = known.try_emplace(std::move(signature), members_.size());
      if (is_new) members_.emplace_back();
      members_[found->second].push_back(candidate);
    }
  }

  void spread(UsableLook& look) const {
    const Column& column = table_.columns[look.column];
    for (const auto& members : members_) {
      std::map<std::uint32_t, double> shown;
      std::size_t telling = 0;
      for (const std::uint32_t code : column.of(members.front())) telling += look.showing.shares[code].empty() ? 0 : 1;
      for (const std::uint32_t code : column.of(members.front()))
        for (const Share& share : look.showing.shares[code])
          shown[share.shown] += share.probability / static_cast<double>(telling);
      look.of_kind.emplace_back();
      for (const auto& [what, probability] : shown) look.of_kind.back().push_back({what, probability});
    }
  }

  [[nodiscard]] double weight(std::uint32_t kind) const { return static_cast<double>(members_[kind].size()); }

  [[nodiscard]] Split split(const UsableLook& look, const Set& kinds) const {
    std::map<std::uint32_t, Part> by_shown;
    Set silent;
    double telling = 0;
    for (const std::uint32_t kind : kinds) {
      if (look.of_kind[kind].empty()) {
        silent.push_back(kind);
        continue;
      }
      telling += weight(kind);
      for (const Share& share : look.of_kind[kind]) {
        Part& part = by_shown[share.shown];
        part.kinds.push_back(kind);
        part.probability += weight(kind) * share.probability;
      }
    }
    if (by_shown.size() < 2) return {};
    // Things shown that leave the same kinds are one branch.
    Split parts;
    std::map<Set, std::size_t> known;
    bool tells = false;
    for (auto& [shown, part] : by_shown) {
      Set left;
      std::ranges::merge(part.kinds, silent, std::back_inserter(left));
      tells = tells || left.size() < kinds.size();
      const auto [found, is_new] = known.try_emplace(left, parts.size());
      if (is_new) parts.push_back({std::move(left), {}, 0});
      parts[found->second].shown.push_back(shown);
      parts[found->second].probability += part.probability / telling;
    }
    return tells ? parts : Split{};
  }

  [[nodiscard]] double minutes(std::size_t look) const { return table_.feature(looks_[look].column).effort; }

  // The looks that were taken and would still split `kinds`.
  [[nodiscard]] Set still_used(Set used, std::size_t look, const Set& kinds) const {
    used.push_back(static_cast<std::uint32_t>(look));
    std::erase_if(used, [&](std::uint32_t other) { return split(looks_[other], kinds).empty(); });
    std::ranges::sort(used);
    return used;
  }

  const Best& least_minutes(const Set& kinds, const Set& used) {
    const State state{kinds, used};
    if (const auto found = best_.find(state); found != best_.end()) return found->second;
    if (best_.size() >= most_states_searched) searching_ = false;
    Best best;
    for (std::size_t look = 0; look < looks_.size() && kinds.size() > 1 && searching_; ++look) {
      if (std::ranges::find(used, look) != used.end()) continue;
      const Split parts = split(looks_[look], kinds);
      if (parts.empty()) continue;
      double expected = minutes(look);
      for (const Part& part : parts) {
        if (best.look && expected >= best.minutes - rounding) break;
        expected += part.probability * least_minutes(part.kinds, still_used(used, look, part.kinds)).minutes;
      }
      if (!best.look || expected < best.minutes - rounding) best = {expected, look};
    }
    return best_.emplace(state, best).first->second;
  }

  // The look that tells most bits a minute.
  [[nodiscard]] std::optional<std::size_t> most_telling(const Set& kinds, const Set& used) const {
    std::optional<std::size_t> best;
    double most = 0;
    for (std::size_t look = 0; look < looks_.size() && kinds.size() > 1; ++look) {
      if (std::ranges::find(used, look) != used.end()) continue;
      const Split parts = split(looks_[look], kinds);
      if (parts.empty()) continue;
      const double rate = bits(looks_[look], kinds) / minutes(look);
      if (!best || rate > most + rounding) {
        best = look;
        most = rate;
      }
    }
    return best;
  }

  [[nodiscard]] double bits(const UsableLook& look, const Set& kinds) const {
    std::vector<double> together(look.showing.count, 0);
    double all = 0;
    double telling = 0;
    double unsure = 0;
    for (const std::uint32_t kind : kinds) {
      all += weight(kind);
      if (look.of_kind[kind].empty()) continue;
      telling += weight(kind);
      for (const Share& share : look.of_kind[kind]) {
        together[share.shown] += weight(kind) * share.probability;
        unsure -= weight(kind) * share.probability * std::log2(share.probability);
      }
    }
    return (telling * entropy(together) - unsure) / all;
  }

  // From the root, level by level, so that a key that is cut short is cut evenly.
  void grow(Key& key, Set all) {
    std::vector<State> states{{std::move(all), {}}};
    key.nodes.push_back({candidates_in(states.front().kinds), {}, {}, 0});
    for (std::size_t node = 0; node < key.nodes.size(); ++node) {
      const State state = states[node];
      auto look = searching_ ? least_minutes(state.kinds, state.used).look : std::nullopt;
      if (!searching_) look = most_telling(state.kinds, state.used); // or the search gave up just now
      if (!look) continue;
      Split parts = split(looks_[*look], state.kinds);
      Set silent;
      std::ranges::copy_if(state.kinds, std::back_inserter(silent),
                           [&](std::uint32_t kind) { return looks_[*look].of_kind[kind].empty(); });
      if (!silent.empty()) parts.push_back({std::move(silent), {}, 0}); // shows something that none of the others does
      if (key.nodes.size() + parts.size() > most_key_nodes) {
        key.complete = false;
        continue;
      }
      const std::size_t depth = key.nodes[node].depth + 1;
      key.nodes[node].look = FeatureIndex{static_cast<std::uint32_t>(looks_[*look].column)};
      for (Part& part : parts) {
        key.nodes[node].branches.push_back(
            {words(looks_[*look], part.shown), part.shown, part.probability, key.nodes.size()});
        key.nodes.push_back({candidates_in(part.kinds), {}, {}, depth});
        Set used = still_used(state.used, *look, part.kinds);
        states.push_back({std::move(part.kinds), std::move(used)});
      }
    }
  }

  // "ring or notch"; stretches of a scale that lie side by side as one.
  [[nodiscard]] std::string words(const UsableLook& look, const std::vector<std::size_t>& shown) const {
    if (shown.empty()) return "anything else";
    std::vector<std::string> parts;
    if (look.showing.stretches.empty()) {
      const bool colours = !table_.columns[look.column].swatches.empty();
      for (const std::size_t one : shown) {
        std::string part{colours && shown.size() > 1 ? shown_colour(table_, look.column, one) : std::string_view{}};
        if (part.empty()) part = shown_words(table_, look.column, look.showing, one);
        if (std::ranges::find(parts, part) == parts.end()) parts.push_back(std::move(part));
      }
    } else {
      Showing joined;
      for (const std::size_t one : shown) {
        const Interval& stretch = look.showing.stretches[one];
        if (!joined.stretches.empty() && joined.stretches.back().high == stretch.low)
          joined.stretches.back().high = stretch.high;
        else
          joined.stretches.push_back(stretch);
      }
      for (std::size_t i = 0; i < joined.stretches.size(); ++i)
        parts.push_back(shown_words(table_, look.column, joined, i));
    }
    std::string text;
    for (std::size_t i = 0; i < parts.size(); ++i)
      text += (i == 0 ? "" : i + 1 == parts.size() ? " or " : ", ") + parts[i];
    return text;
  }

  [[nodiscard]] std::vector<std::size_t> candidates_in(const Set& kinds) const {
    std::vector<std::size_t> list;
    for (const std::uint32_t kind : kinds) list.insert(list.end(), members_[kind].begin(), members_[kind].end());
    std::ranges::sort(list);
    return list;
  }

  void reckon(Key& key) const {
    std::vector<double> reached(key.nodes.size(), 0);
    reached.front() = 1;
    double unknown = 0; // bits that are still open at the leaves
    double most_bits = 0;
    double most_rate = 0;
    for (const UsableLook& look : looks_) {
      std::set<std::uint32_t> shown;
      for (const auto& shares : look.of_kind)
        for (const Share& share : shares) shown.insert(share.shown);
      if (shown.size() < 2) continue;
      const double bits_shown = std::log2(static_cast<double>(shown.size()));
      most_bits = std::max(most_bits, bits_shown);
      most_rate = std::max(most_rate, bits_shown / table_.feature(look.column).effort);
    }
    for (std::size_t i = 0; i < key.nodes.size(); ++i) {
      const KeyNode& node = key.nodes[i];
      if (!node.look) {
        unknown += reached[i] * std::log2(static_cast<double>(node.candidates.size()));
        continue;
      }
      key.expected_steps += reached[i];
      key.expected_minutes += reached[i] * table_.feature(at(*node.look)).effort;
      for (const KeyBranch& branch : node.branches) reached[branch.node] += reached[i] * branch.probability;
    }
    const double found_out = std::max(0.0, std::log2(static_cast<double>(table_.size())) - unknown);
    if (most_bits > 0) key.least_steps = found_out / most_bits;
    if (most_rate > 0) key.least_minutes = found_out / most_rate;
  }

  const FeatureTable& table_;
  std::vector<std::vector<std::size_t>> members_; // of each kind
  std::vector<UsableLook> looks_;
  std::map<State, Best> best_;
  bool searching_ = false;
};

} // namespace

Key make_key(const FeatureTable& table) { return KeyMaker{table}.make(); }

} // namespace coeval
