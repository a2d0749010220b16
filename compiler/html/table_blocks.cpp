// Tables: plain ones, moulds side by side, and issues against runs.
#include "html/composition.hpp"

#include <fmt/format.h>

namespace coeval {
namespace {

constexpr std::size_t always_fits = 2; // columns that need no scrolling on a phone

const char* style_of(Table::Kind kind) {
  return kind == Table::Kind::matrix ? "matrix" : kind == Table::Kind::comparison ? "comparison" : "plain";
}

// A sign in a matrix stands for its word; where the cell's text is one link, the sign is what is clicked.
void add_matrix_sign(Composition& page, Node into, const Cell& cell) {
  if (cell.text.size() == 1 && !cell.text.front().to.empty()) {
    add_text(page, into, {{{}, cell.text.front().to, false}});
    if (Node link = into.child("a")) {
      add_named_sign(page, link, *cell.verdict);
      return;
    }
  }
  add_named_sign(page, into, *cell.verdict);
}

void fill_cell(Composition& page, Node into, const Cell& cell, Table::Kind kind) {
  if (cell.picture) add_image(page, into, *cell.picture);
  if (cell.lab) add_swatch(into, *cell.lab);
  if (cell.verdict && kind == Table::Kind::matrix) {
    add_matrix_sign(page, into, cell);
    return;
  }
  if (cell.verdict) {
    add_sign(page, into, *cell.verdict);
    const bool said = plain_text(cell.text).find(name(*cell.verdict)) != std::string::npos;
    if (!said) add_plain(add(into, "span", said ? "" : "word"), std::string{name(*cell.verdict)} + " ");
  }
  if (cell.differs) {
    set(into, "class", "differs");
    add_plain(add(into, "span", "unseen"), "differs: ");
  }
  add_text(page, into, cell.text);
}

void add_rows(Composition& page, Node table, const Table& block) {
  Node head = add(add(table, "thead"), "tr");
  for (std::size_t i = 0; i < block.columns.size(); ++i) {
    const bool corner = i == 0 && block.columns[i].text.empty();
    Node cell = add(head, corner ? "td" : "th");
    if (!corner) set(cell, "scope", "col");
    const bool upright = block.kind == Table::Kind::matrix && i > 0;
    fill_cell(page, upright ? add(cell, "span") : cell, block.columns[i], Table::Kind::plain);
  }
  Node body = add(table, "tbody");
  for (const std::vector<Cell>& row : block.rows) {
    Node line = add(body, "tr");
    for (std::size_t i = 0; i < row.size(); ++i) {
      Node cell = add(line, i == 0 ? "th" : "td");
      if (i == 0) set(cell, "scope", "row");
      fill_cell(page, cell, row[i], i == 0 ? Table::Kind::plain : block.kind);
    }
  }
}

} // namespace

void add_block(Composition& page, Node into, const Table& block) {
  if (block.rows.empty()) return;
  std::string id;
  Node part = add_part(page, Part::table, into, [&](std::string_view slot, Node place) {
    if (slot == "number" && block.kind == Table::Kind::matrix) add_plate_number(page, place);
    if (slot == "caption") add_plain(place, block.caption);
    if (slot == "table") {
      Node around = place;
      if (block.columns.size() > always_fits) {
        around = add(place, "div", "scroll");
        set(around, "tabindex", "0");
        set(around, "role", "region");
        set(around, "aria-label", block.caption.empty() ? std::string{"Table"} : block.caption);
      }
      Node table = add(around, "table");
      if (!block.caption.empty()) set(table, "aria-label", block.caption);
      add_rows(page, table, block);
    }
  });
  set(part, "class", fmt::format("{} {}", part.attribute("class").value(), style_of(block.kind)));
}

} // namespace coeval
