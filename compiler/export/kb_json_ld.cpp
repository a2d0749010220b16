#include "export/kb_json_ld.hpp"

#include <algorithm>
#include <array>
#include <vector>

#include "export/json_text.hpp"
#include "export/linked_data.hpp"
#include "export/room.hpp"
#include "export/values.hpp"

namespace coeval {
namespace {

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
  if (key == "source") return kind == Kind::claim ? "appearance" : "subjectOf";
  for (const Term& term : terms)
    if (term.kind == kind && term.key == key) return term.property;
  return {};
}

// The type of entries of this kind; empty where their own values tell it, or where they are not told at all.
std::string_view type_of_kind(Kind kind) {
  switch (kind) {
  case Kind::line:
    return "ProductCollection";
  case Kind::figure:
  case Kind::accessory:
    return "ProductGroup";
  case Kind::issue:
  case Kind::mould:
  case Kind::run:
  case Kind::repro:
    return "ProductModel";
  case Kind::period:
  case Kind::card:
  case Kind::mark:
    return "Thing";
  case Kind::maker:
    return "Organization";
  case Kind::route:
    return "TransferAction";
  default:
    return {};
  }
}

class LinkedData {
public:
  LinkedData(const LinkedKb& kb, const Chronology& chronology, const ReferenceTable& references,
             const std::string& base_url, std::string& text)
      : kb_(kb), chronology_(chronology), references_(references),
        document_(base_url.empty() ? "" : base_url + std::string{kb_json_ld_path}),
        taken_by_(kb.entries.entries.size()), span_of_(kb.entries.entries.size()), text_(text) {
    for (const Issue& issue : kb.issues)
      for (const Takes& takes : issue.takes)
        taken_by_[at(kb.accessories[at(takes.accessory)].entry)].push_back(issue.entry);
    for (std::size_t i = 0; i < kb.spans.size(); ++i)
      span_of_[at(kb.spans[i].entry)] = TimeSpanIndex{static_cast<std::uint32_t>(i)};
  }

  void write() {
    RoomForPieces room{text_, kb_.entries.entries.size()};
    json_.open_object();
    write_context();
    json_.key("@graph").open_list();
    json_.open_object();
    json_.key("@id").text(document_);
    json_.key("@type").text("Dataset");
    if (!kb_.lines.empty()) {
      json_.key("about").open_list();
      for (const Line& line : kb_.lines) write_name(line.entry);
      json_.close_list();
    }
    json_.close_object();
    for (std::size_t i = 0; i < kb_.entries.entries.size(); ++i) {
      write_entry(EntryIndex{static_cast<std::uint32_t>(i)});
      room.one_is_done();
    }
    json_.close_list();
    json_.close_object();
    text_ += '\n';
  }

private:
  // Earliest and latest start, earliest and latest end.
  static constexpr std::array<std::string_view, 4> bounds{"crm:P82a_begin_of_the_begin", "crm:P81a_end_of_the_begin",
                                                          "crm:P81b_begin_of_the_end", "crm:P82b_end_of_the_end"};

  void write_context() {
    json_.key("@context").open_object();
    json_.key("@vocab").text("https://schema.org/");
    json_.key("crm").text("http://www.cidoc-crm.org/cidoc-crm/");
    json_.key("xsd").text("http://www.w3.org/2001/XMLSchema#");
    for (const std::string_view bound : bounds) {
      json_.key(bound).open_object();
      json_.key("@type").text("xsd:date");
      json_.close_object();
    }
    json_.close_object();
  }

  void write_id(EntryIndex index, std::string_view within = "#") {
    room_.assign(document_).append(within).append(kb_.address(index));
    json_.key("@id").text(room_);
  }
  void write_name(EntryIndex index) {
    json_.open_object();
    write_id(index);
    json_.close_object();
  }

  void write_entry(EntryIndex index) {
    const Entry& entry = kb_.entries[index];
    const bool told = !type_of_kind(entry.kind).empty() || entry.kind == Kind::plant || entry.kind == Kind::source ||
                      entry.kind == Kind::claim || entry.kind == Kind::feature;
    if (!told || kb_.address(index).empty()) return;
    json_.open_object();
    write_id(index);
    write_described(entry);
    const bool described = entry.kind == Kind::feature && !entry.text("look").empty();
    if (!described) json_.text_if_any("description", entry.text("notes"));
    write_model(index);
    write_references(index);
    if (entry.kind == Kind::period || entry.kind == Kind::route) write_time(index);
    json_.close_object();
  }

  // Its type and name, and what its own values say.
  void write_described(const Entry& entry) {
    switch (entry.kind) {
    case Kind::plant:
      return write_members(plant_terms(entry));
    case Kind::source:
      return write_members(source_terms(entry));
    case Kind::claim:
      return write_members(claim_terms(entry));
    case Kind::feature:
      return write_members(feature_terms(entry));
    default:
      json_.key("@type").text(type_of_kind(entry.kind));
      json_.text_if_any("name", entry_name(entry).empty() ? std::string_view{entry.id} : entry_name(entry));
      json_.text_if_any("material", entry.text("material"));
    }
  }

