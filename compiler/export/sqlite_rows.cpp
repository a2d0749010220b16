#include "export/sqlite_rows.hpp"

#include <algorithm>
#include <charconv>
#include <map>
#include <memory>
#include <optional>
#include <tuple>

#include <fmt/format.h>

#include "export/columns.hpp"
#include "export/table_names.hpp"
#include "export/values.hpp"
#include "links/references.hpp"

namespace coeval {
namespace {

std::int64_t whole_number(std::string_view digits) {
  std::int64_t number = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), number);
  return number;
}

class Filler {
public:
  Filler(const LinkedKb& kb, const Chronology& chronology, const SourceSet& sources, const ExportGraph& days,
         const std::vector<VerdictRow>& verdicts)
      : kb_(kb), chronology_(chronology), sources_(sources), graph_(days), verdicts_(verdicts), references_(kb),
        of_kind_(kind_count) {
    for (std::size_t i = 0; i < count(); ++i)
      of_kind_[static_cast<std::size_t>(kb.entries.entries[i].kind)].push_back(
          EntryIndex{static_cast<std::uint32_t>(i)});
  }

  static void words(RowsOfPortion& rows) {
    Insertion meta = rows.into("meta", 2);
    meta.text("format").text("coeval-sqlite").row();
    meta.text("version").text(std::to_string(sqlite_format_version)).row();
    meta.text("program").text("coeval " COEVAL_VERSION).row();
    Insertion bases = rows.into("bases", 2);
    for (const Basis basis : all_bases) bases.text(name(basis)).integer(static_cast<int>(basis)).row();
    Insertion verdicts = rows.into("verdict_words", 3);
    for (std::size_t i = 0; i < verdict_count; ++i) {
      const auto verdict = static_cast<Verdict>(i);
      verdicts.text(name(verdict)).integer(static_cast<std::int64_t>(i));
      verdicts.integer_or_null(verdict == Verdict::open ? std::nullopt
                                                        : std::optional{verdict <= Verdict::fits ? 1 : 0});
      verdicts.row();
    }
    Insertion kinds = rows.into("kinds", 4);
    for (const KindSpec& spec : schema())
      kinds.text(kind_word(spec.kind)).text(sql_name(table_name(spec.kind))).text(spec.name).text(spec.doc).row();
  }

  void entries(RowsOfPortion& rows) {
    Insertion entries = rows.into("entries", 7);
    for (std::size_t i = 0; i < count(); ++i) {
      const Entry& entry = kb_.entries.entries[i];
      const std::string kind{kind_word(entry.kind)};
      const EntryIndex index{static_cast<std::uint32_t>(i)};
      const std::string_view parent = entry.parent == no_entry ? std::string_view{} : kb_.address(entry.parent);
      entries.integer(static_cast<std::int64_t>(i)).text(kind).text_or_null(kb_.address(index)).text_or_null(parent);
      entries.text_or_null(entry_name(entry));
      if (entry.place.known()) {
        const SourceFile& file = sources_[entry.place.file];
        entries.text(file.path()).integer(file.position(entry.place.begin).line);
      } else {
        entries.null().null();
      }
      entries.row();
    }
  }

  // Of entries that have texts.
  void search(RowsOfPortion& rows) {
    Insertion search = rows.into_search();
    std::string texts;
    for (std::size_t i = 0; i < count(); ++i) {
      const EntryIndex index{static_cast<std::uint32_t>(i)};
      const Entry& entry = kb_.entries[index];
      texts.clear();
      for (const Field& field : entry.fields)
        if (field.spec->type == ValueType::text)
          (texts += texts.empty() ? "" : "\n\n") += std::get<KeptText>(field.value);
      if (texts.empty()) continue;
      search.integer(static_cast<std::int64_t>(i)).text(kb_.address(index)).text(kind_word(entry.kind));
      search.text(entry_name(entry)).text(texts).row();
    }
    rows.search_is_full();
  }

  void entries_of(const KindSpec& spec, RowsOfPortion& into) {
    int columns = 1 + (spec.has_id() ? 1 : 0) + (spec.parents.empty() ? 0 : 1);
    for (const KeySpec& key : spec.keys) {
      const ColumnShape shape = column_shape(key.type);
      columns += shape == ColumnShape::one ? 1 : shape == ColumnShape::lab ? 3 : shape == ColumnShape::point ? 2 : 0;
    }
    const std::string table = sql_name(table_name(spec.kind));
    Insertion rows = into.into(table, columns);
    std::map<const KeySpec*, Insertion> lists;
    for (const KeySpec& key : spec.keys)
      if (column_shape(key.type) == ColumnShape::list)
        lists.emplace(
            &key, into.into(fmt::format("{}_{}", table, sql_name(key.name)), key.type == ValueType::mark_list ? 4 : 3));
    for (const EntryIndex index : of_kind_[static_cast<std::size_t>(spec.kind)]) {
      const Entry& entry = kb_.entries[index];
      rows.integer(static_cast<std::int64_t>(at(index)));
      if (spec.has_id()) rows.text(kb_.address(index));
      if (!spec.parents.empty()) rows.text(kb_.address(entry.parent));
      for (const KeySpec& key : spec.keys) {
        const Field* field = field_of(entry, key);
        if (const auto list = lists.find(&key); list != lists.end()) {
          if (field != nullptr) add_list(list->second, index, *field);
        } else {
          add_columns(rows, index, key, field);
        }
      }
      rows.row();
    }
  }

