// What does one collector own, what is to be done about it, and what has it cost?
#include "commands/shelf_commands.hpp"
#include "cli/command_line.hpp"

namespace coeval {
namespace {

void add_shelf(CLI::App& command, ShelfSettings& shelf) {
  command.add_option("--shelf", shelf.file, "your shelf; shelf.toml in this folder unless said")->type_name("FILE");
}

} // namespace

void add_shelf_commands(CommandLine& line) {
  const auto [audit, asked] =
      line.add_with<AuditSettings>("audit", "what you own: right, wrong, missing, and what waits for you", run_audit);
  audit.add_option("PIECE", asked.pieces, "ids of pieces, told slot by slot; all pieces without it");
  add_shelf(audit, asked.shelf);
  audit.add_flag("--all", asked.all, "everything, however long");
  audit.add_option("--on", asked.on, "count how long parcels are on their way up to this day; today without it")
      ->type_name("DAY");

  const auto [swap, wished] =
      line.add_with<SwapSettings>("swap", "the best use of the parts you own, as moves from piece to piece", run_swap);
  add_shelf(swap, wished.shelf);
  swap.add_option("--keep", wished.keep, "pieces whose parts stay with them")->type_name("PIECE");
  swap.add_option("--only", wished.only_slot, "change only slots of this name: hand, head …")->type_name("SLOT");
  swap.add_flag("--with-parcels", wished.with_parcels, "as if every parcel on its way had arrived");
  swap.add_flag("--apply", wished.apply, "write into the shelf where the parts are then; comments and order stay");

  const auto [ledger, kept] =
      line.add_with<LedgerSettings>("ledger", "what the shelf has cost, to the smallest coin", run_ledger);
  add_shelf(ledger, kept.shelf);
  ledger.add_flag("--every-amount", kept.every_amount, "list every amount too");

  const auto [ceiling, limited] =
      line.add_with<CeilingSettings>("ceiling", "the highest bid that stays within a budget, all told", run_ceiling);
  add_shelf(ceiling, limited.shelf);
  ceiling.add_option("FEES", limited.fees, "the id of [[fees]] on the shelf")->required();
  ceiling.add_option("BUDGET", limited.budget, "an amount: \"250.00 GBP\"; or the id of a want with a limit")
      ->required();

  const auto [comparables, sold] = line.add_with<ComparablesSettings>(
      "comparables", "what others paid for the same, and how few they are", run_comparables);
  add_shelf(comparables, sold.shelf);
  comparables.add_option("OF", sold.of, "an issue, figure, run, mould or accessory")->required();

  const auto [wants, sought] =
      line.add_with<WantsSettings>("wants", "what is missing after the best swap, and which runs would do", run_wants);
  add_shelf(wants, sought.shelf);
  wants.add_flag("--all", sought.all, "everything, however long");

  const auto [checklist, counted] =
      line.add_with<ChecklistSettings>("checklist", "every issue: owned or not, complete or not", run_checklist);
  checklist.add_option("FIGURE", counted.figures, "ids of figures; all figures without it");
  add_shelf(checklist, counted.shelf);
  checklist.add_flag("--slots", counted.slots, "slot by slot");

  const auto [pages, shown] = line.add_with<ShelfPagesSettings>(
      "shelf", "write your shelf as private pages: audit, swap, wants, checklist, ledger", run_shelf_pages);
  add_shelf(pages, shown.shelf);
  pages.add_option("--to", shown.to, "the folder; made where it is missing, readable by you alone")
      ->type_name("DIR")
      ->required();
  pages.add_option("--reference", shown.reference, "where the reference is published, to link to it")->type_name("URL");
  pages.add_option("--on", shown.on, "count up to this day; today without it")->type_name("DAY");
  pages.add_option("--template", shown.templates, "a template of your own, like the folder site-template")
      ->type_name("DIR");

  const auto [parcel, noted] = line.add_with<ParcelSettings>(
      "parcel", "note in the shelf how far a parcel has come, and what was found", run_parcel);
  add_shelf(parcel, noted.shelf);
  parcel.add_option("PURCHASE", noted.purchase, "the id of a purchase on the shelf")->required();
  parcel.add_option("STATE", noted.state, "offered, bid, won, paid, sent or arrived")
      ->check(one_of({"offered", "bid", "won", "paid", "sent", "arrived"}));
  parcel.add_option("--on", noted.on, "the day; today without it")->type_name("DAY");
  parcel.add_option("--found", noted.found, "a fault found on arrival, in one line; again for each")
      ->type_name("FAULT")
      ->allow_extra_args(false);
  parcel.add_option("--of", noted.of, "which of the things that came with it; all without it")
      ->type_name("ID")
      ->allow_extra_args(false);
  parcel.add_flag("--examined", noted.examined, "it was examined on that day");

  const auto [convert, files] =
      line.add_with<ConvertSettings>("convert", "a shelf as a table for spreadsheets, or back", run_convert);
  convert.add_option("FROM", files.from, "FILE.toml or FILE.csv")->required();
  convert.add_option("TO", files.to, "the other of the two; nothing may be there yet")->required();
  convert.add_flag("--replace", files.replace, "write over what is there");
}

} // namespace coeval
