// commands/shelf_commands.hpp: what is asked about a collector's shelf?
#pragma once

#include "commands/shelf_session.hpp"

namespace coeval {

struct AuditSettings {
  ShelfSettings shelf;
  std::vector<std::string> pieces; // ids; empty: all
  bool all = false;                // nothing is cut
  std::string on;                  // a day; empty: today
};

// exit_no where something is wrong, exit_open where only questions are open.
int run_audit(const Settings& settings, const AuditSettings& audit);

struct SwapSettings {
  ShelfSettings shelf;
  std::vector<std::string> keep; // ids of pieces
  std::string only_slot;
  bool with_parcels = false;
};

// exit_no where there is something to move.
int run_swap(const Settings& settings, const SwapSettings& swap);

} // namespace coeval
