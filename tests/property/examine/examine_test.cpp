// Do the candidates that are left, and the bits that a look tells, agree with counting them out?
#include <catch2/catch.hpp>

#include <cmath>
#include <map>

#include "examine/alike.hpp"
#include "random_parts.hpp"

using namespace coeval;
using random_parts::Parts;
using random_parts::Shape;

namespace {

// An observation as text, and which values of its feature it allows.
struct Tried {
  std::string text;
  bool choice = true;
  std::size_t feature = 0;
  std::vector<int> allowed;  // of a choice
  int value = 0, off_by = 0; // of a measure, in tenths
};

std::string tenths(int number) { return std::to_string(number / 10) + "." + std::to_string(number % 10); }

Tried random_choice(std::mt19937& random, std::size_t feature) {
  Tried tried{.feature = feature};
  for (int value = 0; value < random_parts::values; ++value)
    if (random() % 2 == 0) tried.allowed.push_back(value);
  if (tried.allowed.empty()) tried.allowed.push_back(0);
  std::string words;
  std::string others;
  for (int value = 0; value < random_parts::values; ++value) {
    std::string& list = std::ranges::find(tried.allowed, value) != tried.allowed.end() ? words : others;
    list += (list.empty() ? "v" : ",v") + std::to_string(value);
  }
  const bool turned = !others.empty() && random() % 2 == 0;
  tried.text = "f" + std::to_string(feature) + "=" + (turned ? "!" + others : words);
  return tried;
}

Tried random_measure(std::mt19937& random, std::size_t feature) {
  Tried tried{.choice = false, .feature = feature};
  tried.value = 100 + static_cast<int>(random() % 30);
  tried.off_by = static_cast<int>(random() % 6);
  tried.text = "g" + std::to_string(feature) + "=" + tenths(tried.value) + "±" + tenths(tried.off_by);
  return tried;
}

// Whether the candidate that was written c-th is excluded: no stated value, give or take its tolerance, is one that the
// observation allows. Whole numbers of tenths, so that nothing is rounded.
bool excludes(const Parts& parts, const Tried& tried, std::size_t c) {
  if (tried.choice) {
    const auto& stated = parts.written.stated[c][tried.feature];
    return !stated.empty() && std::ranges::none_of(stated, [&](int value) {
      return std::ranges::find(tried.allowed, value) != tried.allowed.end();
    });
  }
  const auto& stated = parts.written.measured[c][tried.feature];
  return !stated.empty() && std::ranges::none_of(stated, [&](int value) {
    for (int at = tried.value - tried.off_by; at <= tried.value + tried.off_by; ++at)
      if (std::abs(at - (100 + value)) <= random_parts::tolerance) return true;
    return false;
  });
}

// The mutual information of what a look at a choice shows and the class, by its definition.
double bits(const Parts& parts, std::size_t choice, const std::vector<double>& weight, const std::vector<int>& klass) {
  std::map<int, double> shown;
  double all = 0;
  double telling = 0;
  for (std::size_t c = 0; c < weight.size(); ++c) {
    const auto& stated = parts.written.stated[c][choice];
    for (const int value : stated) shown[value] += weight[c] / static_cast<double>(stated.size());
    telling += stated.empty() ? 0 : weight[c];
    all += weight[c];
  }
  if (telling == 0) return 0;
  std::map<std::pair<int, int>, double> joint; // class and value
  std::map<int, double> of_class;
  for (std::size_t c = 0; c < weight.size(); ++c) {
    const auto& stated = parts.written.stated[c][choice];
    for (const auto& [value, total] : shown) {
      double probability = total / telling; // where nothing is stated
      if (!stated.empty())
        probability = std::ranges::find(stated, value) == stated.end() ? 0 : 1.0 / static_cast<double>(stated.size());
      joint[{klass[c], value}] += weight[c] / all * probability;
    }
    of_class[klass[c]] += weight[c] / all;
  }
  double sum = 0;
  for (const auto& [pair, probability] : joint)
    if (probability > 0)
      sum += probability * std::log2(probability / (of_class[pair.first] * shown[pair.second] / telling));
  return sum;
}

} // namespace

