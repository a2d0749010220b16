// A feature that is spelt in two ways is two features to every comparison, so features and the values of choices must
// be declared.
#include <algorithm>
#include <string_view>
#include <unordered_map>
#include <vector>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "examine/candidates.hpp"
#include "rules/rule_list.hpp"

namespace coeval {
namespace {

std::string trouble(const FeatureValue& value, const Entry& feature) {
  const std::string_view kind = feature.text("kind");
  const bool as_figure =
      value.alternatives.size() == 1 && value.alternatives.front() == FeatureAtom{KeptText{same_as_figure}};
  if (kind == "colour" && as_figure) return {};
  if (value.lab.empty() == (kind == "colour"))
    return kind == "colour" ? "a colour is written { lab = [L, a, b] } or \"same-as-figure\""
                            : fmt::format("`{}` is no colour, so it takes no lab", feature.id);
  for (const FeatureAtom& atom : value.alternatives) {
    const auto* text = std::get_if<KeptText>(&atom);
    const auto* number = std::get_if<double>(&atom);
    if (kind == "choice") {
      if (text == nullptr) return fmt::format("`{}` takes one of its words", feature.id);
      const auto* words = feature.get<Words>("values");
      if (words == nullptr || std::ranges::find(*words, *text, &Word::text) != words->end()) continue;
      std::vector<std::string_view> known;
      for (const Word& word : *words) known.push_back(word.text);
      return fmt::format("`{}` cannot be `{}`: it is {}", feature.id, *text, list_names(known));
    }
    if (kind == "present" && !std::holds_alternative<bool>(atom))
      return fmt::format("`{}` is either there or not: true or false", feature.id);
    if (kind == "count" &&
        (number == nullptr || *number < 0 || *number != static_cast<double>(static_cast<std::int64_t>(*number))))
      return fmt::format("`{}` is counted: 0, 1, 2 …", feature.id);
    if (kind == "measure" && (number == nullptr || *number < 0))
      return fmt::format("`{}` is measured: a number of {}", feature.id, feature.text("unit"));
    if (kind == "text" && text == nullptr) return fmt::format("`{}` reads something: text in quotes", feature.id);
  }
  return {};
}

// A number that nothing can be compared with.
bool lacks_tolerance(const FeatureValue& value, const Entry& feature) {
  const std::string_view kind = feature.text("kind");
  const bool number = kind == "measure" || (kind == "colour" && !value.lab.empty());
  return number && !value.tolerance && feature.find("tolerance") == nullptr;
}

// Kinds whose features are compared with those of a part at hand.
bool is_compared(Kind kind) {
  return kind == Kind::accessory || kind == Kind::mould || kind == Kind::run || kind == Kind::repro;
}

} // namespace

void check_features(const RuleInput& input, Diagnostics& out) {
  const LinkedKb& kb = input.kb;
  std::unordered_map<std::string_view, EntryIndex> declared;
  std::vector<std::string_view> known;
  for (const Feature& feature : kb.features) {
    declared.emplace(feature.id, feature.entry);
    known.push_back(feature.id);
  }
  for (const Entry& entry : kb.entries.entries) {
    const auto* values = entry.get<Features>("features");
    if (values == nullptr) continue;
    for (const FeatureValue& value : *values) {
      Diagnostic wrong;
      const auto found = declared.find(value.feature);
      if (found != declared.end()) {
        const Entry& feature = kb.entries[found->second];
        if (feature.broken) continue;
        wrong.message = trouble(value, feature);
        wrong.code = Code::wrong_feature_value;
        if (wrong.message.empty() && lacks_tolerance(value, feature) && is_compared(entry.kind)) {
          wrong.code = Code::no_tolerance;
          wrong.message =
              fmt::format("`{}` states a number that no measurement can agree or disagree with", feature.id);
          wrong.help = fmt::format("add tolerance = … beside the value, or to the feature `{}`", feature.id);
        }
        if (wrong.message.empty()) continue;
        wrong.place = value.place;
        wrong.labels.push_back({kb.entries[found->second].place, "the feature is declared here"});
      } else {
        if (!input.complete) continue;
        const auto near = near_names(value.feature, known);
        wrong.code = Code::unknown_feature;
        wrong.place = value.name_place;
        wrong.message = fmt::format("there is no feature `{}`", value.feature);
        wrong.help = near.empty()
                         ? fmt::format("declare it: [[feature]] with id = \"{}\", a name and a kind", value.feature)
                         : did_you_mean(near);
        if (near.size() == 1) wrong.fix = Fix{value.name_place, std::string{near.front()}, false};
      }
      out.report(std::move(wrong));
    }
  }
}

} // namespace coeval
