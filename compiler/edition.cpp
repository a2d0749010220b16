#include "edition.hpp"

#include <algorithm>
#include <atomic>
#include <mutex>
#include <thread>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "drift/telling.hpp"
#include "export/export.hpp"
#include "files/asset.hpp"
#include "html/feeds.hpp"
#include "html/one_file.hpp"
#include "html/render.hpp"
#include "inputs/page_inputs.hpp"
#include "inputs/parts.hpp"
#include "pages/changes.hpp"
#include "pages/drift_section.hpp"
#include "pages/page_content.hpp"
#include "pages/paths.hpp"
#include "pages/reader_index.hpp"
#include "pages/site.hpp"
#include "publish/hash.hpp"
#include "threads/share_out.hpp"

namespace coeval {
namespace {

constexpr std::string_view changes_file = "CHANGES.md";
constexpr std::string_view worker_file = "service-worker.js";
constexpr std::string_view one_file = "one-file.html";

// The files of a site that a browser is to keep, with what tells one edition of a file from another.
class KeptFiles {
public:
  void add(std::string_view path, const ContentHash& hash) {
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
    sink({path, *bytes, {}});
  }
  return published;
}

// Other downloads are of no use without another program, and large: a browser need not keep them for when there is no
// network.
bool shown_by_browsers(std::string_view path) { return path.ends_with(".json") || path.ends_with(".csv"); }

std::string site_name(const LinkedKb& kb) {
  if (kb.lines.size() != 1) return "Reference";
  return std::string{kb.entries[kb.lines.front().entry].text("name")};
}

// "2026-11-20, HEAD~1"
std::string since_words(const EditionSince& since) {
  return since.day.empty() ? since.name : since.day + ", " + since.name;
}

Version version_of(const Compiled& compiled) { return {*compiled.kb, *compiled.dates, compiled.sources}; }

// Everything that makes one version another, as a few letters.
std::string mark_of(const SourceSet& sources) {
  std::string all;
  for (const SourceFile& file : sources.files) {
    const ContentHash hash = hash_of(file.text());
    all += fmt::format("{:016x}{:016x} {}\n", hash.high, hash.low, file.path());
  }
  const ContentHash hash = hash_of(all);
  return fmt::format("{:016x}{:016x}", hash.high, hash.low);
}

// What a reader of the feed is told of a comparison: the causes that explain most.
FeedEntry entry_of(const Drift& drift, const EditionSince& since, std::string anchor, const std::string& date) {
  constexpr std::size_t most_causes = 10;
  constexpr std::size_t most_bytes = 600; // of one edit
  std::string text = totals(drift);
  for (std::size_t i = 0; i < drift.causes.size() && i < most_causes; ++i) {
    text += fmt::format("\n\n{} changed because: ", counted(drift.causes[i].changes));
    const std::vector<EditIndex>& edits = drift.causes[i].cause.edits;
    for (std::size_t j = 0; j < edits.size(); ++j)
      text +=
          (j == 0 ? "" : "; ") + shortened(text_of(tell(drift.edits[static_cast<std::size_t>(edits[j])])), most_bytes);
  }
  if (drift.causes.size() > most_causes)
    text += fmt::format("\n\nand by {}", counted(drift.causes.size() - most_causes, "other cause"));
  const std::string from = since.day.empty() ? mark_of(since.compiled->sources) : since.day;
  return {fmt::format("since-{}-{}", from, date), "What changed since " + since_words(since), date,
          "changes.html#" + std::move(anchor), std::move(text)};
}

Feed feed_of(const std::vector<ChangeDay>& changes, const std::string& name, const std::string& base_url,
             const std::string& date) {
  Feed feed{.title = name + ": changes", .base_url = base_url, .author = name, .date = date};
  for (const ChangeDay& change : changes) {
    if (change.date.empty()) continue;
    std::string text;
    for (const std::string& item : change.items) text += (text.empty() ? "" : "\n\n") + item;
    feed.entries.push_back({"change-" + change.date, "Changes of " + change.date, change.date,
                            "changes.html#" + change.date, std::move(text)});
  }
  return feed;
}

// One edition on its way: what is known of all of it, and the steps that make its files.
class Edition {
public:
  Edition(const Compiled& compiled, const Templates& templates, const EditionOptions& options, const EditionSink& sink,
          Diagnostics& out)
      : compiled_(compiled), templates_(templates), options_(options), sink_(sink), out_(out),
        text_of_changes_(read_changes()), changes_(parse_changes(text_of_changes_)), name_(site_name(*compiled.kb)),
        drifts_(compare()), parts_before_(options.parts), parts_after_(options.parts.size()),
        site_({*compiled.kb, *compiled.dates, compiled.sources, about()}) {}

