#include "shelf/apply_swap.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "entries/read.hpp"
#include "shelf/edit.hpp"

namespace coeval {
namespace {

// Where each part that moves is in the end: one may be put aside first and worn later.
std::map<PartIndex, std::optional<WornPlace>> ends_of(const ShelfSwap& swap) {
  std::map<PartIndex, std::optional<WornPlace>> ends;
  for (const PlannedMove& move : swap.moves) ends.insert_or_assign(move.part, move.to);
  return ends;
}

void put(ShelfEdit& edit, const LinkedKb& kb, const LinkedShelf& shelf, const OwnedPart& part,
         const std::optional<WornPlace>& place) {
  if (!place) return edit.remove(part.entry, "in");
  const OwnedPiece& piece = shelf[place->piece];
  edit.set(part.entry, "in", piece.id);
  const std::string* written = edit.value(part.entry, "slot");
  const bool follows =
      written == nullptr && part.accessory && unwritten_slot(kb, *part.accessory, piece.issue) == place->slot;
  if (!follows) edit.set(part.entry, "slot", place->slot);
}

// The first part of which the new text does not say what it should; nothing where it does of all.
std::optional<PartIndex> misplaced(const LinkedShelf& before, const LinkedShelf& after,
                                   const std::map<PartIndex, std::optional<WornPlace>>& ends) {
  for (std::size_t i = 0; i < before.parts.size(); ++i) {
    const PartIndex index{static_cast<std::uint32_t>(i)};
    const OwnedPart& was = before.parts[i];
    const OwnedPart& is = after.parts[i];
    const auto end = ends.find(index);
    const bool moves = end != ends.end();
    const bool there = !moves        ? is.in == was.in && is.slot == was.slot
                       : end->second ? is.in == end->second->piece && is.slot == end->second->slot
                                     : !is.in;
    if (!there || is.could_be != was.could_be) return index;
  }
  return {};
}

} // namespace

std::optional<std::string> apply_swap(const LinkedKb& kb, const SourceSet& sources, const LinkedShelf& shelf,
                                      const ShelfSwap& swap, Diagnostics& out) {
  const auto ends = ends_of(swap);
  ShelfEdit edit{sources, shelf.entries};
  for (const auto& [part, place] : ends) put(edit, kb, shelf, shelf[part], place);
  auto text = edit.text(out);
  if (!text) return {};
  SourceSet again;
  again.files.emplace_back(sources.files.front().path(), *text);
  Diagnostics wrong;
  const LinkedShelf after = link_shelf(read_entries(again, {}, wrong, Language::shelf), kb, wrong);
  // A part that is known by what was seen on it alone can be something else in another slot.
  const auto part = misplaced(shelf, after, ends);
  if (!part && !wrong.has_errors()) return text;
  Diagnostic refusal;
  refusal.code = Code::fixed_table;
  refusal.place = part ? shelf.entries[shelf[*part].entry].place : Span{};
  if (!part) refusal.path = sources.files.front().path();
  refusal.message = "with these moves written down the shelf would say something else of its parts";
  refusal.help = "say with run, mould or accessory what the part is, or write the moves down by hand";
  out.report(std::move(refusal));
  return {};
}

} // namespace coeval