  // Their values are texts and objects of texts.
  void write_members(const nlohmann::ordered_json& members) {
    for (const auto& [key, value] : members.items()) {
      json_.key(key);
      if (value.is_object()) {
        json_.open_object();
        write_members(value);
        json_.close_object();
      } else {
        json_.text(value.get_ref<const std::string&>());
      }
    }
  }

  // What only figures, accessories and their kinds have.
  void write_model(EntryIndex index) {
    const Entry& entry = kb_.entries[index];
    switch (entry.kind) {
    case Kind::figure:
    case Kind::accessory:
      json_.key("productGroupID").text(kb_.address(index));
      if (!taken_by_[at(index)].empty()) {
        json_.key("isAccessoryOrSparePartFor").open_list();
        for (const EntryIndex issue : taken_by_[at(index)]) write_name(issue);
        json_.close_list();
      }
      return;
    case Kind::issue:
    case Kind::mould:
    case Kind::run:
      write_production(index);
      [[fallthrough]];
    case Kind::repro:
      json_.key("productID").text(kb_.address(index));
      json_.key("isVariantOf");
      write_name(entry.parent);
      if (const auto* features = entry.get<Features>("features")) write_properties(*features);
      return;
    default:
      return;
    }
  }

  void write_properties(const Features& features) {
    bool any = false;
    for (const FeatureValue& feature : features) {
      const auto known = kb_.find_feature(feature.feature);
      if (!known || feature.alternatives.empty()) continue; // a colour: schema.org has no CIELAB
      if (!any) json_.key("additionalProperty").open_list();
      any = true;
      const Feature& meant = kb_.features[at(*known)];
      json_.open_object();
      json_.key("@type").text("PropertyValue");
      room_.assign(document_).append("#").append(kb_.address(meant.entry));
      json_.key("propertyID").text(room_);
      json_.key("name").text(meant.name);
      json_.key("value").open_list();
      for (const FeatureAtom& atom : feature.alternatives) write_atom(atom, json_);
      json_.close_list();
      json_.text_if_any("unitText", meant.unit);
      json_.close_object();
    }
    if (any) json_.close_list();
  }

  // What each key refers to, by the property that tells it.
  void write_references(EntryIndex index) {
    const Kind kind = kb_.entries[index].kind;
    told_.clear();
    for (const Reference& reference : references_.from(index)) {
      const std::string_view term = term_of(kind, reference.key->name);
      if (reference.key->type == ValueType::features || term.empty()) continue;
      const auto same = std::ranges::find(told_, term, &Told::property);
      (same == told_.end() ? told_.emplace_back(Told{term, {}}) : *same).entries.push_back(reference.to);
    }
    for (const Told& told : told_) {
      json_.key(told.property).open_list();
      for (const EntryIndex to : told.entries) write_name(to);
      json_.close_list();
    }
  }

  void write_production(EntryIndex index) {
    json_.key("crm:P108i_was_produced_by").open_object();
    write_id(index, "#production/");
    json_.key("@type").text("crm:E12_Production");
    json_.key("crm:P108_has_produced");
    write_name(index);
    for (const Reference& reference : references_.from(index)) {
      if (reference.key->type == ValueType::features) continue;
      const std::string_view key = reference.key->name;
      if (key == "maker")
        json_.key("crm:P14_carried_out_by");
      else if (key == "plant" || key == "packer")
        json_.key("crm:P7_took_place_at");
      else
        continue;
      write_name(reference.to);
    }
    write_time(index);
    json_.close_object();
  }

  void write_time(EntryIndex index) {
    const std::optional<TimeSpanIndex> span = span_of_[at(index)];
    if (!span) return;
    const DayBounds start = chronology_.bounds(start_of(*span), Basis::conjectured);
    const DayBounds end = chronology_.bounds(end_of(*span), Basis::conjectured);
    const std::array days{start.earliest, start.latest, end.earliest, end.latest};
    if (std::ranges::none_of(days, [](const auto& day) { return day.has_value(); })) return;
    json_.key("crm:P4_has_time-span").open_object();
    json_.key("@type").text("crm:E52_Time-Span");
    for (std::size_t i = 0; i < days.size(); ++i)
      if (days[i]) json_.key(bounds[i]).text(iso(*days[i]));
    json_.close_object();
  }

  struct Told {
    std::string_view property;
    std::vector<EntryIndex> entries;
  };

  const LinkedKb& kb_;
  const Chronology& chronology_;
  const ReferenceTable& references_;
  std::string document_;
  std::vector<std::vector<EntryIndex>> taken_by_;
  std::vector<std::optional<TimeSpanIndex>> span_of_;
  std::string& text_;
  JsonText json_{text_};
  std::string room_;       // of the name that is being written
  std::vector<Told> told_; // of one entry
};

} // namespace

void write_kb_json_ld(const LinkedKb& kb, const Chronology& chronology, const ReferenceTable& references,
                      const std::string& base_url, std::string& text) {
  LinkedData{kb, chronology, references, base_url, text}.write();
}

} // namespace coeval