  void make(const EditionProgress& progress) {
    const EditionSink keep = [this](const EditionFile& file) { this->keep(file); };
    pictures_ = publish_pictures(compiled_, keep, out_);
    render_ = {
        .base_url = options_.base_url, .site_name = name_, .date = date(), .picture = [this](const std::string& file) {
          const auto found = pictures_.find(file);
          return found == pictures_.end() ? PublishedPicture{} : found->second;
        }};
    frame_ = fmt::format("{}\n{}\n{}\n{}\n", options_.maker, render_.base_url, render_.site_name, render_.date);
    make_pages(progress);
    for (const SourceFile& file : compiled_.sources.files) this->keep({path_of_file(file.path()), file.text(), {}});
    make_feeds();
    if (in_one_file())
      sink_({one_file,
             render_one_file(templates_, pages_, index_, render_,
                             [this](const std::string& file) { return bytes_of_picture(file); }),
             {}});
    make_template_files();
  }

private:
  void keep(const EditionFile& file) {
    kept_.add(file.path, hash_of(file.bytes));
    sink_(file);
  }
  [[nodiscard]] std::string words_of_picture(const std::string& file) const {
    const PublishedPicture picture = render_.picture(file);
    return fmt::format("{} {} {}\n", picture.path, picture.width, picture.height);
  }
  // Found when they are first asked for, while other threads export. Nothing where every page is wanted as data,
  // whether it is made again or not, or where what is made has no recipes.
  const std::optional<PageInputs>& inputs() {
    std::call_once(inputs_once_, [this] {
      if (in_one_file() || options_.maker.empty()) return;
      inputs_.emplace(site_, [this](const std::string& file) { return words_of_picture(file); });
    });
    return inputs_;
  }
  // Each with what is the same for every page.
  [[nodiscard]] std::optional<ContentHash> hash_of_inputs(const PlannedPage& planned) {
    const auto inputs = this->inputs() ? this->inputs()->of(planned) : std::nullopt;
    if (!inputs) return {};
    return hash_of(text_of(*inputs) + frame_);
  }
  [[nodiscard]] std::optional<ContentHash> hash_of_content(const Page& page) const {
    if (options_.maker.empty()) return {};
    PageContent content = content_of(page);
    for (const std::string& file : content.pictures) content.text += words_of_picture(file);
    return hash_of(content.text += frame_);
  }
  [[nodiscard]] bool is_there(std::string_view path, const FileRecipe& recipe) {
    if ((!recipe.inputs && !recipe.content) || !options_.keep) return false;
    const std::optional<ContentHash> there = options_.keep(path, recipe);
    if (there) kept_.add(path, *there);
    return there.has_value();
  }
  void make_page(const PlannedPage& planned, std::size_t number) {
    FileRecipe recipe{.inputs = hash_of_inputs(planned), .content = {}};
    if (is_there(planned.path, recipe)) return;
    Page page = page_of(planned);
    recipe.content = hash_of_content(page);
    if (!is_there(planned.path, recipe)) keep({page.path, render_page(templates_, page, render_), recipe});
    if (in_one_file()) pages_[number] = std::move(page);
  }

