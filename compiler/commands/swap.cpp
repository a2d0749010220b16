#include <fmt/format.h>

#include "commands/shelf_change.hpp"
#include "commands/shelf_commands.hpp"
#include "diagnose/near.hpp"
#include "report/shelf_swap.hpp"
#include "shelf/apply_swap.hpp"

namespace coeval {
namespace {

// Whether some issue on the shelf has a slot of that name; where none has, standard error says so.
bool has_slot(const LinkedKb& kb, const LinkedShelf& shelf, const std::string& slot) {
  std::set<std::string_view> names;
  for (const OwnedPiece& piece : shelf.pieces)
    if (piece.issue)
      for (const Takes& takes : kb.issues[at(*piece.issue)].takes) names.insert(takes.slot);
  if (names.contains(slot)) return true;
  const std::vector<std::string_view> list(names.begin(), names.end());
  print_error(fmt::format("coeval: no piece on the shelf has a slot `{}`; {}\n", printable(slot),
                          list.empty() ? "none has any" : "there are " + list_names(list, "and")));
  return false;
}

} // namespace

int run_swap(const Settings& settings, const SwapSettings& swap) {
  if (swap.apply && swap.with_parcels) {
    print_error("coeval: what has not arrived cannot be moved; say --apply or --with-parcels\n");
    return exit_usage;
  }
  const ShelfSession session{settings, swap.shelf};
  if (session.exit) return *session.exit;
  SwapWishes wishes;
  wishes.with_parcels = swap.with_parcels;
  bool understood = true;
  for (const std::string& id : swap.keep) {
    const auto piece = session.find_piece(id);
    if (piece) wishes.keep.insert(*piece);
    understood = understood && piece;
  }
  if (!swap.only_slot.empty()) {
    understood = has_slot(session.kb(), session.shelf(), swap.only_slot) && understood;
    wishes.only_slot = swap.only_slot;
  }
  if (!understood) return exit_usage;
  PartJudge judge{session.kb(), session.dates(), session.shelf(), settings.weakest};
  const ShelfSwap plan = plan_swap(session.kb(), session.shelf(), judge, wishes);
  const bool apply = swap.apply && !plan.moves.empty();
  if (apply) {
    Diagnostics out;
    const auto text = apply_swap(session.kb(), session.sources(), session.shelf(), plan, out);
    if (const auto failed = change_shelf(session, swap.shelf, text, out)) return *failed;
  }
  const ReportInput report = session.session().report();
  const std::string written_to = apply ? swap.shelf.file : "";
  print(settings.format == Format::json ? swap_json(report, session.shelf(), plan, written_to)
                                        : swap_text(report, session.shelf(), plan, written_to, settings.out));
  return plan.moves.empty() || apply ? exit_yes : exit_no;
}

} // namespace coeval
