#include "drift/mixture.hpp"

#include <algorithm>

#include "links/link.hpp"

namespace coeval {
namespace {

void make_edit(Entry& entry, const Edit& edit, const Entry& edited, ValueStore& store) {
  if (edit.key.empty()) { // as a whole
    const EntryIndex parent = entry.parent;
    entry = edited;
    entry.parent = parent;
    return;
  }
  std::vector<Field> fields{entry.fields.begin(), entry.fields.end()};
  std::erase_if(fields, [&](const Field& field) { return field.spec->name == edit.key; });
  if (const Field* field = edited.find(edit.key)) fields.push_back(*field);
  entry.fields = store.keep(fields);
}

} // namespace

Mixer::Mixer(const LinkedKb& before, const LinkedKb& after, const std::vector<Edit>& edits)
    : before_(before), after_(after), edits_(edits), matches_(match_entries(before, after)) {}

EntrySet Mixer::entries(std::span<const EditIndex> made) const {
  std::vector<std::vector<const Edit*>> of_old(matches_.new_of.size());
  std::vector<EntryIndex> added;
  for (const EditIndex index : made) {
    const Edit& edit = edits_[static_cast<std::size_t>(index)];
    if (edit.before == no_entry)
      added.push_back(edit.after);
    else
      of_old[at(edit.before)].push_back(&edit);
  }
  std::ranges::sort(added); // a parent before its children

  EntrySet mixed;
  const auto store = std::make_shared<ValueStore>();
  mixed.stores = before_.entries.stores;
  mixed.stores.insert(mixed.stores.end(), after_.entries.stores.begin(), after_.entries.stores.end());
  mixed.stores.push_back(store);
  std::vector<EntryIndex> place_of_old(matches_.new_of.size(), no_entry);
  std::vector<EntryIndex> place_of_new(matches_.old_of.size(), no_entry);
  const auto put = [&](Entry entry, EntryIndex parent, EntryIndex& place) {
    entry.parent = parent;
    place = EntryIndex{static_cast<std::uint32_t>(mixed.entries.size())};
    mixed.entries.push_back(std::move(entry));
  };
  for (std::size_t i = 0; i < place_of_old.size(); ++i) {
    const Entry& old_entry = before_.entries.entries[i];
    const auto& edits = of_old[i];
    if (std::ranges::any_of(edits, [](const Edit* edit) { return edit->after == no_entry; })) continue;
    const EntryIndex parent = old_entry.parent == no_entry ? no_entry : place_of_old[at(old_entry.parent)];
    if (old_entry.parent != no_entry && parent == no_entry) continue;
    Entry entry = old_entry;
    for (const Edit* edit : edits) make_edit(entry, *edit, after_.entries[edit->after], *store);
    put(std::move(entry), parent, place_of_old[i]);
    if (matches_.new_of[i] != no_entry) place_of_new[at(matches_.new_of[i])] = place_of_old[i];
  }
  for (const EntryIndex index : added) {
    const Entry& new_entry = after_.entries[index];
    const EntryIndex parent = new_entry.parent == no_entry ? no_entry : place_of_new[at(new_entry.parent)];
    if (new_entry.parent != no_entry && parent == no_entry) continue;
    put(new_entry, parent, place_of_new[at(index)]);
  }
  return mixed;
}

Mixture Mixer::mix(std::span<const EditIndex> made) const {
  Diagnostics unheard; // of names that lead nowhere in the mixture
  Mixture mixture;
  mixture.kb = std::make_unique<const LinkedKb>(link_entries(entries(made), false, unheard));
  auto dates = std::make_unique<const Chronology>(solve_chronology(*mixture.kb));
  if (dates->contradictions().empty()) mixture.dates = std::move(dates);
  return mixture;
}

} // namespace coeval
