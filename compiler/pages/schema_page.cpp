// The page of the language: every kind of table with its keys, from the one table that the reader itself goes by.
#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/tell.hpp"

namespace coeval {
namespace {

// Two kinds of table are called [[pairing]], and two [[timing]]: those of claims say so.
std::string anchor_of(const KindSpec& spec) {
  const bool claimed = spec.kind == Kind::claimed_pairing || spec.kind == Kind::claimed_timing;
  return (claimed ? "claim." : "") + std::string{spec.name};
}

// "[figure]", "[[mould.run]]": the head of a table as it is written, for the first parent that it can have.
std::string head_of(const KindSpec& spec) {
  std::string name{spec.name};
  if (spec.standing == Standing::inside && !spec.parents.empty())
    name = std::string{spec_of(spec.parents.front()).name} + "." + name;
  return spec.repeated ? "[[" + name + "]]" : "[" + name + "]";
}

std::string_view type_words(ValueType type) {
  switch (type) {
  case ValueType::id:
    return "id: small letters, digits and hyphens";
  case ValueType::text:
    return "text";
  case ValueType::flag:
    return "true or false";
  case ValueType::number:
    return "number above 0";
  case ValueType::count:
    return "whole number above 0";
  case ValueType::numbers:
    return "three numbers";
  case ValueType::choice:
    return "one of";
  case ValueType::word_list:
    return "list of words";
  case ValueType::date:
    return "date (EDTF)";
  case ValueType::dates:
    return "interval or date (EDTF), or { start, end }";
  case ValueType::duration:
    return "duration (ISO 8601)";
  case ValueType::url:
    return "http or https address";
  case ValueType::country_list:
    return "list of country codes (ISO 3166)";
  case ValueType::country:
    return "country code (ISO 3166)";
  case ValueType::address:
    return "address of";
  case ValueType::address_list:
    return "list of addresses of";
  case ValueType::mark_list:
    return "list of addresses, ADDRESS=READING of one that is read, of";
  case ValueType::span_list:
    return "list of addresses of what lasts";
  case ValueType::span:
    return "address of what lasts";
  case ValueType::point:
    return "ADDRESS.start or ADDRESS.end";
  case ValueType::citations:
    return "list of \"source-id place in it\"";
  case ValueType::features:
    return "table of feature = value";
  case ValueType::file:
    return "path below the knowledge base";
  case ValueType::day:
    return "day (ISO 8601)";
  case ValueType::weight:
    return "whole number from 1 to 1000";
  case ValueType::text_list:
    return "list of texts";
  case ValueType::choice_list:
    return "list of";
  case ValueType::condition:
    return "C1 to C10, or 0 to 100";
  case ValueType::currency:
    return "currency (ISO 4217)";
  case ValueType::money:
    return "amount and currency (ISO 4217)";
  case ValueType::percent:
    return "percentage";
  case ValueType::rate:
    return "exchange rate";
  }
  return {};
}

Text type_of(const KeySpec& key) {
  Text text{plain(std::string{type_words(key.type)})};
  if (!key.choices.empty()) {
    text.push_back(plain(" "));
    for (std::size_t i = 0; i < key.choices.size(); ++i) {
      if (i > 0) text.push_back(plain(", "));
      text.push_back({std::string{key.choices[i]}, {}, true});
    }
  }
  if (!key.targets.empty()) {
    text.push_back(plain(" "));
    std::vector<Piece> targets;
    for (const Kind target : key.targets)
      targets.push_back({std::string{spec_of(target).name}, "schema.html#" + anchor_of(spec_of(target)), false});
    append(text, enumerated(targets));
  }
  return text;
}

Text where_of(const KindSpec& spec) {
  if (spec.standing == Standing::top)
    return {plain(spec.repeated ? "at the top of a file, any number" : "at the top of a file, once")};
  Text text{plain(spec.standing == Standing::beside ? "at the top of a file that also holds " : "inside ")};
  std::vector<Piece> parents;
  for (const Kind parent : spec.parents)
    parents.push_back({std::string{spec_of(parent).name}, "schema.html#" + anchor_of(spec_of(parent)), false});
  append(text, enumerated(parents));
  text.push_back(plain(spec.repeated ? ", any number" : ", once"));
  return text;
}

std::vector<Block> kind_blocks(const KindSpec& spec) {
  Facts facts;
  add_fact(facts, "Written as", {{head_of(spec), {}, true}});
  add_fact(facts, "Stands", where_of(spec));
  if (!spec.address_prefix().empty() && spec.has_id())
    add_fact(facts, "Address", {{std::string{spec.address_prefix()} + "/ID", {}, true}});
  Table table;
  table.caption = fmt::format("Keys of {}", head_of(spec));
  for (const std::string_view head : {"Key", "Value", "Meaning"})
    table.columns.push_back({.text = {plain(std::string{head})}});
  for (const KeySpec& key : spec.keys) {
    Text name{{std::string{key.name}, {}, true}};
    if (key.required) name.push_back(plain(" (required)"));
    table.rows.push_back({{.text = std::move(name)}, {.text = type_of(key)}, {.text = {plain(std::string{key.doc})}}});
  }
  return {Paragraphs{{{plain(std::string{spec.doc} + ".")}}}, std::move(facts), std::move(table)};
}

} // namespace

void build_schema(const Site&, const PlannedPage&, Page& page) {
  page.title = "How entries are written";
  page.eyebrow = "The language";
  page.summary = fmt::format("Every table and key of the knowledge base: {} kinds of table, with types and meanings.",
                             schema().size());
  List contents{{{}}};
  for (const KindSpec& spec : schema())
    contents.groups.front().items.push_back(
        {{{head_of(spec), "schema.html#" + anchor_of(spec), true}}, {plain(std::string{spec.doc})}});
  add_section(page, "intro", {},
              {Paragraphs{{{plain("The knowledge base is TOML 1.0. What a file holds is told by its tables and never "
                                  "by its name; one file per figure and one per accessory is the habit.")},
                           {plain("Dates are EDTF (ISO 8601-2), durations ISO 8601, countries ISO 3166. An address "
                                  "joins ids by slashes, such as "),
                            {"signal-lantern/ring-top/brass", {}, true},
                            plain("; inside a family the last part is enough.")}}},
               std::move(contents)});
  for (const KindSpec& spec : schema()) {
    Section section{"list", anchor_of(spec), {{head_of(spec), {}, true}}, kind_blocks(spec)};
    page.sections.push_back(std::move(section));
  }
  add_section(
      page, "more", "Related",
      {List{{{{},
              {},
              {{{{"Data", "data.html", false}}, {plain("the entries themselves, and the same as JSON and CSV")}},
               {{{"Verdicts", "verdicts.html", false}}, {plain("what follows from them")}}}}}}});
}

} // namespace coeval
