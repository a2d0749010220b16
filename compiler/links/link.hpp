// links/link.hpp: does everything that entries refer to exist?
//
// Resolves every address, once. An address in a file is looked up first among the entry's own family (a mould of the
// same accessory by its bare id), then as a full address, then, where a key takes one kind only, as the bare id of that
// kind.
#pragma once

#include "diagnose/diagnostic.hpp"
#include "links/kb.hpp"

namespace coeval {

// `complete` says that every file was read; where it is false, an unknown address may stand in a file that was not, and
// is not reported.
[[nodiscard]] LinkedKb link_entries(EntrySet entries, bool complete, Diagnostics& out);

} // namespace coeval