TEST_CASE("a candidate is left exactly where every observation allows some value of it") {
  std::size_t some_left = 0;
  for (unsigned seed = 1; seed <= 400; ++seed) {
    const Parts parts{seed, {.candidates = 8, .choices = 3, .measures = 2}};
    std::mt19937 random{seed};
    std::vector<Tried> tried;
    std::vector<Observation> seen;
    std::string told;
    for (int i = 0; i < 1 + static_cast<int>(seed % 4); ++i) {
      tried.push_back(random() % 2 == 0 ? random_choice(random, random() % 3) : random_measure(random, random() % 2));
      seen.push_back(parts.seen(tried.back().text));
      told += " " + tried.back().text;
    }
    INFO("seed " << seed << ", seen" << told);
    const Outcome outcome = examine(parts.table, seen);
    for (std::size_t c = 0; c < parts.candidates.size(); ++c) {
      std::uint64_t expected = 0;
      for (std::size_t i = 0; i < tried.size(); ++i)
        if (excludes(parts, tried[i], c)) expected |= std::uint64_t{1} << i;
      CHECK(outcome.stands[parts.number[c]].excludes == expected);
    }
    some_left += outcome.left.empty() ? 0 : 1;
  }
  CHECK(some_left > 100);
  CHECK(some_left < 400);
}

TEST_CASE("every candidate is among those left by its own values, and the rest are told apart or alike") {
  for (unsigned seed = 1; seed <= 200; ++seed) {
    const Parts parts{seed, {.candidates = 8, .choices = 3, .measures = 2}};
    for (std::size_t c = 0; c < parts.candidates.size(); ++c) {
      INFO("seed " << seed << ", candidate " << c);
      std::vector<Observation> own;
      for (std::size_t f = 0; f < parts.written.stated[c].size(); ++f) {
        std::string words;
        for (const int value : parts.written.stated[c][f])
          words += (words.empty() ? "v" : ",v") + std::to_string(value);
        if (!words.empty()) own.push_back(parts.seen("f" + std::to_string(f) + "=" + words));
      }
      for (std::size_t f = 0; f < parts.written.measured[c].size(); ++f)
        if (const auto& stated = parts.written.measured[c][f]; !stated.empty())
          own.push_back(parts.seen("g" + std::to_string(f) + "=" + tenths(100 + stated.front()) + "±0"));
      const std::size_t self = parts.number[c];
      const Outcome outcome = examine(parts.table, own);
      CHECK(outcome.stands[self].excludes == 0);
      for (const std::size_t other : outcome.left)
        if (other != self) CHECK_FALSE(told_apart(parts.table, self, other));
    }
  }
}

TEST_CASE("the bits that a look tells are those of the definition") {
  double most = 0;
  for (unsigned seed = 1; seed <= 300; ++seed) {
    INFO("seed " << seed);
    const Parts parts{seed, {.candidates = 6, .choices = 3, .silent = 25, .several = 30}};
    std::vector<std::size_t> all(parts.candidates.size());
    for (std::size_t i = 0; i < all.size(); ++i) all[i] = i;
    std::vector<int> each(all.size());
    for (std::size_t c = 0; c < each.size(); ++c) each[c] = static_cast<int>(c);
    const std::vector<double> alike(all.size(), 1);
    const std::size_t claimed = seed % all.size();
    std::vector<int> is_claimed(all.size(), 1);
    std::vector<double> weight(all.size(), 1);
    is_claimed[claimed] = 0;
    weight[claimed] = static_cast<double>(all.size()) - 1;
    for (std::size_t choice = 0; choice < 3; ++choice) {
      const Column& column = parts.table.columns[parts.column("f" + std::to_string(choice))];
      CHECK(bits_told(column, all, {}) == Approx(bits(parts, choice, alike, each)).margin(1e-9));
      CHECK(bits_told(column, all, Classes::claimed_or_not(all.size(), parts.number[claimed], all.size())) ==
            Approx(bits(parts, choice, weight, is_claimed)).margin(1e-9));
      most = std::max(most, bits_told(column, all, {}));
    }
  }
  CHECK(most > 1);
}

TEST_CASE("lightness alone never makes two colours further apart than they are") {
  std::mt19937 random{1976};
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(random()) / static_cast<double>(std::mt19937::max());
  };
  for (int i = 0; i < 20'000; ++i) {
    const Lab one{between(0, 100), between(-120, 120), between(-120, 120)};
    const Lab other = i % 2 == 0 ? Lab{between(0, 100), between(-120, 120), between(-120, 120)}
                                 : Lab{one.lightness + between(-3, 3), one.a + between(-3, 3), one.b + between(-3, 3)};
    const double difference = ciede2000(one, other);
    CHECK(std::abs(one.lightness - other.lightness) <= most_lightness_per_difference * difference + 1e-9);
    CHECK(difference == Approx(ciede2000(other, one)).margin(1e-9));
  }
}
