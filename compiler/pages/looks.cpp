#include "pages/looks.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "examine/colour.hpp"
#include "examine/measure.hpp"
#include "pages/paths.hpp"

namespace coeval {
namespace {

// From what is most general to the entry itself.
std::vector<EntryIndex> stating_entries(const LinkedKb& kb, EntryIndex index) {
  const Entry& entry = kb.entries[index];
  std::vector<EntryIndex> chain;
  if (entry.kind == Kind::repro) {
    const Repro& repro = kb.repros[kb.position[at(index)]];
    if (repro.of_run)
      chain = stating_entries(kb, kb.runs[at(*repro.of_run)].entry);
    else if (repro.of_mould)
      chain = stating_entries(kb, kb.moulds[at(*repro.of_mould)].entry);
  } else if ((entry.kind == Kind::run || entry.kind == Kind::mould) && entry.parent != no_entry) {
    chain = stating_entries(kb, entry.parent);
  }
  chain.push_back(index);
  return chain;
}

Interval stated_interval(const Feature& feature, const FeatureValue& value, double number) {
  return around(number, value.tolerance.value_or(feature.tolerance.value_or(0)));
}

Lab lab_of(const FeatureValue& value) { return {value.lab[0], value.lab[1], value.lab[2]}; }

std::string minutes_words(double minutes) {
  if (minutes == 0.5) return "half a minute";
  return minutes == 1 ? "a minute" : fmt::format("{:g} minutes", minutes);
}

} // namespace

std::vector<StatedLook> looks_of(const LinkedKb& kb, EntryIndex entry) {
  std::vector<StatedLook> looks;
  for (const EntryIndex from : stating_entries(kb, entry)) {
    const auto* values = kb.entries[from].get<std::vector<FeatureValue>>("features");
    if (values == nullptr) continue;
    for (const FeatureValue& value : *values) {
      const auto feature = kb.find_feature(value.feature);
      if (!feature) continue;
      const StatedLook look{*feature, &value, from};
      const auto place = std::ranges::lower_bound(looks, *feature, {}, &StatedLook::feature);
      if (place != looks.end() && place->feature == *feature)
        *place = look;
      else
        looks.insert(place, look);
    }
  }
  return looks;
}

const StatedLook* find_look(const std::vector<StatedLook>& looks, FeatureIndex feature) {
  const auto place = std::ranges::lower_bound(looks, feature, {}, &StatedLook::feature);
  return place != looks.end() && place->feature == feature ? &*place : nullptr;
}

bool tells_apart(const LinkedKb& kb, const FeatureValue& one, const FeatureValue& other) {
  const auto index = kb.find_feature(one.feature);
  if (!index || one.feature != other.feature) return false;
  const Feature& feature = kb.features[at(*index)];
  if (!one.lab.empty() || !other.lab.empty()) {
    if (one.lab.size() != 3 || other.lab.size() != 3) return false;
    const double reach =
        one.tolerance.value_or(feature.tolerance.value_or(0)) + other.tolerance.value_or(feature.tolerance.value_or(0));
    return ciede2000(lab_of(one), lab_of(other)) > reach;
  }
  return std::ranges::none_of(one.alternatives, [&](const FeatureAtom& atom) {
    return std::ranges::any_of(other.alternatives, [&](const FeatureAtom& alternative) {
      const auto* number = std::get_if<double>(&atom);
      const auto* facing = std::get_if<double>(&alternative);
      if (number == nullptr || facing == nullptr || feature.kind != FeatureKind::measure) return atom == alternative;
      return !apart(stated_interval(feature, one, *number), stated_interval(feature, other, *facing));
    });
  });
}

Cell value_cell(const LinkedKb& kb, const FeatureValue& value) {
  Cell cell;
  cell.text = {plain(value_words(kb, value))};
  if (value.lab.size() == 3) cell.lab = {value.lab[0], value.lab[1], value.lab[2]};
  return cell;
}

Piece feature_link(const LinkedKb& kb, FeatureIndex feature) { return link_to(kb, kb.features[at(feature)].entry); }

std::string effort_words(const Feature& feature) {
  static constexpr std::array<std::string_view, 11> tools{
      "by eye", "with a lens",     "with a calliper", "on a scale",    "with a colour card", "with a finger",
      "by ear", "against a light", "floating it",     "with a needle", "with a solvent"};
  const std::string_view by = feature.by == LookBy::photograph    ? ", a photograph will do"
                              : feature.by == LookBy::measurement ? ", a seller can measure it"
                                                                  : ", with the part in hand";
  return fmt::format("{}{}, {}", tools[static_cast<std::size_t>(feature.tool)], by, minutes_words(feature.effort));
}

Table looks_table(const Site& site, std::string caption, const std::vector<StatedLook>& looks) {
  Table table;
  table.caption = std::move(caption);
  for (const std::string_view head : {"Feature", "Value", "Stated for"})
    table.columns.push_back({.text = {plain(std::string{head})}});
  for (const StatedLook& look : looks)
    table.rows.push_back({{.text = {feature_link(site.kb(), look.feature)}},
                          value_cell(site.kb(), *look.value),
                          {.text = {link_to(site.kb(), look.from)}}});
  return table;
}

Table comparison(const Site& site, std::string caption, std::vector<Compared> columns, EntryIndex about) {
  const LinkedKb& kb = site.kb();
  Table table;
  table.kind = Table::Kind::comparison;
  table.caption = std::move(caption);
  table.columns.push_back({.text = {plain("Feature")}});
  std::vector<std::vector<StatedLook>> looks;
  std::vector<FeatureIndex> features;
  for (Compared& column : columns) {
    table.columns.push_back(std::move(column.head));
    looks.push_back(looks_of(kb, column.entry));
    for (const StatedLook& look : looks.back()) features.push_back(look.feature);
  }
  std::ranges::sort(features);
  features.erase(std::unique(features.begin(), features.end()), features.end());
  for (const FeatureIndex feature : features) {
    std::vector<Cell> row{{.text = {feature_link(kb, feature)}}};
    bool wanted = about == no_entry;
    for (const std::vector<StatedLook>& stated : looks) {
      const StatedLook* look = find_look(stated, feature);
      Cell cell;
      if (look == nullptr) {
        cell.text = {plain("not stated")};
      } else {
        cell = value_cell(kb, *look->value);
        cell.differs = std::ranges::any_of(looks, [&](const std::vector<StatedLook>& others) {
          const StatedLook* other = find_look(others, feature);
          return other != nullptr && tells_apart(kb, *look->value, *other->value);
        });
        wanted = wanted || cell.differs || look->from == about;
      }
      row.push_back(std::move(cell));
    }
    if (wanted) table.rows.push_back(std::move(row));
  }
  return table;
}

} // namespace coeval
