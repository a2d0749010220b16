#include "drift/edits.hpp"

#include <algorithm>
#include <map>
#include <tuple>

namespace coeval {
namespace {

// What an entry without an address is about, so that two that say something else of it can be told as one edit.
constexpr std::array<std::string_view, 12> subject_keys{"accessory", "run",    "issue",       "of",   "this", "span",
                                                        "after",     "before", "same-day-as", "file", "from", "id"};

std::string subject_of(const Entry& entry) {
  std::string subject;
  for (const std::string_view key : subject_keys)
    if (const Field* field = entry.find(key)) subject += std::string{key} + "=" + said(field->value) + "\n";
  return subject;
}

std::string all_said(const Entry& entry) {
  std::vector<std::string> lines;
  for (const Field& field : entry.fields) lines.push_back(std::string{field.spec->name} + "=" + said(field.value));
  std::ranges::sort(lines);
  std::string all;
  for (const std::string& line : lines) all += std::to_string(line.size()) + ":" + line;
  return all;
}

// Entries without an address in the order of the text, by the entry that they stand in and their kind.
using Families = std::map<std::pair<EntryIndex, Kind>, std::vector<EntryIndex>>;

class Matcher {
public:
  Matcher(const LinkedKb& before, const LinkedKb& after) : before_(before), after_(after) {
    matches_.new_of.assign(before.entries.entries.size(), no_entry);
    matches_.old_of.assign(after.entries.entries.size(), no_entry);
  }

  EntryMatches match() {
    for (std::size_t i = 0; i < before_.entries.entries.size(); ++i) {
      const EntryIndex old_entry{static_cast<std::uint32_t>(i)};
      const std::string_view address = before_.address(old_entry);
      if (address.empty()) continue;
      const auto found = after_.addresses.find(address);
      if (found && before_.entries[old_entry].kind == after_.entries[*found].kind) join(old_entry, *found);
    }
    const Families old_families = families(before_);
    const Families new_families = families(after_);
    for (const auto& [family, old_entries] : old_families) {
      const EntryIndex parent = family.first == no_entry ? no_entry : matches_.new_of[at(family.first)];
      if (parent == no_entry) continue;
      if (const auto found = new_families.find({parent, family.second}); found != new_families.end())
        match_family(old_entries, found->second);
    }
    return std::move(matches_);
  }

private:
  static Families families(const LinkedKb& kb) {
    Families result;
    for (std::size_t i = 0; i < kb.entries.entries.size(); ++i) {
      const EntryIndex index{static_cast<std::uint32_t>(i)};
      if (kb.address(index).empty()) result[{kb.entries[index].parent, kb.entries[index].kind}].push_back(index);
    }
    return result;
  }

  void join(EntryIndex old_entry, EntryIndex new_entry) {
    matches_.new_of[at(old_entry)] = new_entry;
    matches_.old_of[at(new_entry)] = old_entry;
  }

  // First those that say the same, then those about the same, each the first that is left.
  void match_family(const std::vector<EntryIndex>& old_entries, const std::vector<EntryIndex>& new_entries) {
    for (const auto& told : {all_said, subject_of}) {
      std::multimap<std::string, EntryIndex> left; // equal keys stay in the order in which they were put in
      for (const EntryIndex entry : new_entries)
        if (matches_.old_of[at(entry)] == no_entry) left.emplace(told(after_.entries[entry]), entry);
      for (const EntryIndex entry : old_entries) {
        if (matches_.new_of[at(entry)] != no_entry) continue;
        const auto found = left.lower_bound(told(before_.entries[entry]));
        if (found == left.end() || found->first != told(before_.entries[entry])) continue;
        join(entry, found->second);
        left.erase(found);
      }
    }
  }

  const LinkedKb& before_;
  const LinkedKb& after_;
  EntryMatches matches_;
};

// Only what is shown to readers, and what parts look like.
bool table_bears(Kind kind) {
  switch (kind) {
  case Kind::maker:
  case Kind::feature:
  case Kind::feature_value:
  case Kind::source:
  case Kind::picture:
  case Kind::colour:
  case Kind::repro:
    return false;
  default:
    return true;
  }
}
bool value_bears(ValueType type) {
  switch (type) {
  case ValueType::text:
  case ValueType::number:
  case ValueType::numbers:
  case ValueType::word_list:
  case ValueType::url:
  case ValueType::country_list:
  case ValueType::country:
  case ValueType::features:
  case ValueType::file:
    return false;
  default:
    return true;
  }
}

// As written, on one line.
std::string on_one_line(std::string_view text) {
  std::string line;
  for (const char c : text) {
    const bool blank = c == ' ' || c == '\t' || c == '\n' || c == '\r';
    if (!blank)
      line += c;
    else if (!line.empty() && line.back() != ' ')
      line += ' ';
  }
  while (line.ends_with(' ')) line.pop_back();
  return line;
}

// What a whole entry says besides its id, its basis and its sources, which are told on their own.
std::string written(const Version& version, const Entry& entry) {
  std::string text;
  for (const Field& field : entry.fields) {
    const std::string_view key = field.spec->name;
    if (field.spec->type == ValueType::id || key == "basis" || key == "source" || key == "notes") continue;
    text += (text.empty() ? "" : ", ") + std::string{key} + " = " + on_one_line(version.sources.text(field.place));
  }
  return text;
}

// Of an entry that says something else than `other`: what it is about, and what differs.
std::string written_beside(const Version& version, const Entry& entry, const Entry& other) {
  std::string text;
  for (const Field& field : entry.fields) {
    const std::string_view key = field.spec->name;
    const Field* there = other.find(key);
    const bool same = there != nullptr && said(there->value) == said(field.value);
    if (same && std::ranges::find(subject_keys, key) == subject_keys.end()) continue;
    text += (text.empty() ? "" : ", ") + std::string{key} + " = " + on_one_line(version.sources.text(field.place));
  }
  return text;
}

class EditFinder {
public:
  EditFinder(const Version& before, const Version& after)
      : before_(before), after_(after), matches_(match_entries(before.kb, after.kb)) {}

