#include "edition.hpp"

#include <algorithm>
#include <atomic>
#include <mutex>
#include <thread>

#include <fmt/format.h>

#include "export/export.hpp"
#include "files/asset.hpp"
#include "html/feeds.hpp"
#include "html/one_file.hpp"
#include "html/render.hpp"
#include "pages/changes.hpp"
#include "pages/paths.hpp"
#include "pages/reader_index.hpp"
#include "pages/site.hpp"
#include "publish/hash.hpp"

namespace coeval {
namespace {

constexpr std::string_view changes_file = "CHANGES.md";
constexpr std::string_view worker_file = "service-worker.js";
constexpr std::string_view one_file = "one-file.html";

// Runs `work(i)` for every i below `count`, on several threads.
void in_parallel(std::size_t count, unsigned threads, const std::function<void(std::size_t)>& work) {
  std::atomic<std::size_t> next = 0;
  std::exception_ptr thrown;
  std::mutex guard;
  const auto run = [&] {
    try {
      for (std::size_t i = next++; i < count; i = next++) work(i);
    } catch (...) {
      const std::scoped_lock lock{guard};
      thrown = std::current_exception();
      next = count;
    }
  };
  std::vector<std::jthread> others;
  for (unsigned i = 1; i < threads; ++i) others.emplace_back(run);
  run();
  others.clear();
  if (thrown) std::rethrow_exception(thrown);
}

// The files of a site that a browser is to keep, with what tells one edition of a file from another.
class KeptFiles {
public:
  void add(std::string_view path, std::string_view bytes) {
    const ContentHash hash = hash_of(bytes);
    const std::scoped_lock lock{guard_};
    files_.emplace(path, fmt::format("{:016x}", hash.high ^ hash.low));
  }
  // The line that the service worker's script begins with.
  [[nodiscard]] std::string line() const {
    std::string list;
    for (const auto& [path, hash] : files_) list += fmt::format("{}\"{}\":\"{}\"", list.empty() ? "" : ",", path, hash);
    const ContentHash version = hash_of(list);
    return fmt::format("const edition = {{version:\"{:016x}\",files:{{{}}}}};\n", version.high ^ version.low, list);
  }

private:
  std::mutex guard_;
  std::map<std::string, std::string> files_; // paths are made of letters, digits and -_./ only
};

// Hands every picture that is fit to be shown to the sink; where each is published, by its file.
std::map<std::string, PublishedPicture> publish_pictures(const Compiled& compiled, const EditionSink& sink,
                                                         Diagnostics& out) {
  std::map<std::string, PublishedPicture> published;
  for (const auto& [file, facts] : compiled.pictures) {
    const std::optional<std::string> bytes = read_asset(compiled.sources.root, file, out);
    if (!bytes) continue;
    const std::string path = path_of_file(file);
    published[file] = {path, static_cast<int>(facts.width), static_cast<int>(facts.height)};
    sink(path, *bytes);
  }
  return published;
}

std::string site_name(const LinkedKb& kb) {
  if (kb.lines.size() != 1) return "Reference";
  return std::string{kb.entries[kb.lines.front().entry].text("name")};
}

Feed feed_of(const std::vector<ChangeDay>& changes, const std::string& name, const EditionOptions& options) {
  Feed feed{.title = name + ": changes", .base_url = options.base_url, .author = name, .date = options.date};
  for (const ChangeDay& change : changes) {
    if (change.date.empty()) continue;
    std::string text;
    for (const std::string& item : change.items) text += (text.empty() ? "" : "\n\n") + item;
    feed.entries.push_back({"change-" + change.date, "Changes of " + change.date, change.date,
                            "changes.html#" + change.date, std::move(text)});
  }
  return feed;
}

} // namespace

void make_edition(const Compiled& compiled, const Templates& templates, const EditionOptions& options,
                  const EditionSink& sink, const EditionProgress& progress, Diagnostics& out) {
  const LinkedKb& kb = *compiled.kb;
  KeptFiles kept;
  const EditionSink keep = [&](std::string_view path, std::string_view bytes) {
    kept.add(path, bytes);
    sink(path, bytes);
  };
  EditionOptions edition = options;
  SiteOptions about{.base_url = options.base_url};
  if (compiled.sources.assets.contains(changes_file))
    about.changes = read_asset(compiled.sources.root, std::string{changes_file}, out).value_or("");
  const std::vector<ChangeDay> changes = parse_changes(about.changes);
  if (edition.date.empty() && !changes.empty()) edition.date = changes.front().date;
  about.date = edition.date;
  const Site site{{kb, *compiled.dates, compiled.sources, std::move(about)}};
  const std::string name = site_name(kb);

  const std::map<std::string, PublishedPicture> pictures = publish_pictures(compiled, keep, out);
  RenderOptions render{.base_url = options.base_url, .site_name = name, .date = edition.date};
  render.picture = [&](const std::string& file) {
    const auto found = pictures.find(file);
    return found == pictures.end() ? PublishedPicture{} : found->second;
  };

  const std::vector<PlannedPage>& pages = site.pages();
  const unsigned threads = options.threads != 0 ? options.threads : std::max(1U, std::thread::hardware_concurrency());
  const bool in_one = options.one_file && pages.size() <= most_pages_in_one_file;
  std::vector<Page> all(in_one ? pages.size() : 0);
  std::atomic<std::size_t> done = 0;
  in_parallel(pages.size(), threads, [&](std::size_t i) {
    Page page = site.page(pages[i]);
    keep(page.path, render_page(templates, page, render));
    if (in_one) all[i] = std::move(page);
    progress(++done, pages.size());
  });

  const std::string index = reader_index(site);
  keep("data/reader-index.js", "globalThis.coevalReaderIndex = " + index + ";\n");
  for (const auto& [path, bytes] : export_files(kb, *compiled.dates, compiled.sources)) keep(path, bytes);
  for (const SourceFile& file : compiled.sources.files) keep(path_of_file(file.path()), file.text());
  keep("feed.xml", atom_xml(feed_of(changes, name, edition)));
  keep("site.webmanifest", webmanifest({.name = name, .short_name = name, .icons = {{"icons/icon.svg", "any"}}}));
  if (!options.base_url.empty()) {
    std::vector<SitemapEntry> entries;
    for (const PlannedPage& page : pages)
      if (page.kind != PageKind::not_found) entries.push_back({page.path, edition.date});
    sink("sitemap.xml", sitemap_xml(entries, options.base_url));
  }
  if (in_one) {
    const auto bytes_of = [&](const std::string& file) {
      Diagnostics told_already;
      return pictures.contains(file) ? read_asset(compiled.sources.root, file, told_already).value_or("")
                                     : std::string{};
    };
    sink(one_file, render_one_file(templates, all, index, render, bytes_of));
  }
  std::string worker;
  for (const auto& [path, bytes] : template_files(templates)) {
    if (path == worker_file)
      worker = bytes;
    else
      keep(path, bytes);
  }
  if (!worker.empty()) sink(worker_file, kept.line() + worker);
}

} // namespace coeval
