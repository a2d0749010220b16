#include "export/kb_json_ld.hpp"

#include <array>
#include <map>

#include <fmt/format.h>

#include "export/linked_data.hpp"
#include "export/list_json.hpp"
#include "links/references.hpp"

namespace coeval {
namespace {

using Json = nlohmann::ordered_json;

// Which property of schema.org, or CIDOC CRM, a key is told by. Keys that neither has a term for are left out.
struct Term {
  Kind kind;
  std::string_view key;
  std::string_view property;
};
constexpr std::array terms{
    Term{Kind::line, "maker", "manufacturer"},      Term{Kind::issue, "maker", "manufacturer"},
    Term{Kind::issue, "reissue-of", "isSimilarTo"}, Term{Kind::issue, "replaces", "successorOf"},
    Term{Kind::mould, "replaces", "successorOf"},   Term{Kind::run, "replaces", "successorOf"},
    Term{Kind::repro, "of", "isSimilarTo"},         Term{Kind::route, "from", "fromLocation"},
    Term{Kind::route, "to", "toLocation"},          Term{Kind::route, "carries", "object"},
};

std::string_view term_of(Kind kind, std::string_view key) {
  if (key == "source") return "subjectOf";
  for (const Term& term : terms)
    if (term.kind == kind && term.key == key) return term.property;
  return {};
}

class LinkedData {
public:
  LinkedData(const LinkedKb& kb, const Chronology& chronology, const std::string& base_url)
      : kb_(kb), chronology_(chronology), document_(base_url.empty() ? "" : base_url + std::string{kb_json_ld_path}) {
    for (Reference& reference : references_of(kb)) {
      if (reference.key->type == ValueType::features) continue;
      references_[reference.from].push_back(std::move(reference));
    }
    for (const Issue& issue : kb.issues)
      for (const Takes& takes : issue.takes)
        taken_by_[kb.accessories[at(takes.accessory)].entry].push_back(issue.entry);
    for (std::size_t i = 0; i < kb.spans.size(); ++i)
      span_of_[kb.spans[i].entry] = TimeSpanIndex{static_cast<std::uint32_t>(i)};
  }

  std::string text() {
    Json context{{"@vocab", "https://schema.org/"},
                 {"crm", "http://www.cidoc-crm.org/cidoc-crm/"},
                 {"xsd", "http://www.w3.org/2001/XMLSchema#"}};
    for (const std::string_view bound : bounds) context[std::string{bound}] = {{"@type", "xsd:date"}};
    ListJson graph{{{"@context", std::move(context)}, {"@graph", Json::array()}}};
    Json whole{{"@id", document_}, {"@type", "Dataset"}};
    for (const Line& line : kb_.lines) whole["about"].push_back(name_of(line.entry));
    graph.add(whole);
    for (std::size_t i = 0; i < kb_.entries.entries.size(); ++i) {
      const EntryIndex index{static_cast<std::uint32_t>(i)};
      if (kb_.address(index).empty()) continue;
      if (const Json json = terms_of(index); !json.is_null()) graph.add(json);
    }
    return std::move(graph).finished();
  }

private:
  // Earliest and latest start, earliest and latest end.
  static constexpr std::array<std::string_view, 4> bounds{"crm:P82a_begin_of_the_begin", "crm:P81a_end_of_the_begin",
                                                          "crm:P81b_begin_of_the_end", "crm:P82b_end_of_the_end"};

  [[nodiscard]] Json name_of(EntryIndex index) const {
    return {{"@id", fmt::format("{}#{}", document_, kb_.address(index))}};
  }

  Json terms_of(EntryIndex index) {
    const Entry& entry = kb_.entries[index];
    Json json = name_of(index);
    json.update(described(entry));
    if (json.size() == 1) return nullptr;
    if (!json.contains("description")) add_term(json, "description", entry.text("notes"));
    add_model(json, index);
    for (const Reference& reference : references_[index]) {
      if (reference.key->name == "source" && entry.kind == Kind::claim) {
        json["appearance"].push_back(name_of(reference.to));
        continue;
      }
      if (const std::string_view term = term_of(entry.kind, reference.key->name); !term.empty())
        json[std::string{term}].push_back(name_of(reference.to));
    }
    if (entry.kind == Kind::period || entry.kind == Kind::route) add_time(json, index);
    return json;
  }

