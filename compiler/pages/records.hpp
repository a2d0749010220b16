// pages/records.hpp: which statements are on record about an entry, beside its own table?
//
// Private to this room.
#pragma once

#include "pages/tell.hpp"

namespace coeval {

// "observed; Sealed examples 2019, no. 4 (saltmere/figures/keeper-maren.toml:31)".
[[nodiscard]] Text backing(const Site& site, EntryIndex entry);
// A statement of an entry as an item of a list: what it says, then its backing.
[[nodiscard]] List::Item recorded(const Site& site, EntryIndex entry);

// Adds what is on record about a run or an issue: pairings, attested and refuted, with their notes.
void add_pairings(const Site& site, EntryIndex run_or_issue, Page& page);
// Adds what collectors repeat about any of these entries, runs, issues and moulds, and how each claim stands.
void add_claims(const Site& site, const std::vector<EntryIndex>& about, Page& page);
// Adds the statements of these entries that are disputed and left out of every conclusion.
void add_disputed(const Site& site, const std::vector<EntryIndex>& of, Page& page);

} // namespace coeval
