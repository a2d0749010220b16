#include <algorithm>

#include <fmt/format.h>

#include "commands/days.hpp"
#include "commands/shelf_change.hpp"
#include "commands/shelf_commands.hpp"
#include "diagnose/near.hpp"
#include "report/shelf_changes.hpp"
#include "shelf/edit.hpp"

namespace coeval {
namespace {

// What came with the purchase, pieces first.
std::vector<EntryIndex> things_of(const LinkedShelf& shelf, const Purchase& purchase) {
  std::vector<EntryIndex> things;
  for (const PieceIndex piece : purchase.pieces) things.push_back(shelf[piece].entry);
  for (const PartIndex part : purchase.parts) things.push_back(shelf[part].entry);
  return things;
}

const Purchase* find_purchase(const LinkedShelf& shelf, const std::string& id) {
  std::vector<std::string_view> ids;
  for (const Purchase& purchase : shelf.purchases) {
    if (purchase.id == id) return &purchase;
    ids.push_back(purchase.id);
  }
  const auto near = near_names(id, ids);
  print_error(fmt::format("coeval: the shelf has no purchase `{}`; {}\n", printable(id),
                          near.empty() ? "the [[purchase]] tables of its file have the ids" : did_you_mean(near)));
  return nullptr;
}

// The things that are meant: those named, else all.
std::optional<std::vector<EntryIndex>> meant(const LinkedShelf& shelf, const Purchase& purchase,
                                             const std::vector<std::string>& named) {
  const std::vector<EntryIndex> things = things_of(shelf, purchase);
  if (named.empty()) return things;
  std::vector<std::string_view> ids;
  for (const EntryIndex thing : things) ids.push_back(shelf.id(thing));
  std::vector<EntryIndex> chosen;
  for (const std::string& id : named) {
    const auto found = std::ranges::find(ids, id);
    if (found == ids.end()) {
      print_error(fmt::format("coeval: nothing called `{}` came with `{}`; {}\n", printable(id), purchase.id,
                              ids.empty() ? "no piece or part names it as its purchase"
                                          : "what came with it is " + list_names(ids, "and")));
      return {};
    }
    chosen.push_back(things[static_cast<std::size_t>(found - ids.begin())]);
  }
  return chosen;
}

// Changes of the file, each told as well.
class ParcelEdit {
public:
  explicit ParcelEdit(const ShelfSession& session)
      : shelf_(session.shelf()), edit_(session.sources(), shelf_.entries) {}

  void set(EntryIndex entry, std::string_view key, const std::string& value) {
    const std::string* now = edit_.value(entry, key);
    if (now != nullptr && *now == value) return;
    changes_.push_back({std::string{spec_of(shelf_.entries[entry].kind).name}, shelf_.id(entry), std::string{key},
                        now == nullptr ? std::string{} : *now, value});
    edit_.set(entry, key, value);
  }
  // What is listed already is not listed twice.
  void append(EntryIndex entry, std::string_view key, const std::vector<std::string>& texts) {
    const std::string* now = edit_.value(entry, key);
    std::string list = now == nullptr ? "" : *now;
    for (const std::string& text : texts)
      if (("\n" + list + "\n").find("\n" + text + "\n") == std::string::npos) list += (list.empty() ? "" : "\n") + text;
    set(entry, key, list);
  }

  [[nodiscard]] const std::vector<ShelfChange>& changes() const { return changes_; }
  [[nodiscard]] std::optional<std::string> text(Diagnostics& out) const { return edit_.text(out); }

private:
  const LinkedShelf& shelf_;
  ShelfEdit edit_;
  std::vector<ShelfChange> changes_;
};

} // namespace

int run_parcel(const Settings& settings, const ParcelSettings& typed) {
  const auto day = given_day(typed.on);
  if (!day) return exit_usage;
  if (typed.state.empty() && typed.found.empty() && !typed.examined) {
    print_error("coeval: nothing to note of the parcel; say how far it has come (offered, bid, won, paid, sent, "
                "arrived), --found or --examined\n");
    return exit_usage;
  }
  for (const std::string& fault : typed.found)
    if (fault.find_first_of("\r\n") != std::string::npos || fault.find_first_not_of(" \t") == std::string::npos ||
        first_bad_byte(fault)) {
      print_error("coeval: a fault is told in one line of text, in UTF-8\n");
      return exit_usage;
    }
  const ShelfSession session{settings, typed.shelf};
  if (session.exit) return *session.exit;
  const Purchase* purchase = find_purchase(session.shelf(), typed.purchase);
  if (purchase == nullptr) return exit_usage;
  const auto things = meant(session.shelf(), *purchase, typed.of);
  if (!things) return exit_usage;
  if (things->empty() && (typed.examined || !typed.found.empty())) {
    print_error(fmt::format("coeval: no piece or part names `{}` as its purchase, so there is nothing to look at\n",
                            purchase->id));
    return exit_usage;
  }
  if (!typed.found.empty() && things->size() > 1) {
    print_error(fmt::format("coeval: {} came with `{}`; say with --of which one has the fault\n",
                            counted(things->size(), "thing"), purchase->id));
    return exit_usage;
  }
  ParcelEdit edit{session};
  if (!typed.state.empty()) edit.set(purchase->entry, typed.state, iso(*day));
  for (const EntryIndex thing : *things) {
    if (!typed.found.empty()) edit.append(thing, "found", typed.found);
    if (typed.examined) edit.set(thing, "examined", iso(*day));
  }
  if (!edit.changes().empty()) {
    Diagnostics out;
    const auto text = edit.text(out);
    if (const auto failed = change_shelf(session, typed.shelf, text, out)) return *failed;
  }
  const ParcelReport report{purchase->id, typed.shelf.file, edit.changes()};
  print(settings.format == Format::json ? parcel_json(report) : parcel_text(report, settings.out));
  return exit_yes;
}

} // namespace coeval