  // Its type and name, and what its own values say.
  [[nodiscard]] static Json described(const Entry& entry) {
    Json json{{"@type", "Thing"}};
    switch (entry.kind) {
    case Kind::line:
      json["@type"] = "ProductCollection";
      break;
    case Kind::figure:
    case Kind::accessory:
      json["@type"] = "ProductGroup";
      break;
    case Kind::issue:
    case Kind::mould:
    case Kind::run:
    case Kind::repro:
      json["@type"] = "ProductModel";
      break;
    case Kind::period:
    case Kind::card:
    case Kind::mark:
      break;
    case Kind::maker:
      json["@type"] = "Organization";
      break;
    case Kind::route:
      json["@type"] = "TransferAction";
      break;
    case Kind::plant:
      return plant_terms(entry);
    case Kind::source:
      return source_terms(entry);
    case Kind::claim:
      return claim_terms(entry);
    case Kind::feature:
      return feature_terms(entry);
    default:
      return Json::object();
    }
    add_term(json, "name", entry_name(entry).empty() ? std::string_view{entry.id} : entry_name(entry));
    add_term(json, "material", entry.text("material"));
    return json;
  }

  // What only figures, accessories and their kinds have.
  void add_model(Json& json, EntryIndex index) {
    const Entry& entry = kb_.entries[index];
    switch (entry.kind) {
    case Kind::figure:
    case Kind::accessory:
      json["productGroupID"] = kb_.address(index);
      for (const EntryIndex issue : taken_by_[index]) json["isAccessoryOrSparePartFor"].push_back(name_of(issue));
      return;
    case Kind::issue:
    case Kind::mould:
    case Kind::run:
      json["crm:P108i_was_produced_by"] = production_of(index);
      [[fallthrough]];
    case Kind::repro:
      json["productID"] = kb_.address(index);
      json["isVariantOf"] = name_of(entry.parent);
      if (const auto* features = entry.get<Features>("features")) add_features(json, *features);
      return;
    default:
      return;
    }
  }

  void add_features(Json& json, const Features& features) const {
    for (const FeatureValue& feature : features) {
      const auto known = kb_.find_feature(feature.feature);
      if (!known) continue;
      Json property{{"@type", "PropertyValue"},
                    {"propertyID", name_of(kb_.features[at(*known)].entry)["@id"]},
                    {"name", kb_.features[at(*known)].name}};
      for (const FeatureAtom& atom : feature.alternatives)
        std::visit([&](const auto& value) { property["value"].push_back(value); }, atom);
      if (feature.alternatives.empty()) continue; // a colour: schema.org has no CIELAB
      add_term(property, "unitText", kb_.features[at(*known)].unit);
      json["additionalProperty"].push_back(std::move(property));
    }
  }

  Json production_of(EntryIndex index) {
    Json production{{"@id", fmt::format("{}#production/{}", document_, kb_.address(index))},
                    {"@type", "crm:E12_Production"}};
    production["crm:P108_has_produced"] = name_of(index);
    for (const Reference& reference : references_[index]) {
      if (reference.key->name == "maker") production["crm:P14_carried_out_by"] = name_of(reference.to);
      if (reference.key->name == "plant" || reference.key->name == "packer")
        production["crm:P7_took_place_at"] = name_of(reference.to);
    }
    add_time(production, index);
    return production;
  }

  void add_time(Json& json, EntryIndex index) const {
    const auto span = span_of_.find(index);
    if (span == span_of_.end()) return;
    const DayBounds start = chronology_.bounds(start_of(span->second), Basis::conjectured);
    const DayBounds end = chronology_.bounds(end_of(span->second), Basis::conjectured);
    const std::array days{start.earliest, start.latest, end.earliest, end.latest};
    Json time{{"@type", "crm:E52_Time-Span"}};
    for (std::size_t i = 0; i < days.size(); ++i)
      if (days[i]) time[std::string{bounds[i]}] = iso(*days[i]);
    if (time.size() > 1) json["crm:P4_has_time-span"] = std::move(time);
  }

  const LinkedKb& kb_;
  const Chronology& chronology_;
  std::string document_;
  std::map<EntryIndex, std::vector<Reference>> references_;
  std::map<EntryIndex, std::vector<EntryIndex>> taken_by_;
  std::map<EntryIndex, TimeSpanIndex> span_of_;
};

} // namespace

std::string kb_json_ld(const LinkedKb& kb, const Chronology& chronology, const std::string& base_url) {
  return LinkedData{kb, chronology, base_url}.text();
}

} // namespace coeval