  // Features, evidence and citations: of whatever kind can have them.
  void backing(RowsOfPortion& rows) {
    Insertion features = rows.into("stated_features", 10);
    Insertion evidence = rows.into("evidence", 3);
    Insertion citations = rows.into("citations", 5);
    for (std::size_t i = 0; i < count(); ++i) {
      const EntryIndex index{static_cast<std::uint32_t>(i)};
      const Entry& entry = kb_.entries[index];
      const KindSpec& spec = spec_of(entry.kind);
      for (const Field& field : entry.fields)
        if (field.spec->type == ValueType::features)
          for (const FeatureValue& feature : std::get<Features>(field.value)) add_feature(features, index, feature);
      if (spec.find("source") == nullptr) continue;
      const Evidence backed = evidence_of(kb_.entries, index);
      if (spec.find("basis") != nullptr)
        evidence.integer(static_cast<std::int64_t>(i)).text(name(backed.basis)).integer(backed.disputed ? 1 : 0).row();
      const std::vector<std::string> backing = backed.citation_texts();
      for (std::size_t n = 0; n < backing.size(); ++n) {
        const std::string& cited = backing[n];
        const std::size_t space = std::min(cited.find(' '), cited.size());
        citations.integer(static_cast<std::int64_t>(i)).integer(static_cast<std::int64_t>(n));
        citations.text("source/" + cited.substr(0, space));
        citations.text_or_null(std::string_view{cited}.substr(std::min(space + 1, cited.size())));
        citations.integer(entry.find("source") == nullptr ? 1 : 0).row();
      }
    }
  }

  void days(RowsOfPortion& rows) {
    Insertion spans = rows.into("spans", 2);
    Insertion bounds = rows.into("bounds", 5);
    for (std::size_t i = 0; i < kb_.spans.size(); ++i) {
      const TimeSpan& span = kb_.spans[i];
      spans.text(span.address).text(kind_word(span.kind)).row();
      for (const SpanEnd end : {SpanEnd::start, SpanEnd::end})
        for (const Basis basis : all_bases) {
          const DayBounds known =
              chronology_.bounds(point_of({TimeSpanIndex{static_cast<std::uint32_t>(i)}, end}), basis);
          bounds.text(span.address).text(end == SpanEnd::start ? "start" : "end").text(name(basis));
          bounds.text_or_null(known.earliest ? iso(*known.earliest) : std::string{});
          bounds.text_or_null(known.latest ? iso(*known.latest) : std::string{}).row();
        }
    }
  }

  void constraints(RowsOfPortion& into) {
    Insertion points = into.into("points", 2);
    for (const ExportNode& node : graph_.nodes) points.text(node.label).text_or_null(node.values.front()).row();
    Insertion rows = into.into("constraints", 9);
    for (std::size_t i = 0; i < graph_.edges.size(); ++i) {
      const ExportEdge& edge = graph_.edges[i];
      const auto [days, basis, statement, source, file, line] =
          std::tie(edge.values[0], edge.values[1], edge.values[2], edge.values[3], edge.values[4], edge.values[5]);
      rows.integer(static_cast<std::int64_t>(i)).text(graph_.nodes[edge.to].label).text(graph_.nodes[edge.from].label);
      rows.integer(whole_number(days)).text_or_null(basis == by_meaning ? std::string_view{} : basis).text(statement);
      rows.text_or_null(source).text_or_null(file);
      rows.integer_or_null(line.empty() ? std::nullopt : std::optional{whole_number(line)});
      rows.row();
    }
  }

  void judgements(RowsOfPortion& into) {
    Insertion rows = into.into("verdicts", 7);
    for (const VerdictRow& row : verdicts_) {
      const Issue& issue = kb_.issues[at(row.issue)];
      rows.text(issue.address).text(issue.takes[row.taken].slot).text(kb_.runs[at(row.run)].address);
      rows.text(name(row.verdict)).text_or_null(row.basis ? name(*row.basis) : std::string_view{});
      rows.integer_or_null(row.gap != 0 ? std::optional{row.gap} : std::nullopt).text_or_null(gap_words(row)).row();
    }
  }

private:
  [[nodiscard]] std::size_t count() const { return kb_.entries.entries.size(); }
  [[nodiscard]] const Reference* reference(EntryIndex from, const KeySpec& key, std::size_t position) const {
    for (const Reference& reference : references_.from(from))
      if (reference.key == &key && reference.position == position) return &reference;
    return nullptr;
  }

