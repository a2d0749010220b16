#include "export/kb_json.hpp"

#include "export/json_text.hpp"
#include "export/room.hpp"
#include "export/table_names.hpp"
#include "export/values.hpp"

namespace coeval {
namespace {

void write_address(const LinkedKb& kb, EntryIndex entry, JsonText& json) {
  json.text_or_null(entry == no_entry ? std::string_view{} : kb.address(entry));
}

void write_days(const Chronology& chronology, SpanPoint point, JsonText& json) {
  json.open_object();
  for (const Basis basis : all_bases) {
    const auto [earliest, latest] = chronology.bounds(point_of(point), basis);
    json.key(name(basis)).open_object();
    write_day(earliest, json.key("earliest"));
    write_day(latest, json.key("latest"));
    json.close_object();
  }
  json.close_object();
}

void write_evidence(const Evidence& evidence, JsonText& json) {
  json.open_object();
  json.key("basis").text(name(evidence.basis));
  json.key("sources").open_list();
  for (const Word& citation : evidence.citations()) json.text(citation.text);
  json.close_list();
  json.key("disputed").flag(evidence.disputed);
  json.close_object();
}

} // namespace

void write_kb_json(const LinkedKb& kb, const Chronology& chronology, const SourceSet& sources, std::string& text) {
  std::vector<std::optional<TimeSpanIndex>> span_of(kb.entries.entries.size());
  for (std::size_t i = 0; i < kb.spans.size(); ++i)
    span_of[at(kb.spans[i].entry)] = TimeSpanIndex{static_cast<std::uint32_t>(i)};

  RoomForPieces room{text, kb.entries.entries.size()};
  JsonText json{text};
  json.open_object();
  json.key("format").text(kb_json_format);
  json.key("version").number(std::int64_t{kb_json_version});
  json.key("entries").open_list();
  for (std::size_t i = 0; i < kb.entries.entries.size(); ++i) {
    const EntryIndex index{static_cast<std::uint32_t>(i)};
    const Entry& entry = kb.entries[index];
    const KindSpec& spec = spec_of(entry.kind);
    json.open_object();
    json.key("kind").text(kind_word(entry.kind));
    write_address(kb, index, json.key("address"));
    write_address(kb, entry.parent, json.key("parent"));
    if (entry.place.known()) {
      const SourceFile& file = sources[entry.place.file];
      json.key("file").text(file.path());
      json.key("line").number(std::int64_t{file.position(entry.place.begin).line});
    }
    json.key("fields").open_object();
    for (const KeySpec& key : spec.keys)
      if (const Field* field = field_of(entry, key)) write_value(sources, *field, json.key(key.name));
    json.close_object();
    if (spec.find("basis") != nullptr) write_evidence(evidence_of(kb.entries, index), json.key("evidence"));
    if (const auto span = span_of[i]) {
      json.key("span").open_object();
      write_days(chronology, {*span, SpanEnd::start}, json.key("start"));
      write_days(chronology, {*span, SpanEnd::end}, json.key("end"));
      json.close_object();
    }
    json.close_object();
    room.one_is_done();
  }
  json.close_list();
  json.close_object();
  text += '\n';
}

} // namespace coeval