  [[nodiscard]] std::string read_changes() {
    if (!compiled_.sources.assets.contains(changes_file)) return {};
    return read_asset(compiled_.sources.root, std::string{changes_file}, out_).value_or("");
  }
  [[nodiscard]] std::string date() const {
    return options_.date.empty() && !changes_.empty() ? changes_.front().date : options_.date;
  }
  [[nodiscard]] std::vector<Drift> compare() const {
    std::vector<Drift> drifts;
    for (const EditionSince& since : options_.since)
      drifts.push_back(drift_between(version_of(*since.compiled), version_of(compiled_), Basis::conjectured));
    return drifts;
  }
  static std::string anchor_of(std::size_t since) { return fmt::format("since-{}", since + 1); }
  [[nodiscard]] SiteOptions about() const { return {options_.base_url, date(), text_of_changes_}; }
  [[nodiscard]] Page page_of(const PlannedPage& planned) const {
    Page page = site_.page(planned);
    if (planned.kind == PageKind::changes)
      for (std::size_t i = 0; i < drifts_.size(); ++i)
        add_drift(site_,
                  {"What changed since " + since_words(options_.since[i]), anchor_of(i), drifts_[i],
                   options_.since[i].compiled->sources},
                  page);
    return page;
  }
  [[nodiscard]] bool in_one_file() const { return options_.one_file && site_.pages().size() <= most_pages_in_one_file; }
  [[nodiscard]] std::string bytes_of_picture(const std::string& file) const {
    Diagnostics told_already;
    return pictures_.contains(file) ? read_asset(compiled_.sources.root, file, told_already).value_or("")
                                    : std::string{};
  }

  // From the parts of an earlier edition, as far as nothing has changed that they follow from.
  void make_index() {
    if (!inputs()) {
      index_ = reader_index(site_);
      return;
    }
    const auto key_of = [this](IssueIndex issue) {
      return hash_of_inputs({PageKind::issue, "", site_.kb().issues[at(issue)].entry});
    };
    index_ = reader_index(site_, {.find = [&](IssueIndex issue) -> std::optional<std::string_view> {
                                    const auto key = key_of(issue);
                                    return key ? parts_before_.find(*key) : std::nullopt;
                                  },
                                  .keep =
                                      [&](IssueIndex issue, std::string_view part) {
                                        if (const auto key = key_of(issue)) keep_part(*key, part);
                                      }});
  }
  void keep_part(const ContentHash& key, std::string_view part) {
    const std::scoped_lock lock{parts_guard_};
    parts_after_.add(key, part);
  }

  // The database is taken from the one that an earlier edition left, as far as it would hold the same.
  void make_answers(const ExportInput& exported, const ExportSink& sink) {
    const ContentHash key = hash_of(fmt::format("what {} holds", database_path));
    KeptDatabase kept;
    if (const auto told = parts_before_.find(key); told && options_.earlier)
      kept = {options_.earlier(database_path), std::string{*told}};
    export_answers(exported, sink, kept);
    keep_part(key, kept.portions);
  }

  // The pages, and at the same time what takes about as long as many of them: the index and the data.
  void make_pages(const EditionProgress& progress) {
    const std::vector<PlannedPage>& planned = site_.pages();
    const unsigned threads =
        options_.threads != 0 ? options_.threads : std::max(1U, std::thread::hardware_concurrency());
    if (in_one_file()) pages_.resize(planned.size());
    const ExportInput exported{*compiled_.kb, *compiled_.dates, compiled_.sources, options_.base_url};
    const ExportSink export_sink = [this](const std::string& path, std::string_view bytes) {
      if (shown_by_browsers(path))
        keep({path, bytes, {}});
      else
        sink_({path, bytes, {}});
    };
    constexpr std::size_t others = 3; // the longest first
    std::atomic<std::size_t> done = 0;
    share_among(threads, planned.size() + others, [&](std::size_t i, std::size_t) {
      if (i == 0) {
        make_answers(exported, export_sink);
      } else if (i == 1) {
        make_index();
        keep({"data/reader-index.js", "globalThis.coevalReaderIndex = " + index_ + ";\n", {}});
        if (!in_one_file()) index_ = {};
      } else if (i == 2) {
        export_entries(exported, export_sink);
      } else {
        make_page(planned[i - others], i - others);
        progress(++done, planned.size());
      }
    });
    if (options_.keep_parts && !options_.maker.empty()) options_.keep_parts(std::move(parts_after_).finished());
  }

