// commands/shelf_change.hpp: how does a changed shelf get back into its file?
#pragma once

#include "commands/shelf_session.hpp"

namespace coeval {

// Puts the text into the file that the session has read, whole or not at all, where that still says what was read. No
// text: it could not be made, and `out` says why. Nothing where that is done, else the exit code, and the user is told.
[[nodiscard]] std::optional<int> change_shelf(const ShelfSession& session, const ShelfSettings& shelf,
                                              const std::optional<std::string>& text, Diagnostics out);

} // namespace coeval
