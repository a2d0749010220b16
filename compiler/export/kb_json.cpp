#include "export/kb_json.hpp"

#include "export/list_json.hpp"
#include "export/table_names.hpp"
#include "export/values.hpp"

namespace coeval {
namespace {

using Json = nlohmann::ordered_json;

Json address_json(const LinkedKb& kb, EntryIndex entry) {
  if (entry == no_entry || kb.address(entry).empty()) return nullptr;
  return kb.address(entry);
}

Json days_json(const Chronology& chronology, SpanPoint point) {
  Json json = Json::object();
  for (const Basis basis : all_bases) {
    const auto [earliest, latest] = chronology.bounds(point_of(point), basis);
    json[std::string{name(basis)}] = {{"earliest", earliest ? Json(iso(*earliest)) : Json(nullptr)},
                                      {"latest", latest ? Json(iso(*latest)) : Json(nullptr)}};
  }
  return json;
}

} // namespace

std::string kb_json(const LinkedKb& kb, const Chronology& chronology, const SourceSet& sources) {
  std::vector<std::optional<TimeSpanIndex>> span_of(kb.entries.entries.size());
  for (std::size_t i = 0; i < kb.spans.size(); ++i)
    span_of[at(kb.spans[i].entry)] = TimeSpanIndex{static_cast<std::uint32_t>(i)};

  ListJson entries{{{"format", kb_json_format}, {"version", kb_json_version}, {"entries", Json::array()}}};
  for (std::size_t i = 0; i < kb.entries.entries.size(); ++i) {
    const EntryIndex index{static_cast<std::uint32_t>(i)};
    const Entry& entry = kb.entries[index];
    const KindSpec& spec = spec_of(entry.kind);
    Json json{{"kind", kind_word(entry.kind)},
              {"address", address_json(kb, index)},
              {"parent", address_json(kb, entry.parent)}};
    if (entry.place.known()) {
      const SourceFile& file = sources[entry.place.file];
      json["file"] = file.path();
      json["line"] = file.position(entry.place.begin).line;
    }
    Json fields = Json::object();
    for (const KeySpec& key : spec.keys)
      if (const Field* field = entry.find(key.name)) fields[std::string{key.name}] = value_json(sources, *field);
    json["fields"] = std::move(fields);
    if (spec.find("basis") != nullptr) {
      const Evidence evidence = evidence_of(kb.entries, index);
      json["evidence"] = {
          {"basis", name(evidence.basis)}, {"sources", evidence.citation_texts()}, {"disputed", evidence.disputed}};
    }
    if (const auto span = span_of[i])
      json["span"] = {{"start", days_json(chronology, {*span, SpanEnd::start})},
                      {"end", days_json(chronology, {*span, SpanEnd::end})}};
    entries.add(json);
  }
  return std::move(entries).finished();
}

} // namespace coeval
