#include "pages/looks.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "examine/candidates.hpp"
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

// What an entry's own tables state: its features, then its colour unless they state that themselves.
void overlay(const Site& site, EntryIndex from, std::vector<StatedLook>& looks) {
  const LinkedKb& kb = site.kb();
  const auto put = [&](const StatedLook& look) {
    const auto place = std::ranges::lower_bound(looks, look.feature, {}, &StatedLook::feature);
    if (place != looks.end() && place->feature == look.feature)
      *place = look;
    else
      looks.insert(place, look);
  };
  if (const auto plastic = site.backlinks().plastic)
    for (const EntryIndex child : site.backlinks().children[at(from)])
      if (const Entry& colour = kb.entries[child]; colour.kind == Kind::colour)
        if (const auto* lab = colour.get<Numbers>("lab"); lab != nullptr && lab->size() == 3)
          put({*plastic, from, nullptr, lab, kb.features[at(*plastic)].tolerance});
  const auto* values = kb.entries[from].get<Features>("features");
  if (values == nullptr) return;
  for (const FeatureValue& value : *values)
    if (const auto feature = kb.find_feature(value.feature)) {
      const auto& usual = kb.features[at(*feature)].tolerance;
      put({*feature, from, &value, value.lab.size() == 3 ? &value.lab : nullptr,
           value.tolerance ? value.tolerance : usual});
    }
}

std::string minutes_words(double minutes) {
  if (minutes == 0.5) return "half a minute";
  return minutes == 1 ? "a minute" : fmt::format("{:g} minutes", minutes);
}

} // namespace

std::vector<StatedLook> looks_of(const Site& site, EntryIndex entry) {
  std::vector<StatedLook> looks;
  for (const EntryIndex from : stating_entries(site.kb(), entry)) overlay(site, from, looks);
  return looks;
}

const StatedLook* find_look(const std::vector<StatedLook>& looks, FeatureIndex feature) {
  const auto place = std::ranges::lower_bound(looks, feature, {}, &StatedLook::feature);
  return place != looks.end() && place->feature == feature ? &*place : nullptr;
}

bool tells_apart(const LinkedKb& kb, const StatedLook& one, const StatedLook& other) {
  if (one.feature != other.feature) return false;
  const double one_off = one.tolerance.value_or(0);
  const double other_off = other.tolerance.value_or(0);
  if (one.lab != nullptr && other.lab != nullptr)
    return ciede2000(lab_of(*one.lab), lab_of(*other.lab)) > one_off + other_off;
  if (one.value == nullptr || other.value == nullptr || one.lab != nullptr || other.lab != nullptr) return false;
  const bool measured = kb.features[at(one.feature)].kind == FeatureKind::measure;
  return std::ranges::none_of(one.value->alternatives, [&](const FeatureAtom& atom) {
    return std::ranges::any_of(other.value->alternatives, [&](const FeatureAtom& facing) {
      const auto* number = std::get_if<double>(&atom);
      const auto* beside = std::get_if<double>(&facing);
      if (!measured || number == nullptr || beside == nullptr) return atom == facing;
      return !apart(around(*number, one_off), around(*beside, other_off));
    });
  });
}

std::string look_words(const LinkedKb& kb, const StatedLook& look) {
  if (look.value != nullptr) return value_words(kb, *look.value);
  FeatureValue colour;
  colour.feature = KeptText{kb.features[at(look.feature)].id};
  colour.lab = *look.lab;
  return value_words(kb, colour);
}

Cell value_cell(const LinkedKb& kb, const StatedLook& look) {
  Cell cell;
  cell.text = {plain(look_words(kb, look))};
  if (look.lab != nullptr) cell.lab = {(*look.lab)[0], (*look.lab)[1], (*look.lab)[2]};
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
                          value_cell(site.kb(), look),
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
    looks.push_back(looks_of(site, column.entry));
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
        cell = value_cell(kb, *look);
        cell.differs = std::ranges::any_of(looks, [&](const std::vector<StatedLook>& others) {
          const StatedLook* other = find_look(others, feature);
          return other != nullptr && tells_apart(kb, *look, *other);
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
