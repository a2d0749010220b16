#include "pages/matrices.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "pages/paths.hpp"

namespace coeval {

std::vector<RunIndex> runs_of(const LinkedKb& kb, AccessoryIndex accessory) {
  std::vector<RunIndex> runs;
  for (const MouldIndex mould : kb.accessories[at(accessory)].moulds)
    runs.insert(runs.end(), kb.moulds[at(mould)].runs.begin(), kb.moulds[at(mould)].runs.end());
  return runs;
}

std::vector<Table> verdict_matrices(const Site& site, Judge& judge, AccessoryIndex accessory,
                                    std::span<const IssueIndex> issues, std::size_t most_columns) {
  const LinkedKb& kb = site.kb();
  const std::vector<RunIndex> runs = runs_of(kb, accessory);
  const std::string& name = kb.accessories[at(accessory)].name;
  std::vector<Table> tables;
  if (runs.empty() || issues.empty()) return tables;
  for (const IssueIndex issue : issues) {
    judge.distances().keep(start_of(kb.issues[at(issue)].span));
    judge.distances().keep(end_of(kb.issues[at(issue)].span));
  }
  const std::size_t parts = (runs.size() + most_columns - 1) / most_columns;
  for (std::size_t part = 0; part < parts; ++part) {
    const std::size_t first = part * runs.size() / parts;
    const std::size_t last = (part + 1) * runs.size() / parts;
    Table& table = tables.emplace_back();
    table.kind = Table::Kind::matrix;
    table.caption = parts == 1
                        ? name + ": issues against runs"
                        : fmt::format("{}: issues against runs {} to {} of {}", name, first + 1, last, runs.size());
    table.columns.push_back({.text = {plain("Issue")}});
    for (std::size_t i = first; i < last; ++i) {
      const EntryIndex entry = kb.runs[at(runs[i])].entry;
      table.columns.push_back(
          {.text = {{run_name_of(kb, runs[i]), path_of(kb, entry), false}}, .lab = lab_of(site, entry)});
    }
    for (const IssueIndex issue : issues) {
      const EntryIndex entry = kb.issues[at(issue)].entry;
      std::vector<Cell> row{{.text = {full_link_to(kb, entry)}}};
      const std::string path = path_of(kb, entry);
      for (std::size_t i = first; i < last; ++i) {
        const Verdict verdict = judge.judge(runs[i], issue, false).verdict;
        row.push_back({.text = {{std::string{coeval::name(verdict)}, path + "#" + verdict_anchor(kb, runs[i]), false}},
                       .verdict = verdict});
      }
      table.rows.push_back(std::move(row));
    }
  }
  return tables;
}

} // namespace coeval
