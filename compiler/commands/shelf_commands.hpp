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

struct ChecklistSettings {
  ShelfSettings shelf;
  std::vector<std::string> figures; // ids; empty: all
  bool slots = false;               // slot by slot
};

int run_checklist(const Settings& settings, const ChecklistSettings& checklist);

struct WantsSettings {
  ShelfSettings shelf;
  bool all = false; // nothing is cut
};

// exit_no where something is wanted.
int run_wants(const Settings& settings, const WantsSettings& wants);

struct SwapSettings {
  ShelfSettings shelf;
  std::vector<std::string> keep; // ids of pieces
  std::string only_slot;
  bool with_parcels = false;
  bool apply = false; // write down where the parts are then
};

// exit_no where there is something to move and the shelf was not changed.
int run_swap(const Settings& settings, const SwapSettings& swap);

struct LedgerSettings {
  ShelfSettings shelf;
  bool every_amount = false;
};
// exit_no where a rate is missing.
int run_ledger(const Settings& settings, const LedgerSettings& ledger);

struct CeilingSettings {
  ShelfSettings shelf;
  std::string fees;   // an id
  std::string budget; // "250.00 GBP", or the id of a want with a limit
};
// exit_no where no bid is within the budget.
int run_ceiling(const Settings& settings, const CeilingSettings& ceiling);

struct ComparablesSettings {
  ShelfSettings shelf;
  std::string of; // an address of the knowledge base
};
// exit_open where there is no sale.
int run_comparables(const Settings& settings, const ComparablesSettings& comparables);

struct ShelfPagesSettings {
  ShelfSettings shelf;
  std::string to;        // the folder
  std::string reference; // address of the published reference, as given; empty: no links to it
  std::string templates; // a folder; empty: the built-in template
  std::string on;        // a day; empty: today
};
// A folder holds a published site or a private shelf, never both: each has a file by which the other knows it.
inline constexpr std::string_view published_site_file = "edition.txt";
inline constexpr std::string_view private_shelf_file = "private.txt";
int run_shelf_pages(const Settings& settings, const ShelfPagesSettings& pages);

struct ParcelSettings {
  ShelfSettings shelf;
  std::string purchase;           // an id
  std::string state;              // offered, bid, won, paid, sent or arrived; empty: as it is
  std::string on;                 // a day; empty: today
  std::vector<std::string> found; // faults
  std::vector<std::string> of;    // ids of pieces and parts that came with it; empty: all
  bool examined = false;
};
// Changes the file of the shelf.
int run_parcel(const Settings& settings, const ParcelSettings& parcel);

struct ConvertSettings {
  std::string from;
  std::string to;
  bool replace = false;
};
// Needs no knowledge base.
int run_convert(const Settings& settings, const ConvertSettings& convert);

} // namespace coeval
