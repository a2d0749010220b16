#include "entries/read.hpp"

#include <algorithm>
#include <memory>
#include <vector>

#include "entries/csv_tables.hpp"
#include "entries/toml_tables.hpp"
#include "threads/share_out.hpp"

namespace coeval {

namespace {

// What one thread has read. The entries of all its files lie in one list: many small ones would leave holes in memory.
struct Share {
  std::shared_ptr<ValueStore> store = std::make_shared<ValueStore>();
  std::vector<Entry> entries;
  TomlTree tree; // of the file that it reads
};

struct FileResult {
  const Share* share = nullptr; // null where the file was left out
  std::size_t begin = 0;        // its entries in that share
  std::size_t end = 0;
  Diagnostics diagnostics;
};

} // namespace

EntrySet read_entries(const SourceSet& sources, std::span<const FileIndex> skip, Diagnostics& out, Language language) {
  std::vector<FileResult> results(sources.files.size());
  constexpr std::size_t worth_a_thread = 4; // files
  std::vector<Share> shares(threads_worth(results.size(), worth_a_thread));
  share_among(shares.size(), results.size(), [&](std::size_t i, std::size_t thread) {
    const FileIndex file{static_cast<std::uint32_t>(i)};
    if (std::ranges::binary_search(skip, file)) return;
    Share& share = shares[thread];
    FileResult& result = results[i];
    const bool table = language == Language::shelf && is_csv_path(sources[file].path());
    const std::vector<Entry> read =
        table ? read_csv_file(sources, file, *share.store, result.diagnostics)
              : read_file(sources, file, language, share.tree, *share.store, result.diagnostics);
    result.share = &share;
    result.begin = share.entries.size();
    share.entries.insert(share.entries.end(), read.begin(), read.end());
    result.end = share.entries.size();
  });
  EntrySet all;
  std::size_t count = 0;
  for (const Share& share : shares) {
    all.stores.push_back(share.store);
    count += share.entries.size();
  }
  all.entries.reserve(count);
  for (FileResult& result : results) {
    const auto first = static_cast<std::uint32_t>(all.entries.size());
    for (std::size_t i = result.begin; i < result.end; ++i) {
      Entry& entry = all.entries.emplace_back(result.share->entries[i]);
      if (entry.parent != no_entry) entry.parent = EntryIndex{static_cast<std::uint32_t>(entry.parent) + first};
    }
    out.merge(std::move(result.diagnostics));
  }
  return all;
}

} // namespace coeval
