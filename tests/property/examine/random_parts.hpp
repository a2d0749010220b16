// Which small knowledge bases of runs and reproductions are tried?
//
// One accessory whose candidates state values of a few features at random: some nothing, some several. What was written
// is kept, and never read back from the program.
#pragma once

#include <random>
#include <string>
#include <vector>

#include "examine/examine.hpp"
#include "in_memory_kb.hpp"

namespace random_parts {

struct Shape {
  int candidates = 5;
  int choices = 3;
  int measures = 0;
  int silent = 20;  // of a hundred
  int several = 20; // of a hundred
};

constexpr int values = 3;    // of a choice
constexpr int tolerance = 3; // of a measure, in tenths of a millimetre

struct Written {
  std::vector<int> minutes;                            // by choice
  std::vector<std::vector<std::vector<int>>> stated;   // candidate, choice, values; empty: nothing
  std::vector<std::vector<std::vector<int>>> measured; // candidate, measure, values in tenths of a millimetre
  std::string text;
};

inline Written write(unsigned seed, const Shape& shape) {
  std::mt19937 random{seed};
  const auto below = [&](int end) { return static_cast<int>(random() % static_cast<unsigned>(end)); };
  Written it;
  it.text = "[accessory]\nid = \"part\"\nname = \"Part\"\nslot = \"hand\"\n[[mould]]\nid = \"m\"\n";
  std::string reproductions;
  const auto pick = [&](int end) {
    std::vector<int> list;
    if (below(100) < shape.silent) return list;
    const int count = below(100) < shape.several ? 2 : 1;
    for (int i = 0; i < count; ++i) list.push_back(below(end));
    std::ranges::sort(list);
    list.erase(std::unique(list.begin(), list.end()), list.end());
    return list;
  };
  const auto listed = [](const std::vector<int>& list, const auto& word) {
    std::string text;
    for (const int value : list) text += (text.empty() ? "" : ", ") + word(value);
    return "[" + text + "]";
  };
  for (int c = 0; c < shape.candidates; ++c) {
    const std::string head = "id = \"c" + std::to_string(c) + "\"\n";
    std::string features;
    it.stated.emplace_back();
    it.measured.emplace_back();
    for (int f = 0; f < shape.choices; ++f) {
      it.stated.back().push_back(pick(values));
      if (!it.stated.back().back().empty())
        features += "f" + std::to_string(f) + " = " +
                    listed(it.stated.back().back(), [](int value) { return "\"v" + std::to_string(value) + "\""; }) +
                    "\n";
    }
    for (int f = 0; f < shape.measures; ++f) {
      it.measured.back().push_back(pick(30));
      if (!it.measured.back().back().empty())
        features +=
            "g" + std::to_string(f) + " = " +
            listed(it.measured.back().back(),
                   [](int value) { return std::to_string(10 + value / 10) + "." + std::to_string(value % 10); }) +
            "\n";
    }
    if (below(3) > 0)
      it.text += "[[mould.run]]\n" + head + "[mould.run.features]\n" + features;
    else
      reproductions += "[[repro]]\n" + head + "of = \"m\"\n[repro.features]\n" + features;
  }
  it.text += reproductions;
  for (int f = 0; f < shape.choices; ++f) {
    it.minutes.push_back(1 + below(3));
    it.text += "[[feature]]\nid = \"f" + std::to_string(f) + "\"\nname = \"F\"\nkind = \"choice\"\nvalues = [\"v0\", " +
               "\"v1\", \"v2\"]\neffort = " + std::to_string(it.minutes.back()) + "\n";
  }
  for (int f = 0; f < shape.measures; ++f)
    it.text += "[[feature]]\nid = \"g" + std::to_string(f) +
               "\"\nname = \"G\"\nkind = \"measure\"\nunit = \"mm\"\ntolerance = 0.3\n";
  return it;
}

class Parts {
public:
  Parts(unsigned seed, const Shape& shape)
      : written(write(seed, shape)), it(written.text), candidates(coeval::candidates_of(it.kb, {})),
        table(coeval::tabulate(it.kb, candidates)) {
    // Originals come before reproductions in the program's order: number[i] is the candidate that was written i-th.
    number.resize(candidates.size());
    for (std::size_t i = 0; i < candidates.size(); ++i) {
      const std::string_view address = coeval::address_of(it.kb, candidates[i]);
      number[static_cast<std::size_t>(std::stoi(std::string{address.substr(address.rfind('c') + 1)}))] = i;
    }
  }

  Written written;
  in_memory::Kb it;
  std::vector<coeval::Candidate> candidates;
  coeval::FeatureTable table;
  std::vector<std::size_t> number;

  [[nodiscard]] std::size_t column(const std::string& feature) const {
    return coeval::at(it.kb.find_feature(feature).value());
  }
  [[nodiscard]] coeval::Observation seen(const std::string& text) const {
    return std::get<coeval::Observation>(coeval::read_observation(it.kb, text));
  }
};

} // namespace random_parts
