// html/composition.hpp: how does a page's tree grow?
//
// Private to this room. A Composition is one page on its way: the tree is built by the functions below, one for each
// kind of block; each appends to a node, and nothing is ever parsed from text.
#pragma once

#include <bitset>
#include <map>
#include <set>
#include <string>
#include <string_view>

#include "html/parts.hpp"
#include "html/render.hpp"
#include "pages/page.hpp"

namespace coeval {

struct Composition {
  const Templates& templates;
  const Page& page;
  const RenderOptions& options;
  std::string root;                         // the way to the root of the site
  int level = 2;                            // of the next heading
  int plates = 0;                           // numbered so far
  std::bitset<verdict_count> signs{};       // used so far
  bool hatched = false;                     // a drawing needs the hatches
  bool only_narrow = false;                 // drawings, where one document serves phones
  std::set<std::string, std::less<>> ids{}; // taken on this page
  std::map<std::string, std::string>
      backings{}; // of steps of proofs, by sources and place: the id of the first such step
};

// ---- elements and texts ----
Node add(Node into, const char* element);
Node add(Node into, const char* element, const char* style); // with this class
void set(Node element, const char* attribute, std::string_view value);
void add_plain(Node into, std::string_view text);      // kept apart from what is around it where its direction differs
void add_characters(Node into, std::string_view text); // where no element may stand
void add_text(Composition& page, Node into, const Text& text);
// A path of the site as it is written on this page; empty where it is none.
[[nodiscard]] std::string site_path(const Composition& page, std::string_view path);
// "a", 12: without links, for labels.
[[nodiscard]] std::string plain_text(const Text& text);
// Gives the element this id, unless it is empty or taken: an id is there once on a page.
bool set_id(Composition& page, Node element, std::string_view id);
// Of the level that is due: h2 at the top.
Node add_heading(Composition& page, Node into, const Text& text);
Node add_part(Composition& page, Part part, Node into, const FillSlot& fill);

// ---- small signs ----
void add_sign(Composition& page, Node into, Verdict verdict);
// With the word for those who do not see it.
void add_named_sign(Composition& page, Node into, Verdict verdict);
void add_swatch(Node into, const std::array<double, 3>& lab);
void add_basis(Node into, Basis basis);
// "Plate 3": the next number of the page.
void add_plate_number(Composition& page, Node into);

// ---- blocks ----
void add_blocks(Composition& page, Node into, const std::vector<Block>& blocks);
void add_block(Composition& page, Node into, const Paragraphs& block);
void add_block(Composition& page, Node into, const Caution& block);
void add_block(Composition& page, Node into, const Facts& block);
void add_block(Composition& page, Node into, const EvidenceBlock& block);
void add_block(Composition& page, Node into, const Bounds& block);
void add_block(Composition& page, Node into, const Verdicts& block);
void add_block(Composition& page, Node into, const Table& block);
void add_block(Composition& page, Node into, const Plate& block);
void add_block(Composition& page, Node into, const DrawingBlock& block);
void add_block(Composition& page, Node into, const List& block);
void add_block(Composition& page, Node into, const Checklist& block);
void add_block(Composition& page, Node into, const KeyView& block);
void add_block(Composition& page, Node into, const Legend& block);
void add_block(Composition& page, Node into, const Checker& block);
void add_block(Composition& page, Node into, const Search& block);
void add_block(Composition& page, Node into, const Details& block);

// The steps of a proof as list items. One that is backed as another before it says so, with a link.
void add_steps(Composition& page, Node into, const Proof& proof);
// A picture alone, for a cell of a table; its alternative text where there is no such file.
void add_image(Composition& page, Node into, const Picture& picture);

// The shapes that the page has used: symbols of signs and hatches of drawings.
void add_shapes(Composition& page, Node into);

} // namespace coeval
