#include "pages/issue_facts.hpp"

#include <algorithm>

#include "links/readings.hpp"
#include "pages/paths.hpp"

namespace coeval {

Text markets_of(const LinkedKb& kb, const Issue& issue) {
  std::vector<Piece> pieces;
  if (const auto* markets = kb.entries[issue.entry].get<Words>("market"))
    for (const Word& market : *markets)
      pieces.push_back({country_words(market.text), path_of_market(market.text), false});
  return enumerated(pieces);
}

Text packer_of(const LinkedKb& kb, const Issue& issue) {
  if (!issue.packer) return {};
  return {link_to(kb, kb.plants[at(*issue.packer)].entry)};
}

Text cards_of(const LinkedKb& kb, const Issue& issue) {
  std::vector<Piece> pieces;
  for (const CardIndex card : issue.cards) pieces.push_back(link_to(kb, kb.cards[at(card)].entry));
  return enumerated(pieces);
}

Text marks_of(const LinkedKb& kb, TimeSpanIndex span) {
  std::vector<Piece> pieces;
  for (const CarriedMark& carried : kb.spans[at(span)].marks) {
    const Mark& mark = kb.marks[at(carried.mark)];
    Piece piece = link_to(kb, mark.entry);
    if (carried.reading) piece.text += ": " + reading_text(*mark.reading, *carried.reading);
    pieces.push_back(std::move(piece));
  }
  return enumerated(pieces);
}

std::vector<Taken> taken_by(const Issue& issue) {
  std::vector<Taken> all;
  for (const Takes& takes : issue.takes) {
    const auto found = std::ranges::find(all, takes.accessory, &Taken::accessory);
    if (found == all.end())
      all.push_back({takes.accessory, {&takes}});
    else
      found->by.push_back(&takes);
  }
  return all;
}

std::string slots_of(const Taken& taken) {
  std::string slots;
  for (const Takes* takes : taken.by)
    if (slots.find(takes->slot) == std::string::npos) slots += (slots.empty() ? "" : " and ") + takes->slot;
  return slots;
}

} // namespace coeval
