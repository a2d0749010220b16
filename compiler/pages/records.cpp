#include "pages/records.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace coeval {
namespace {

constexpr std::string_view standing_words(ClaimStanding standing) {
  return standing == ClaimStanding::supported ? "supported" : standing == ClaimStanding::open ? "open" : "refuted";
}

// The first paragraph of an entry's notes, behind what is said of it.
void add_note(const LinkedKb& kb, EntryIndex entry, Text& note) {
  const Paragraphs notes = paragraphs(kb.entries[entry].text("notes"));
  for (const Text& paragraph : notes.texts) {
    if (!note.empty()) note.push_back(plain(". "));
    append(note, paragraph);
  }
}

} // namespace

Text backing(const Site& site, EntryIndex entry) {
  const EvidenceView evidence = tell_evidence(site, evidence_of(site.kb().entries, entry));
  Text text{plain(std::string{name(evidence.basis)})};
  if (evidence.disputed) text.push_back(plain(", disputed"));
  for (std::size_t i = 0; i < evidence.sources.size(); ++i) {
    text.push_back(plain(i == 0 ? ": " : "; "));
    append(text, evidence.sources[i]);
  }
  if (!evidence.place.text.empty()) {
    text.push_back(plain(" ("));
    text.push_back(evidence.place);
    text.push_back(plain(")"));
  }
  return text;
}

List::Item recorded(const Site& site, EntryIndex entry) {
  List::Item item{statement_of(site, entry), backing(site, entry)};
  add_note(site.kb(), entry, item.note);
  return item;
}

void add_pairings(const Site& site, EntryIndex run_or_issue, Page& page) {
  const auto found = site.backlinks().paired.find(run_or_issue);
  if (found == site.backlinks().paired.end()) return;
  List::Group attested{"Found together", {}, {}};
  List::Group refuted{"Examined and found not to belong together", {}, {}};
  for (const EntryIndex entry : found->second) {
    const auto pairing = site.backlinks().pairing.find(entry);
    const bool no = pairing != site.backlinks().pairing.end() && pairing->second->refuted;
    (no ? refuted : attested).items.push_back(recorded(site, entry));
  }
  List list;
  for (List::Group* group : {&attested, &refuted})
    if (!group->items.empty()) list.groups.push_back(std::move(*group));
  add_section(page, "more", "Pairings on record", {std::move(list)});
}

void add_claims(const Site& site, const std::vector<EntryIndex>& about, Page& page) {
  const LinkedKb& kb = site.kb();
  std::vector<ClaimIndex> claims;
  for (const EntryIndex entry : about) {
    if (const auto found = site.backlinks().claimed.find(entry); found != site.backlinks().claimed.end())
      for (const auto& [claim, where] : found->second) claims.push_back(claim);
    const auto span = site.backlinks().span[at(entry)];
    if (!span) continue;
    for (const EntryIndex dating : site.backlinks().dating[at(*span)])
      if (kb.entries[dating].kind == Kind::claimed_timing)
        claims.push_back(ClaimIndex{kb.position[at(kb.entries[dating].parent)]});
  }
  std::ranges::sort(claims);
  claims.erase(std::unique(claims.begin(), claims.end()), claims.end());
  List::Group group;
  for (const ClaimIndex claim : claims) {
    const EntryIndex entry = kb.claims[at(claim)].entry;
    Piece says = link_to(kb, entry);
    says.text = kb.entries[entry].text("says");
    group.items.push_back({{std::move(says)}, {plain(std::string{standing_words(kb.claims[at(claim)].standing)})}});
  }
  if (group.items.empty()) return;
  add_section(page, "more", "What collectors repeat", {List{{std::move(group)}}});
}

void add_disputed(const Site& site, const std::vector<EntryIndex>& of, Page& page) {
  List::Group group;
  for (const EntryIndex entry : of)
    for (const EntryIndex child : site.backlinks().children[at(entry)])
      if (site.kb().entries[child].flag("disputed")) group.items.push_back(recorded(site, child));
  if (group.items.empty()) return;
  add_section(page, "more", "Disputed, and left out of every conclusion", {List{{std::move(group)}}});
}

} // namespace coeval
