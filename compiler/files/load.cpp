#include "files/load.hpp"

#include <algorithm>
#include <optional>
#include <system_error>
#include <utility>

#include <fmt/format.h>

#include "files/find.hpp"
#include "files/gather.hpp"
#include "files/open_file.hpp"
#include "threads/share_out.hpp"

namespace coeval {
namespace {

struct Job {
  const std::string* relative;
  const std::string* path;
  std::optional<SourceFile> file;
  std::optional<std::size_t> bad_byte;
  Diagnostics out;
};

void read(Job& job, std::size_t most) {
  OpenFile::Content content = OpenFile{*job.path}.read(most);
  if (content.error != 0) {
    job.out.report(about(Code::unreadable_file, *job.relative,
                         fmt::format("this file could not be read: {}", failure_words(content.error)),
                         "allow reading it, or move it out of the knowledge base"));
  } else if (content.text.size() > most) {
    job.out.report(too_large_to_read(*job.relative, most));
  } else {
    job.file.emplace(*job.relative, std::move(content.text));
    job.bad_byte = first_bad_byte(job.file->text());
  }
}

} // namespace

LoadResult load_sources(const std::filesystem::path& root, Diagnostics& out, const LoadLimits& limits) {
  LoadResult result;
  result.sources.root = root.native();
  FoundFiles found = find_files(root, limits.files, out);
  if (found.entries.empty() && found.complete) out.report(nothing_to_read(result.sources.root));
  result.sources.assets = std::move(found.assets);
  result.sources.files.reserve(found.entries.size());

  std::vector<Job> jobs;
  jobs.reserve(found.entries.size());
  for (const auto& [relative, path] : found.entries) jobs.push_back({&relative, &path, {}, {}, {}});
  // Spans are 32 bits wide.
  const std::size_t most = std::min<std::size_t>(limits.file_bytes, 0xfffffffeU);
  constexpr std::size_t worth_a_thread = 8; // files
  const std::size_t threads = limits.threads != 0 ? limits.threads : threads_worth(jobs.size(), worth_a_thread);
  share_among(threads, jobs.size(), [&](std::size_t i, std::size_t) { read(jobs[i], most); });

  for (Job& job : jobs) {
    out.merge(std::move(job.out));
    if (job.file) gather(result, std::move(*job.file), job.bad_byte, out);
  }
  return result;
}

std::optional<SourceSet> load_file(const std::filesystem::path& path, Diagnostics& out, std::size_t most) {
  const std::string name = path.filename().native();
  // A link is followed here: whoever names a file means what it leads to.
  std::error_code unresolved;
  std::filesystem::path real = std::filesystem::canonical(path, unresolved);
  OpenFile::Content content;
  if (unresolved)
    content.error = unresolved.value();
  else
    content = OpenFile{real.native()}.read(most);
  if (content.error != 0) {
    out.report(about(Code::unreadable_file, path.native(),
                     fmt::format("this file could not be read: {}", failure_words(content.error)),
                     "give the path of a file that can be read"));
    return {};
  }
  if (content.text.size() > most) {
    out.report(about(Code::file_too_large, path.native(),
                     fmt::format("this file is larger than {}, so it was not read", size_words(most)),
                     "keep what is old in a file of its own"));
    return {};
  }
  SourceSet set;
  set.root = path.parent_path().native();
  set.files.emplace_back(name, std::move(content.text));
  if (const auto bad = first_bad_byte(set.files.front().text()))
    out.report(broken_text(set.files.front(), FileIndex{0}, *bad));
  return set;
}

} // namespace coeval
