// pages/spans.hpp: how is something that lasts told: when, beside what, and what is dated by it?
//
// Private to this room: shared by the pages of periods, cards, plants, routes and marks and by the lists of them.
#pragma once

#include "pages/tell.hpp"

namespace coeval {

// Both ends with how each is known, and a drawing of the span above `others`.
void add_when(const Site& site, EntryIndex entry, std::vector<TimelineRow> others, Page& page);
// What it followed, what holds all of it, and what followed it.
void add_succession(const Site& site, EntryIndex entry, Facts& facts);
// The statements of other entries that are dated by it; nothing where there are none.
void add_dated_by_it(const Site& site, EntryIndex entry, Page& page);
// Everything that entries state about features of it.
void add_looks(const Site& site, EntryIndex entry, Page& page);

// How far a mark dates what carries it, in a few words: "nothing with it is older than 1988-05-03".
[[nodiscard]] std::string reach_of(const Site& site, const Mark& mark);

// Issues as a list, grouped by figure, each with when it was packed.
[[nodiscard]] List list_of_issues(const Site& site, const std::vector<IssueIndex>& issues);
// Runs as a list, grouped by accessory, each with when it was made.
[[nodiscard]] List list_of_runs(const Site& site, const std::vector<RunIndex>& runs);
// Plants and their routes: all, or where a plant is given those that begin or end there.
[[nodiscard]] DrawingBlock draw_routes(const Site& site, EntryIndex plant = no_entry);

} // namespace coeval
