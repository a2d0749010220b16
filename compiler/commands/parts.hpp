// commands/parts.hpp: which runs does somebody mean who names a run, a mould or an accessory?
#pragma once

#include <vector>

#include "links/kb.hpp"

namespace coeval {

[[nodiscard]] std::vector<RunIndex> runs_of(const LinkedKb& kb, EntryIndex part);

} // namespace coeval
