// pages/page.hpp: what is on a page, before anybody decides how it looks?
//
// A page is a list of sections, each for a named slot of the template of its kind. What a section says is told in a
// small vocabulary of blocks. Nothing here knows markup: texts are plain, and become characters of a document, never
// its structure. Days are ISO 8601. Links are paths from the root of the site ("figures/keeper-maren.html#hand") or
// http(s) addresses; whoever writes the page makes them relative.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "drawings/drawing.hpp"
#include "verdicts/verdict.hpp"

namespace coeval {

// A stretch of text, perhaps a link.
struct Piece {
  std::string text;
  std::string to;    // empty for none
  bool code = false; // an address, id or file: set in a fixed width
};
using Text = std::vector<Piece>;

// A statement of the knowledge base as it is shown: a Reason with its citations linked and its place in words.
struct Step {
  std::string statement;
  std::optional<Basis> basis; // nothing where it holds by the meaning of the words
  std::vector<Text> sources;  // each citation, its source linked
  Piece place;                // "saltmere/cards.toml:12", linked to the published file
};
using Proof = std::vector<Step>;

// How an entry as a whole is backed.
struct EvidenceView {
  Basis basis{};
  std::vector<Text> sources;
  Piece place;
  bool disputed = false;
};

// One side of a day that is not known exactly.
struct BoundView {
  std::string day; // ISO 8601; empty where nothing bounds it
  std::optional<Basis> basis;
  Proof proof;
};
// A day, the first or the last of a span: no earlier than, no later than.
struct PointView {
  std::string words; // "first made between 1976-08-01 and 1976-08-31"
  BoundView earliest;
  BoundView latest;
};
struct SpanView {
  std::string label; // "in the press", "made", "packed"
  PointView start;
  PointView end;
};

struct GroundView {
  Ground ground{};
  Answer answer{};
  std::optional<Basis> basis;
  std::string words;
  Proof proof;
};
// A verdict that opens to its proof.
struct VerdictView {
  std::string anchor; // on its page, so that others can point to it; empty for none
  Text subject;       // what is judged: usually a run, or an issue
  Verdict verdict{};
  std::optional<Basis> basis;
  std::string gap;                          // "at least 13 months too late"; empty for none
  std::vector<GroundView> grounds;          // empty where the proof stands elsewhere:
  std::string to;                           // there
  std::vector<std::string> would_settle;    // for open
  std::optional<std::array<double, 3>> lab; // the colour of the part, for a swatch beside its name
};

// A picture of the knowledge base.
struct Picture {
  std::string file; // below the knowledge base
  std::string alt;
  std::string credit;
  Text caption; // what it is a picture of; may be empty
};

// ---- blocks ----

struct Paragraphs {
  std::vector<Text> texts;
};
struct Caution { // what can go wrong, or hurt
  std::string text;
};
struct Facts { // label and value
  struct Fact {
    std::string label;
    Text value;
    std::optional<std::array<double, 3>> lab; // a swatch of this CIELAB colour beside it
  };
  std::vector<Fact> facts;
};
struct Bounds { // when, at both ends, and how each is known
  std::vector<SpanView> spans;
};
struct Verdicts { // one after the other, each opening to its proof
  Text title;     // "hand: signal lantern"; may be empty
  std::vector<VerdictView> verdicts;
};
struct Cell {
  Text text;
  std::optional<Verdict> verdict; // its sign, before the text; `text` of one piece carries the link
  std::optional<std::array<double, 3>> lab;
  std::optional<Picture> picture;
  bool differs = false; // from its neighbours in a comparison: marked
};
struct Table {
  enum class Kind : std::uint8_t {
    plain,
    comparison, // columns are alternatives, rows are features, what differs is marked
    matrix      // many narrow columns of signs
  };
  Kind kind = Kind::plain;
  std::string caption;
  std::vector<Cell> columns;           // heads; the first stands over the row heads
  std::vector<std::vector<Cell>> rows; // the first cell is the row's head
};
struct Plate { // pictures side by side
  std::vector<Picture> pictures;
};
struct DrawingBlock {
  Drawing narrow; // for a phone
  Drawing wide;   // for a desk and for paper; the same facts
  std::string caption;
};
struct List { // of links, perhaps in groups
  struct Item {
    Text text;
    Text note;
  };
  struct Group {
    std::string title; // may be empty
    std::string anchor;
    std::vector<Item> items;
  };
  std::vector<Group> groups;
};
struct Checklist { // boxes to tick, on paper too
  struct Item {
    Text text;
    std::string note;
  };
  struct Group {
    Text title;
    std::vector<Item> items;
  };
  std::vector<Group> groups;
};
struct KeyView { // an identification key, as numbered couplets
  struct Answer {
    std::string text;
    std::size_t go_to = 0;     // number of the next couplet; 0 for an end
    std::vector<Text> results; // at an end: what it can be
  };
  struct Couplet {
    std::size_t number = 0; // from 1
    Text question;
    std::string look; // how to look
    std::string caution;
    std::vector<Answer> answers;
  };
  std::vector<Couplet> couplets;
};
struct Legend {};  // every verdict sign with its word and meaning
struct Checker {}; // choose an issue and a part: works from the index, by script
struct Search {};  // over names, ids, features and marks: works from the index, by script
struct EvidenceBlock {
  EvidenceView evidence;
};

struct Details;
using Block = std::variant<Paragraphs, Caution, Facts, EvidenceBlock, Bounds, Verdicts, Table, Plate, DrawingBlock,
                           List, Checklist, KeyView, Legend, Checker, Search, Details>;
struct Details { // opens on demand
  Text summary;
  std::vector<Block> inside;
};

struct Section {
  std::string slot;   // of the page's template
  std::string anchor; // [a-z0-9.-]+; empty for none
  Text title;         // empty for none
  std::vector<Block> blocks;
};

enum class PageKind : std::uint8_t {
  home,
  line,
  index_of, // of figures, accessories, periods, cards …: a list of one kind
  figure,
  issue,
  accessory,
  run,
  repro,
  period,
  card,
  plant,
  route,
  market,
  mark,
  feature,
  claim,
  source,
  matrix,
  checklist,
  key,
  disputes,
  agenda,
  changes,
  schema,
  checker,
  search,
  names, // A to Z
  verdicts,
  data,
  not_found,
  shelf, // a collector's own pages, which are never part of the site
};

struct SlotSpec {
  std::string_view name;
  std::string_view doc;
};
struct PageKindSpec {
  PageKind kind{};
  std::string_view name; // of its template: "figure" for pages/figure.html
  std::vector<SlotSpec> slots;
};
// Every kind of page with the slots that its template must hold, in the order of the enum. Beside them, the template of
// the whole document holds those of `document_slots`.
[[nodiscard]] const std::vector<PageKindSpec>& page_kinds();

struct Page {
  PageKind kind{};
  std::string path;          // from the root of the site: "figures/keeper-maren.html"
  std::string title;         // plain, unique in the site where possible
  std::string eyebrow;       // above the title: what kind of thing it is: "Figure", "Production run"
  std::string summary;       // one sentence, for search engines and lists
  std::vector<Piece> crumbs; // from the home page down to the parent
  std::vector<Section> sections;
  std::string json_ld; // a JSON document (schema.org terms); empty for none
};

} // namespace coeval
