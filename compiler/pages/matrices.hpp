// pages/matrices.hpp: how do the issues of an accessory stand to its runs, all at once?
//
// Private to this room.
#pragma once

#include <span>

#include "pages/tell.hpp"

namespace coeval {

// Issues as rows, runs of the accessory as columns, mould by mould; every sign leads to its proof on the page of the
// issue. Where there are more than `most_columns` runs, several tables of about the same width. Issues that do not take
// the accessory must not be among `issues`: their pages have no proof to lead to.
[[nodiscard]] std::vector<Table> verdict_matrices(const Site& site, Judge& judge, AccessoryIndex accessory,
                                                  std::span<const IssueIndex> issues, std::size_t most_columns);

// The runs of an accessory, mould by mould.
[[nodiscard]] std::vector<RunIndex> runs_of(const LinkedKb& kb, AccessoryIndex accessory);

} // namespace coeval