  void make_feeds() {
    Feed feed = feed_of(changes_, name_, options_.base_url, date());
    for (std::size_t i = 0; i < drifts_.size(); ++i) // an edition without a day cannot date an entry
      if (!drifts_[i].nothing() && !date().empty())
        feed.entries.push_back(entry_of(drifts_[i], options_.since[i], anchor_of(i), date()));
    keep({"feed.xml", atom_xml(feed), {}});
    keep({"site.webmanifest",
          webmanifest({.name = name_, .short_name = name_, .icons = {{"icons/icon.svg", "any"}}}),
          {}});
    if (options_.base_url.empty()) return;
    std::vector<SitemapEntry> entries;
    for (const PlannedPage& page : site_.pages())
      if (page.kind != PageKind::not_found) entries.push_back({page.path, date()});
    sink_({"sitemap.xml", sitemap_xml(entries, options_.base_url), {}});
  }

  // The service worker last: it lists all the others.
  void make_template_files() {
    std::string worker;
    for (const auto& [path, bytes] : template_files(templates_)) {
      if (path == worker_file)
        worker = bytes;
      else
        keep({path, bytes, {}});
    }
    if (!worker.empty()) sink_({worker_file, kept_.line() + worker, {}});
  }

  const Compiled& compiled_;
  const Templates& templates_;
  const EditionOptions& options_;
  const EditionSink& sink_;
  Diagnostics& out_;
  std::string text_of_changes_;
  std::vector<ChangeDay> changes_;
  std::string name_;
  std::vector<Drift> drifts_; // since each earlier version
  PartsBefore parts_before_;
  std::mutex parts_guard_;
  PartsAfter parts_after_;
  Site site_;
  std::once_flag inputs_once_;
  std::optional<PageInputs> inputs_; // by which pages need not be put together to be kept
  KeptFiles kept_;
  std::map<std::string, PublishedPicture> pictures_;
  RenderOptions render_;
  std::string frame_; // what every page is made with
  std::string index_;
  std::vector<Page> pages_; // for the single file; else empty
};

} // namespace

std::string edition_mark(const Compiled& compiled, const EditionOptions& options, Diagnostics& out) {
  std::string made_from;
  const auto add = [&](std::string_view path, std::string_view bytes) {
    const ContentHash hash = hash_of(bytes);
    made_from += fmt::format("{:016x}{:016x} {}\n", hash.high, hash.low, path);
  };
  for (const SourceFile& file : compiled.sources.files) add(file.path(), file.text());
  for (const auto& [file, facts] : compiled.pictures)
    add(file, read_asset(compiled.sources.root, file, out).value_or(std::string{}));
  if (compiled.sources.assets.contains(changes_file))
    add(changes_file, read_asset(compiled.sources.root, std::string{changes_file}, out).value_or(std::string{}));
  for (const EditionSince& since : options.since)
    made_from += fmt::format("{} since {} {}\n", mark_of(since.compiled->sources), since.day, since.name);
  const ContentHash all = hash_of(made_from);
  return fmt::format(
      "coeval-edition 1\nentries and pictures {:016x}{:016x}\nprogram and template {}\naddress {}\ndate {}\n", all.high,
      all.low, options.maker, options.base_url, options.date);
}

void make_edition(const Compiled& compiled, const Templates& templates, const EditionOptions& options,
                  const EditionSink& sink, const EditionProgress& progress, Diagnostics& out) {
  Edition{compiled, templates, options, sink, out}.make(progress);
}

} // namespace coeval
