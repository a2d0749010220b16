#include "entries/read.hpp"

#include <algorithm>
#include <atomic>
#include <thread>

#include "entries/csv_tables.hpp"
#include "entries/toml_tables.hpp"

namespace coeval {

EntrySet read_entries(const SourceSet& sources, std::span<const FileIndex> skip, Diagnostics& out, Language language) {
  struct FileResult {
    std::vector<Entry> entries;
    Diagnostics diagnostics;
  };
  std::vector<FileResult> results(sources.files.size());
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    for (std::size_t i = next++; i < results.size(); i = next++) {
      const FileIndex file{static_cast<std::uint32_t>(i)};
      if (std::ranges::binary_search(skip, file)) continue;
      const bool table = language == Language::shelf && is_csv_path(sources[file].path());
      results[i].entries = table ? read_csv_file(sources, file, results[i].diagnostics)
                                 : read_file(sources, file, language, results[i].diagnostics);
    }
  };
  {
    std::vector<std::jthread> workers;
    const std::size_t count =
        std::min<std::size_t>(std::max(1U, std::thread::hardware_concurrency()), results.size() / 4);
    for (std::size_t i = 1; i < count; ++i) workers.emplace_back(work);
    work();
  }
  EntrySet all;
  std::size_t count = 0;
  for (const FileResult& result : results) count += result.entries.size();
  all.entries.reserve(count);
  for (FileResult& result : results) {
    const auto first = static_cast<std::uint32_t>(all.entries.size());
    for (Entry& entry : result.entries) {
      if (entry.parent != no_entry) entry.parent = EntryIndex{static_cast<std::uint32_t>(entry.parent) + first};
      all.entries.push_back(std::move(entry));
    }
    out.merge(std::move(result.diagnostics));
    result = {}; // what is handed on is not held twice
  }
  return all;
}

} // namespace coeval