  void add_list(Insertion& rows, EntryIndex index, const Field& field) {
    const Words& words = std::get<Words>(field.value);
    for (std::size_t i = 0; i < words.size(); ++i) {
      rows.integer(static_cast<std::int64_t>(at(index))).integer(static_cast<std::int64_t>(i));
      const Reference* named = reference(index, *field.spec, i);
      rows.text(named == nullptr ? std::string_view{words[i].text} : kb_.address(named->to));
      if (field.spec->type == ValueType::mark_list) rows.text_or_null(named == nullptr ? std::string{} : named->detail);
      rows.row();
    }
  }

  void add_columns(Insertion& row, EntryIndex index, const KeySpec& key, const Field* field) {
    switch (column_shape(key.type)) {
    case ColumnShape::one:
      if (field == nullptr)
        row.null();
      else if (const auto* flag = std::get_if<bool>(&field->value))
        row.integer(*flag ? 1 : 0);
      else if (const auto* number = std::get_if<double>(&field->value))
        key.type == ValueType::count ? row.integer(static_cast<std::int64_t>(*number)) : row.real(*number);
      else if (const Reference* named = reference(index, key, 0))
        row.text(kb_.address(named->to));
      else
        row.text(value_text(sources_, *field, room_));
      break;
    case ColumnShape::lab:
      for (std::size_t axis = 0; axis < 3; ++axis)
        if (field == nullptr)
          row.null();
        else
          row.real(std::get<Numbers>(field->value)[axis]);
      break;
    case ColumnShape::point:
      if (const Reference* named = reference(index, key, 0))
        row.text(kb_.address(named->to)).text(named->detail);
      else
        row.null().null();
      break;
    case ColumnShape::list:
    case ColumnShape::features:
    case ColumnShape::cited:
      break;
    }
  }

  void add_feature(Insertion& rows, EntryIndex index, const FeatureValue& feature) {
    const auto known = kb_.find_feature(feature.feature);
    if (!known) return; // reported: the knowledge base has errors
    const auto add = [&](std::size_t position, const FeatureAtom* atom) {
      rows.integer(static_cast<std::int64_t>(at(index))).text(kb_.address(kb_.features[at(*known)].entry));
      rows.integer(static_cast<std::int64_t>(position));
      const auto* word = atom == nullptr ? nullptr : std::get_if<KeptText>(atom);
      const auto* number = atom == nullptr ? nullptr : std::get_if<double>(atom);
      const auto* flag = atom == nullptr ? nullptr : std::get_if<bool>(atom);
      rows.text_or_null(word == nullptr ? std::string_view{} : std::string_view{*word}).real_or_null(number);
      rows.integer_or_null(flag == nullptr ? std::nullopt : std::optional{*flag ? 1 : 0});
      for (std::size_t axis = 0; axis < 3; ++axis) rows.real_or_null(atom == nullptr ? &feature.lab[axis] : nullptr);
      rows.real_or_null(feature.tolerance ? &*feature.tolerance : nullptr);
      rows.row();
    };
    if (!feature.lab.empty()) add(0, nullptr);
    for (std::size_t i = 0; i < feature.alternatives.size(); ++i) add(i, &feature.alternatives[i]);
  }

  const LinkedKb& kb_;
  const Chronology& chronology_;
  const SourceSet& sources_;
  const ExportGraph& graph_; // of the chronology
  const std::vector<VerdictRow>& verdicts_;
  ReferenceTable references_;
  std::vector<std::vector<EntryIndex>> of_kind_;
  std::string room_; // of a value that is made into a text
};

} // namespace

Insertion RowsOfPortion::into(std::string_view table, int columns) {
  if (into_ == Into::filled) database_->run(fmt::format("DELETE FROM {};", table));
  return {database_, sum_, table, columns};
}

Insertion RowsOfPortion::into_search() {
  if (into_ == Into::filled) database_->run("DROP TABLE search; " + sqlite_search_schema());
  return {database_, sum_, "search (rowid, address, kind, name, words)", 5};
}

void RowsOfPortion::search_is_full() {
  if (database_ != nullptr) database_->run("INSERT INTO search (search) VALUES ('optimize');");
}

std::vector<Portion> portions_of(const LinkedKb& kb, const Chronology& chronology, const SourceSet& sources,
                                 const ExportGraph& days, const std::vector<VerdictRow>& verdicts) {
  const auto filler = std::make_shared<Filler>(kb, chronology, sources, days, verdicts);
  std::vector<Portion> all{{"words", [](RowsOfPortion& rows) { Filler::words(rows); }},
                           {"entries", [filler](RowsOfPortion& rows) { filler->entries(rows); }},
                           {"search", [filler](RowsOfPortion& rows) { filler->search(rows); }}};
  for (const KindSpec& spec : schema())
    all.push_back({"kind-" + std::string{kind_word(spec.kind)},
                   [filler, &spec](RowsOfPortion& rows) { filler->entries_of(spec, rows); }});
  all.push_back({"backing", [filler](RowsOfPortion& rows) { filler->backing(rows); }});
  all.push_back({"bounds", [filler](RowsOfPortion& rows) { filler->days(rows); }});
  all.push_back({"constraints", [filler](RowsOfPortion& rows) { filler->constraints(rows); }});
  all.push_back({"verdicts", [filler](RowsOfPortion& rows) { filler->judgements(rows); }});
  return all;
}

} // namespace coeval
