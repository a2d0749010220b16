#include "private_pages/tell.hpp"

#include <algorithm>

#include "pages/paths.hpp"
#include "shelf/words.hpp"

namespace coeval {

Piece PrivateTeller::entry(EntryIndex index) const {
  Piece piece = coded(std::string{kb().address(index)});
  const std::string path = path_of(kb(), index);
  if (!input_.reference.empty() && !path.empty()) piece.to = input_.reference + path;
  return piece;
}

Text PrivateTeller::piece(PieceIndex index) const {
  const OwnedPiece& owned = input_.shelf[index];
  Text text{coded(owned.id), words(", ")};
  if (owned.issue)
    text.push_back(entry(kb().issues[at(*owned.issue)].entry));
  else if (owned.figure)
    text.push_back(entry(kb().figures[at(*owned.figure)].entry));
  else
    text.pop_back();
  return text;
}

Text PrivateTeller::part(PartIndex index) const {
  const OwnedPart& owned = input_.shelf[index];
  Text text{coded(owned.id), words(", ")};
  if (owned.could_be.size() != 1) {
    text.push_back(words(part_words(kb(), owned)));
    return text;
  }
  const PartIdentity& identity = owned.could_be.front();
  const auto* run = std::get_if<RunIndex>(&identity);
  text.push_back(
      entry(run != nullptr ? kb().runs[at(*run)].entry : kb().repros[at(std::get<ReproIndex>(identity))].entry));
  return text;
}

Piece words(std::string text) { return {std::move(text), {}, false}; }
Piece coded(std::string text) { return {std::move(text), {}, true}; }

Text with_ids(std::string_view told) {
  Text text;
  for (bool id = false; !told.empty(); id = !id) {
    const std::size_t end = std::min(told.find('`'), told.size());
    if (end > 0) text.push_back({std::string{told.substr(0, end)}, {}, id});
    told.remove_prefix(std::min(end + 1, told.size()));
  }
  return text;
}

void add_to_list(Page& page, std::string_view title, std::vector<Block> blocks, std::string anchor) {
  if (blocks.empty()) return;
  Section section{"list", std::move(anchor), {}, std::move(blocks)};
  if (!title.empty()) section.title = {words(std::string{title})};
  page.sections.push_back(std::move(section));
}

std::vector<Page> private_pages(const PrivatePagesInput& input) {
  std::vector<Page> pages{audit_page(input), swap_page(input), wants_page(input), owned_checklist_page(input),
                          ledger_page(input)};
  for (Page& page : pages) {
    page.kind = PageKind::shelf;
    page.eyebrow = "Private";
  }
  return pages;
}

} // namespace coeval
