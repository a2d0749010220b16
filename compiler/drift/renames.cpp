// An entry that is gone under one id and there again under another. Only what says exactly the same, but for its id,
// and is alone in that, is guessed to be renamed.
#include <algorithm>
#include <map>

#include "drift/drift.hpp"

namespace coeval {
namespace {

// Everything but the id; empty where there is nothing else.
std::string said_besides_id(const Entry& entry) {
  std::vector<std::string> lines;
  for (const Field& field : entry.fields)
    if (field.spec->type != ValueType::id) lines.push_back(std::string{field.spec->name} + "=" + said(field.value));
  std::ranges::sort(lines);
  std::string all;
  for (const std::string& line : lines) all += std::to_string(line.size()) + ":" + line;
  return all;
}

struct Twins {
  std::vector<EntryIndex> before;
  std::vector<EntryIndex> after;
};

} // namespace

std::vector<Rename> guess_renames(const Version& before, const Version& after, const std::vector<Edit>& edits) {
  std::map<std::pair<Kind, std::string>, Twins> alike;
  for (const Edit& edit : edits) {
    if (!edit.key.empty()) continue;
    const bool old = edit.kind == EditKind::removed;
    const LinkedKb& kb = old ? before.kb : after.kb;
    const EntryIndex entry = old ? edit.before : edit.after;
    if (edit.kind == EditKind::edited || kb.address(entry).empty()) continue;
    const std::string all = said_besides_id(kb.entries[entry]);
    if (all.empty()) continue;
    Twins& twins = alike[{edit.table, all}];
    (old ? twins.before : twins.after).push_back(entry);
  }
  std::vector<Rename> renames;
  for (const auto& [key, twins] : alike)
    if (twins.before.size() == 1 && twins.after.size() == 1)
      renames.push_back({key.first, std::string{before.kb.address(twins.before.front())},
                         std::string{after.kb.address(twins.after.front())}});
  std::ranges::sort(renames, {}, &Rename::from);
  return renames;
}

} // namespace coeval
