// A feature is looked at by people who have only what its entry says: a number without a unit, or a word that the
// feature does not list, means something else to each of them.
#include <algorithm>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "rules/rule_list.hpp"

namespace coeval {
namespace {

void report(Diagnostics& out, Span place, std::string message, std::string help) {
  Diagnostic broken;
  broken.code = Code::broken_feature;
  broken.place = place;
  broken.message = std::move(message);
  broken.help = std::move(help);
  out.report(std::move(broken));
}

// Keys that only some kinds of feature have a use for.
void check_needless(const Feature& feature, const Entry& entry, Diagnostics& out) {
  const bool measure = feature.kind == FeatureKind::measure;
  if (const Field* unit = entry.find("unit"); unit != nullptr && !measure)
    report(out, unit->place, fmt::format("`{}` has a unit, which only a measure has", feature.id),
           "leave it out, or make the kind measure");
  if (const Field* values = entry.find("values"); values != nullptr && feature.kind != FeatureKind::choice)
    report(out, values->place, fmt::format("`{}` lists values, which only a choice does", feature.id),
           "leave them out, or make the kind choice");
  if (const Field* tolerance = entry.find("tolerance");
      tolerance != nullptr && !measure && feature.kind != FeatureKind::colour)
    report(out, tolerance->place, fmt::format("`{}` has a tolerance, which only a measure or a colour has", feature.id),
           "leave it out");
}

void check_feature(const Feature& feature, const Entry& entry, Diagnostics& out) {
  if (feature.kind == FeatureKind::measure && entry.find("unit") == nullptr)
    report(out, entry.place, fmt::format("`{}` is measured, but not in any unit", feature.id),
           "add unit = \"mm\" for a length, or unit = \"g\" for a weight");
  if (feature.kind == FeatureKind::choice && feature.values.empty())
    report(out, entry.place, fmt::format("`{}` is a choice of no values", feature.id),
           "add values = [\"…\", \"…\"] with every value that it can have");
  check_needless(feature, entry, out);
}

void check_value(const Feature& feature, const Entry& value, Diagnostics& out) {
  if (std::ranges::find(feature.values, value.id) != feature.values.end()) return;
  const std::vector<std::string_view> known(feature.values.begin(), feature.values.end());
  const auto near = near_names(value.id, known);
  report(out, value.place,
         fmt::format("`{}` is described as a value of `{}`, which does not list it", value.id, feature.id),
         near.empty() ? fmt::format("add it to `values` of `{}`, or take the description out", feature.id)
                      : did_you_mean(near));
}

} // namespace

void check_feature_entries(const RuleInput& input, Diagnostics& out) {
  const LinkedKb& kb = input.kb;
  for (const Feature& feature : kb.features) {
    const Entry& entry = kb.entries[feature.entry];
    if (!entry.broken) check_feature(feature, entry, out);
  }
  for (const Entry& value : kb.entries.entries) {
    if (value.kind != Kind::feature_value || value.id.empty() || value.parent == no_entry) continue;
    const Entry& parent = kb.entries[value.parent];
    const auto feature = kb.find_feature(parent.id);
    if (feature && !parent.broken) check_value(kb.features[at(*feature)], value, out);
  }
}

} // namespace coeval
