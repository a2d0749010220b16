#include "entries/schema.hpp"

#include <algorithm>
#include <array>

#include "entries/shelf_kinds.hpp"

namespace coeval {
namespace {

using enum Kind;
using T = ValueType;

constexpr std::string_view basis_doc =
    "how strong the statements of this table are; without it: reported where a source is given, else conjectured";
constexpr std::string_view source_doc =
    "where the statements of this table come from, each as \"source-id place in it\"";
constexpr std::string_view notes_doc = "what a reader should know: doubts, observations, how it was found out";
constexpr std::string_view features_doc = "what can be seen, measured, felt or heard: feature id = value";

const std::vector<std::string_view> bases{"documented", "observed", "reported", "conjectured"};

KeySpec id_key(std::string_view doc) { return {"id", T::id, true, doc}; }
KeySpec name_key(bool required) { return {"name", T::text, required, "the name that readers see"}; }
KeySpec basis_key() { return {"basis", T::choice, false, basis_doc, {}, bases}; }
KeySpec source_key() { return {"source", T::citations, false, source_doc}; }
KeySpec notes_key() { return {"notes", T::text, false, notes_doc}; }
KeySpec features_key() { return {"features", T::features, false, features_doc}; }
KeySpec alike_key() {
  return {"alike",
          T::address_list,
          false,
          "runs, moulds or reproductions that no look tells it from, known and accepted",
          {mould, run, repro}};
}
KeySpec marks_key() {
  return {"marks",
          T::mark_list,
          false,
          "dating marks that it carries; nothing carries a mark from before its first day. One that is read is given "
          "with what it reads: \"copyright=1977\"",
          {mark}};
}
KeySpec line_key() {
  return {"line",
          T::address,
          false,
          "the line that it belongs to; needed only where the knowledge base holds several",
          {Kind::line}};
}
KeySpec disputed_key() {
  return {"disputed", T::flag, false,
          "true keeps the statement out of every conclusion and lists it among the disputes"};
}
KeySpec replaces_key(std::vector<Kind> targets) {
  return {"replaces", T::address, false, "what it followed: it starts after that one starts, and ends no earlier",
          std::move(targets)};
}
KeySpec clean_key() {
  return {"clean", T::flag, false, "true says that what it replaces had ended before it started: no overlap"};
}
KeySpec within_key() {
  return {"within", T::span_list, false, "spans that surely hold all of it: period, card, mould, run, issue …"};
}

// The keys by which [[timing]] tables order spans and their ends.
std::vector<KeySpec> timing_keys(bool claimed) {
  std::vector<KeySpec> keys;
  if (claimed) keys.push_back({"of", T::span, true, "the span that the claim dates"});
  const std::vector<KeySpec> rest{
      {"relation",
       T::choice,
       false,
       "how the whole span lies to `span`: one of the thirteen interval relations of OWL-Time",
       {},
       {"before", "meets", "overlaps", "finished-by", "contains", "starts", "equals", "started-by", "during",
        "finishes", "overlapped-by", "met-by", "after"}},
      {"span", T::span, false, "the other span of `relation`"},
      {"this",
       T::choice,
       false,
       "which end is dated: the first day (start) or the last day (end)",
       {},
       {"start", "end"}},
      {"on", T::date, false, "EDTF: that end falls on some day of this date"},
      {"after", T::point, false, "that end comes after this one, by a day or more"},
      {"before", T::point, false, "that end comes before this one, by a day or more"},
      {"same-day-as", T::point, false, "that end falls on the same day as this one"},
      {"at-least", T::duration, false, "with after or before: the smallest gap, ISO 8601"},
      {"at-most", T::duration, false, "with after or before: the largest gap, ISO 8601"},
  };
  keys.insert(keys.end(), rest.begin(), rest.end());
  if (!claimed) {
    keys.push_back(basis_key());
    keys.push_back(source_key());
    keys.push_back(disputed_key());
  }
  keys.push_back(notes_key());
  return keys;
}

const std::vector<Kind> spans{period, card, mould, run, issue, route, mark};

std::vector<KindSpec> build_schema() {
  const std::vector<Kind> pictured{line,  figure, issue, accessory, mould,        run,
                                   repro, card,   mark,  feature,   feature_value};
  std::vector<KindSpec> kinds{
      {line,
       "line",
       Standing::top,
       false,
       {},
       "a toy line, and the policies that its dates follow",
       {id_key("the line's id"),
        name_key(true),
        {"maker", T::address, false, "who made the line", {maker}},
        {"slots", T::word_list, false, "the slots that figures of this line have: hand, head, back …"},
        {"sold", T::text, false, "when and where it was sold, in words"},
        source_key(),
        notes_key()}},
      {leftover,
       "leftover",
       Standing::inside,
       false,
       {line, issue},
       "how long moulded parts lay in stock before they were packed, at most",
       {{"at-most", T::duration, true, "the longest time from moulding to packing, ISO 8601"},
        basis_key(),
        source_key(),
        notes_key()}},
      {allowance,
       "allowance",
       Standing::inside,
       false,
       {line},
       "how far an approximate date (~) may be off either way, by how finely it is written",
       {{"day", T::duration, false, "for a day; 7 days unless said"},
        {"month", T::duration, false, "for a month; 1 month unless said"},
        {"season", T::duration, false, "for a season or quarter; 3 months unless said"},
        {"year", T::duration, false, "for a year; 1 year unless said"},
        {"decade", T::duration, false, "for a decade; 10 years unless said"},
        notes_key()}},

      {figure,
       "figure",
       Standing::top,
       false,
       {},
       "a character as sold",
       {id_key("the figure's id; with the accessories' ids, unique in the knowledge base"),
        name_key(true),
        line_key(),
        {"role", T::text, false, "who the character is"},
        features_key(),
        source_key(),
        notes_key()}},
      {issue,
       "issue",
       Standing::beside,
       true,
       {figure},
       "one distinct putting-out of the file's figure",
       {id_key("unique within the figure"),
        name_key(false),
        {"packed", T::dates, false, "when it was packed, from / until"},
        {"packer", T::address, false, "the plant that packed it", {plant}},
        {"maker", T::address, false, "who put it out: the maker or a licensee", {maker}},
        {"market", T::country_list, false, "where it was sold, ISO 3166 codes"},
        {"card", T::address_list, false, "the generations of packaging that it is known on", {card}},
        {"offer", T::choice, false, "how it was sold", {}, {"carded", "boxed", "multipack", "mail-in", "bagged"}},
        {"paint", T::text, false, "paint and plastic colours that tell it apart"},
        {"reissue-of", T::address, false, "the issue that it put out again", {issue}},
        {"bare", T::flag, false, "true says that it was sold with no accessory at all"},
        replaces_key({issue}),
        clean_key(),
        within_key(),
        marks_key(),
        features_key(),
        basis_key(),
        source_key(),
        notes_key()}},
      {takes,
       "takes",
       Standing::inside,
       true,
       {issue},
       "one accessory that the issue was sold with; basis and source default to the issue's",
       {{"accessory", T::address, true, "the accessory", {accessory}},
        {"slot", T::text, false, "where it goes; the accessory's own slot unless said"},
        basis_key(),
        source_key(),
        notes_key()}},
      {pairing,
       "pairing",
       Standing::inside,
       true,
       {issue},
       "a run found with this issue, or shown not to belong with it",
       {{"run", T::address, true, "the run", {run}},
        {"card", T::address, false, "the packaging it was sealed in", {card}},
        {"refuted", T::flag, false, "true: the pairing was examined and found not to be original"},
        basis_key(),
        source_key(),
        disputed_key(),
        notes_key()}},

      {accessory,
       "accessory",
       Standing::top,
       false,
       {},
       "a kind of part that fills a slot",
       {id_key("the accessory's id; with the figures' ids, unique in the knowledge base"),
        name_key(true),
        {"slot", T::text, true, "the slot that it fills: hand, head, back …"},
        line_key(),
        marks_key(),
        features_key(),
        source_key(),
        notes_key()}},
      {mould,
       "mould",
       Standing::beside,
       true,
       {accessory},
       "one revision of the tool that the file's accessory was moulded in",
       {id_key("unique within the accessory"),
        name_key(false),
        {"used", T::dates, false, "when it was in the press, from / until"},
        replaces_key({mould}),
        clean_key(),
        within_key(),
        marks_key(),
        features_key(),
        alike_key(),
        basis_key(),
        source_key(),
        notes_key()}},
      {run,
       "run",
       Standing::inside,
       true,
       {mould},
       "one production run from the mould; basis and source default to the mould's",
       {id_key("unique within the mould"),
        name_key(false),
        {"made", T::dates, false, "when it was made, from / until"},
        {"material", T::text, false, "what it is made of"},
        {"plant", T::address, false, "the plant that made it", {plant}},
        replaces_key({run}),
        clean_key(),
        within_key(),
        marks_key(),
        features_key(),
        alike_key(),
        basis_key(),
        source_key(),
        notes_key()}},
      {exclusive,
       "exclusive",
       Standing::inside,
       true,
       {run},
       "says that the run went to these issues and to no other",
       {{"to", T::address_list, true, "the issues that it was reserved for", {issue}},
        basis_key(),
        source_key(),
        disputed_key(),
        notes_key()}},
      {repro,
       "repro",
       Standing::beside,
       true,
       {accessory},
       "a reproduction of one of the file's runs or moulds; it states what differs, the rest is as in what it copies",
       {id_key("unique within the accessory, moulds included"),
        name_key(false),
        {"of", T::address, true, "what it copies", {run, mould}},
        {"method",
         T::choice,
         false,
         "how it came about",
         {},
         {"recast", "cut-down", "recoloured", "assembled", "new-mould", "later-reissue"}},
        {"how", T::text, false, "how it was made, in words"},
        {"donor",
         T::address,
         false,
         "the part that it was cast from, cut down from or recoloured",
         {run, mould, accessory, repro}},
        {"since", T::date, false, "EDTF: known since"},
        {"material", T::text, false, "what it is made of"},
        features_key(),
        alike_key(),
        basis_key(),
        source_key(),
        notes_key()}},
      {colour,
       "colour",
       Standing::inside,
       false,
       {run, repro},
       "the colour of the plastic",
       {{"name", T::text, true, "the colour's name"},
        {"lab", T::numbers, false,
         "CIELAB L*, a*, b* (D65, 2 degrees); counts as the feature body-colour, or as the only feature of kind "
         "colour, "
         "unless the features beside it say that"}}},

      {timing, "timing", Standing::inside, true, spans, "an order in time that needs no date", timing_keys(false)},

      {period,
       "period",
       Standing::top,
       true,
       {},
       "a named stretch of the line's history",
       {id_key("the period's id"),
        name_key(true),
        line_key(),
        {"dates", T::dates, false, "from / until"},
        replaces_key({period}),
        clean_key(),
        within_key(),
        basis_key(),
        source_key(),
        notes_key()}},
      {card,
       "card",
       Standing::top,
       true,
       {},
       "a generation of packaging: card back or box",
       {id_key("the card's id"),
        name_key(true),
        line_key(),
        {"used", T::dates, false, "when figures were sealed on it, from / until"},
        replaces_key({card}),
        clean_key(),
        within_key(),
        marks_key(),
        features_key(),
        basis_key(),
        source_key(),
        notes_key()}},
      {plant,
       "plant",
       Standing::top,
       true,
       {},
       "a plant that moulded or packed",
       {id_key("the plant's id"),
        name_key(true),
        {"place", T::text, false, "town or district"},
        {"country", T::country, false, "ISO 3166 code"},
        {"maker", T::address, false, "whose plant it was", {maker}},
        {"routes-complete", T::flag, false,
         "true says that every route into this plant is entered: no other plant supplied it"},
        basis_key(),
        source_key(),
        notes_key()}},
      {maker,
       "maker",
       Standing::top,
       true,
       {},
       "who made or sold: the maker or a licensee",
       {id_key("the maker's id"),
        name_key(true),
        {"role", T::choice, false, "what it was in the line", {}, {"maker", "licensee", "distributor"}},
        {"country", T::country, false, "ISO 3166 code"},
        source_key(),
        notes_key()}},
      {route,
       "route",
       Standing::top,
       true,
       {},
       "which plant supplied which packer, and when",
       {id_key("the route's id"),
        {"from", T::address, true, "the plant that sent", {plant}},
        {"to", T::address, true, "the plant that packed or sent on", {plant}},
        {"carries", T::address_list, false, "only these accessories; all unless said", {accessory}},
        {"active", T::dates, false, "from / until"},
        replaces_key({route}),
        clean_key(),
        within_key(),
        basis_key(),
        source_key(),
        notes_key()}},
      {mark,
       "mark",
       Standing::top,
       true,
       {},
       "a moulded or printed mark that dates what carries it",
       {id_key("the mark's id"),
        name_key(true),
        {"text", T::text, false, "what it reads"},
        {"kind",
         T::choice,
         false,
         "what it is about; of a line: a mark of its own maker or plants",
         {},
         {"line", "origin", "safety", "address", "telephone", "price", "bar-code", "material", "packaging", "patent",
          "copyright"}},
        {"where", T::text, false, "where it is found: part, card, leaflet …"},
        {"country", T::country, false, "whose law or scheme it is, or which country it names"},
        {"jurisdiction", T::text, false, "whose law or scheme it is, where that is not one country's"},
        {"used", T::dates, false, "first and last day of the mark"},
        {"end-binds", T::flag, false, "true says that nothing carries the mark from after its last day"},
        {"reading",
         T::choice,
         false,
         "for a mark that is read: what carries it was made no earlier than the year that it reads, or than its number "
         "was given out",
         {},
         {"year", "number"}},
        {"caution", T::text, false, "what it does not prove, and how it misleads"},
        replaces_key({mark}),
        clean_key(),
        within_key(),
        basis_key(),
        source_key(),
        notes_key()}},
      {mark_number,
       "number",
       Standing::inside,
       true,
       {mark},
       "of a mark that reads a number: where the numbers had got to; later numbers are higher; basis and source "
       "default to "
       "the mark's",
       {{"from", T::count, true, "the first number given out then"},
        {"on", T::date, true, "EDTF: that number was given out on some day of this date"},
        basis_key(),
        source_key(),
        notes_key()}},
      {feature,
       "feature",
       Standing::top,
       true,
       {},
       "something to look at on a part, and how",
       {id_key("the feature's id, the key in `features` tables"),
        name_key(true),
        {"kind",
         T::choice,
         true,
         "what its values are; of a colour { lab = [L, a, b] }, or \"same-as-figure\" where it is that of the figure's "
         "plastic",
         {},
         {"choice", "present", "count", "measure", "colour", "text"}},
        {"values", T::word_list, false, "for a choice: every value it can have"},
        {"unit", T::choice, false, "for a measure", {}, {"mm", "g"}},
        {"tolerance", T::number, false,
         "for a measure: how far a part may be off the stated value, in its unit, unless the value says; for a colour: "
         "the largest CIEDE2000 difference that still counts as the same"},
        {"look", T::text, false, "how to look, step by step"},
        {"tool",
         T::choice,
         false,
         "what it takes; the eye unless said",
         {},
         {"eye", "lens", "calliper", "scale", "colour-card", "finger", "ear", "light", "float", "needle", "solvent"}},
        {"by",
         T::choice,
         false,
         "who can do it: only the holder of the part (in-hand, unless said), or also a seller, by a photograph or by "
         "measuring",
         {},
         {"in-hand", "photograph", "measurement"}},
        {"effort", T::number, false, "minutes that it takes; 1 unless said"},
        {"destructive", T::flag, false, "true says that the look harms the part: it is never proposed"},
        {"caution", T::text, false, "what can go wrong in looking"},
        source_key(),
        notes_key()}},
      {feature_value,
       "value",
       Standing::inside,
       true,
       {feature},
       "what one value of a choice looks like",
       {id_key("the value, as in the feature's `values`"),
        name_key(false),
        {"look", T::text, false, "how to recognise it"},
        notes_key()}},
      {source,
       "source",
       Standing::top,
       true,
       {},
       "where statements come from",
       {id_key("the source's id, the first word of citations"),
        {"title", T::text, true, "its title, or what it is"},
        {"kind",
         T::choice,
         true,
         "what kind of evidence it is",
         {},
         {"catalogue", "trade-press", "factory-record", "patent", "packaging", "sealed-examples", "loose-examples",
          "measurement", "photograph", "interview", "correspondence", "newsletter", "book", "law", "standard",
          "web-page"}},
        {"author", T::text, false, "who wrote, recorded or owns it"},
        {"published", T::date, false, "EDTF"},
        {"url", T::url, false, "where it can be read"},
        {"seen", T::date, false, "EDTF: when the curator saw it"},
        {"held-by", T::text, false, "where the original can be consulted"},
        notes_key()}},
      {claim,
       "claim",
       Standing::top,
       true,
       {},
       "something collectors repeat, and how it stands on the evidence",
       {id_key("the claim's id"),
        {"name", T::text, false, "a short title for it"},
        {"says", T::text, true, "what is repeated"},
        {"standing", T::choice, true, "supported, open or refuted", {}, {"supported", "open", "refuted"}},
        {"proven", T::flag, false, "true says of a supported claim that the other statements prove all that it states"},
        {"why", T::text, false, "what supports or refutes it, or what is missing"},
        source_key(),
        notes_key()}},
      {claimed_pairing,
       "pairing",
       Standing::inside,
       true,
       {claim},
       "the pairing that the claim states, so that it can be checked",
       {{"run", T::address, true, "the run", {run}},
        {"issue", T::address, true, "the issue", {issue}},
        {"card", T::address, false, "the packaging", {card}},
        notes_key()}},
      {claimed_timing,
       "timing",
       Standing::inside,
       true,
       {claim},
       "the timing that the claim states, so that it can be checked",
       timing_keys(true)},
      {picture,
       "picture",
       Standing::inside,
       true,
       pictured,
       "a picture: SVG, PNG, JPEG or WebP below the knowledge base",
       {{"file", T::file, true, "its path, from the folder of the file that names it"},
        {"alt", T::text, true, "what it shows, for somebody who cannot see it"},
        {"credit", T::text, true, "who made it and under which licence"},
        notes_key()}},
  };
  for (KindSpec& spec : shelf_kinds()) kinds.push_back(std::move(spec));
  std::ranges::sort(kinds, {}, &KindSpec::kind);
  return kinds;
}

} // namespace

bool is_word_list(ValueType type) {
  switch (type) {
  case ValueType::word_list:
  case ValueType::country_list:
  case ValueType::address_list:
  case ValueType::mark_list:
  case ValueType::span_list:
  case ValueType::citations:
  case ValueType::text_list:
  case ValueType::choice_list:
    return true;
  default:
    return false;
  }
}

const KeySpec* KindSpec::find(std::string_view key) const {
  for (const KeySpec& spec : keys)
    if (same_name(spec.name, key)) return &spec;
  return nullptr;
}

std::string_view KindSpec::address_prefix() const {
  const bool bare = kind == figure || kind == accessory || standing != Standing::top;
  return bare ? std::string_view{} : name;
}

namespace {

std::span<const KindSpec> every_kind() {
  static const std::vector<KindSpec> kinds = build_schema();
  return kinds;
}

} // namespace

std::span<const KindSpec> schema(Language language) {
  constexpr auto first_of_shelf = static_cast<std::size_t>(Kind::shelf);
  return language == Language::knowledge_base ? every_kind().first(first_of_shelf)
                                              : every_kind().subspan(first_of_shelf);
}

const KindSpec& spec_of(Kind kind) { return every_kind()[static_cast<std::size_t>(kind)]; }

std::string_view kind_word(Kind kind) {
  switch (kind) {
  case feature_value:
    return "feature-value";
  case mark_number:
    return "mark-number";
  case claimed_pairing:
    return "claimed-pairing";
  case claimed_timing:
    return "claimed-timing";
  default:
    return spec_of(kind).name;
  }
}

const KindSpec* find_kind_word(std::string_view word) {
  const auto found = std::ranges::find_if(schema(), [&](const KindSpec& spec) { return kind_word(spec.kind) == word; });
  return found == schema().end() ? nullptr : &*found;
}

std::vector<const KindSpec*> children_of(Kind parent) {
  std::vector<const KindSpec*> children;
  for (const KindSpec& spec : every_kind())
    if (std::ranges::find(spec.parents, parent) != spec.parents.end()) children.push_back(&spec);
  return children;
}

const KindSpec* find_child(Kind parent, std::string_view name) {
  for (const KindSpec& spec : every_kind())
    if (spec.standing == Standing::inside && same_name(spec.name, name) &&
        std::ranges::find(spec.parents, parent) != spec.parents.end())
      return &spec;
  return nullptr;
}

const KindSpec* find_top(std::string_view name, Language language) {
  for (const KindSpec& spec : schema(language))
    if (spec.standing != Standing::inside && same_name(spec.name, name)) return &spec;
  return nullptr;
}

std::string_view dates_key(Kind kind) {
  switch (kind) {
  case period:
    return "dates";
  case card:
  case mould:
  case mark:
    return "used";
  case run:
    return "made";
  case issue:
    return "packed";
  case route:
    return "active";
  default:
    return {};
  }
}

} // namespace coeval