  std::vector<Edit> find() {
    for (std::size_t i = 0; i < matches_.new_of.size(); ++i) {
      const EntryIndex old_entry{static_cast<std::uint32_t>(i)};
      const EntryIndex new_entry = matches_.new_of[i];
      if (new_entry == no_entry)
        whole(EditKind::removed, old_entry, no_entry);
      else if (before_.kb.address(old_entry).empty())
        compare_whole(old_entry, new_entry);
      else
        compare_keys(old_entry, new_entry);
    }
    for (std::size_t i = 0; i < matches_.old_of.size(); ++i)
      if (matches_.old_of[i] == no_entry) whole(EditKind::added, no_entry, EntryIndex{static_cast<std::uint32_t>(i)});
    std::ranges::stable_sort(edits_, [](const Edit& one, const Edit& other) {
      return std::tie(one.address, one.table) < std::tie(other.address, other.table);
    });
    return std::move(edits_);
  }

private:
  // An edit with everything but its texts.
  Edit edit(EditKind kind, EntryIndex before, EntryIndex after) const {
    const bool old = after == no_entry;
    const LinkedKb& kb = old ? before_.kb : after_.kb;
    const EntryIndex shown = old ? before : after;
    const Entry& entry = kb.entries[shown];
    Edit edit{.kind = kind, .table = entry.kind, .before = before, .after = after};
    EntryIndex named = shown;
    while (named != no_entry && kb.address(named).empty()) named = kb.entries[named].parent;
    if (named != no_entry) edit.address = kb.address(named);
    edit.place = entry.place;
    edit.bears = table_bears(entry.kind);
    if (spec_of(entry.kind).find("basis") != nullptr) edit.basis = evidence_of(kb.entries, shown).basis;
    if (spec_of(entry.kind).find("source") != nullptr) edit.citations = evidence_of(kb.entries, shown).citation_texts();
    return edit;
  }

  void whole(EditKind kind, EntryIndex before, EntryIndex after) {
    Edit made = edit(kind, before, after);
    if (before != no_entry) made.was = written(before_, before_.kb.entries[before]);
    if (after != no_entry) made.is = written(after_, after_.kb.entries[after]);
    edits_.push_back(std::move(made));
  }

  void compare_whole(EntryIndex before, EntryIndex after) {
    const Entry& old_entry = before_.kb.entries[before];
    const Entry& new_entry = after_.kb.entries[after];
    if (all_said(old_entry) == all_said(new_entry)) return;
    Edit made = edit(EditKind::edited, before, after);
    made.was = written_beside(before_, old_entry, new_entry);
    made.is = written_beside(after_, new_entry, old_entry);
    edits_.push_back(std::move(made));
  }

  void compare_keys(EntryIndex before, EntryIndex after) {
    const Entry& old_entry = before_.kb.entries[before];
    const Entry& new_entry = after_.kb.entries[after];
    for (const KeySpec& key : spec_of(new_entry.kind).keys) {
      const Field* was = old_entry.find(key.name);
      const Field* is = new_entry.find(key.name);
      if (was == nullptr && is == nullptr) continue;
      if (was != nullptr && is != nullptr && said(was->value) == said(is->value)) continue;
      Edit made = edit(was == nullptr  ? EditKind::added
                       : is == nullptr ? EditKind::removed
                                       : EditKind::edited,
                       before, after);
      made.key = key.name;
      made.bears = made.bears && value_bears(key.type);
      if (was != nullptr) made.was = on_one_line(before_.sources.text(was->place));
      if (is != nullptr) {
        made.is = on_one_line(after_.sources.text(is->place));
        made.place = is->place;
      }
      edits_.push_back(std::move(made));
    }
  }

  const Version& before_;
  const Version& after_;
  EntryMatches matches_;
  std::vector<Edit> edits_;
};

} // namespace

std::string_view name(EditKind kind) {
  return kind == EditKind::added ? "added" : kind == EditKind::removed ? "removed" : "edited";
}

EntryMatches match_entries(const LinkedKb& before, const LinkedKb& after) { return Matcher{before, after}.match(); }

std::vector<Edit> edits_between(const Version& before, const Version& after) {
  return EditFinder{before, after}.find();
}

} // namespace coeval
