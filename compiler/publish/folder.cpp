// Everything happens below handles of the folder and of the staging folder in it; no path is looked up twice from the
// top, where somebody could have put a link meanwhile.
//
// Files wait in a tree of the shape of the site, so that a folder that is new comes to its place by one rename with all
// that is in it. Measured with tests/bench/publish_bench.cpp (4000 pages of 6 KB, two threads, ext4 in memory, in the
// time of a loop that only writes the files, which made 45,000 a second): into an empty folder 1.2; nothing changed
// 0.2, which is 250,000 a second; every page changed 3.8. There two thirds are the renames over old pages, 21,000 to
// 24,000 a second on one thread or two: ext4 then brings a page to the disk before it lets go of the old one.
// Exchanging whole folders would save that, and take what others have in them along.
#include "publish/folder.hpp"

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <map>
#include <mutex>
#include <set>
#include <stdexcept>
#include <utility>
#include <vector>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <fmt/format.h>

#include "publish/disk.hpp"
#include "publish/manifest.hpp"
#include "publish/place.hpp"
#include "publish/recipes.hpp"
#include "publish/reports.hpp"
#include "publish/target.hpp"

namespace coeval {
namespace {

constexpr const char* lock_name = ".coeval-lock";
constexpr const char* manifest_name = ".coeval-manifest";
constexpr const char* recipes_name = ".coeval-recipes";
constexpr const char* parts_name = ".coeval-parts";
constexpr std::size_t largest_parts = std::size_t{1} << 30; // bytes; those of 10,000 runs are 36 MB
constexpr const char* staging_name = ".coeval-staging";
constexpr int site_folder_flags = O_RDONLY | O_DIRECTORY | O_CLOEXEC;

// The hidden folder in which files wait. Made when the first file needs it, so that a publish that changes nothing
// leaves no trace.
class Staging {
public:
  explicit Staging(int root) : root_(root) {}
  Staging(const Staging&) = delete;
  Staging& operator=(const Staging&) = delete;
  ~Staging() { (void)remove(); }

  [[nodiscard]] int make() {
    const std::lock_guard lock{mutex_};
    if (files_.is_open()) return 0;
    if (::mkdirat(root_, staging_name, 0700) != 0) return errno;
    made_ = true;
    own_ = Handle{::openat(root_, staging_name, site_folder_flags | O_NOFOLLOW)};
    if (!own_.is_open() || ::mkdirat(own_.number(), "files", 0700) != 0) return errno;
    files_ = Handle{::openat(own_.number(), "files", site_folder_flags | O_NOFOLLOW)};
    return files_.is_open() ? 0 : errno;
  }
  [[nodiscard]] int own() const { return own_.number(); }
  [[nodiscard]] int files() const { return files_.number(); } // the tree of what is published

  // Also what a publish that was stopped has left.
  int remove() {
    own_ = Handle{};
    files_ = Handle{};
    return made_.exchange(false) ? remove_tree(root_, staging_name) : 0;
  }

private:
  int root_;
  std::atomic<bool> made_ = true;
  std::mutex mutex_;
  Handle own_;
  Handle files_;
};

// Every state of either: of a file that may be in the one or in the other.
Manifest both(Manifest one, const Manifest& other) {
  for (const auto& [path, states] : other)
    for (const FileState& state : states)
      if (auto& known = one[path]; std::ranges::find(known, state) == known.end()) known.push_back(state);
  return one;
}

enum class Fate : std::uint8_t { undecided, unchanged, fresh, replaces, replaces_edit };

struct Written {
  Fate fate = Fate::undecided;
  FileState state;
  FileRecipe recipe;
};

// Is it a regular file as an earlier publish left it, by size and modification time?
bool is_as_left(FolderWalk& walk, std::string_view path, const FileState& state) {
  struct stat status {};
  return walk.go(folder_of(path)) == 0 &&
         ::fstatat(walk.here(), std::string{name_of(path)}.c_str(), &status, AT_SYMLINK_NOFOLLOW) == 0 &&
         S_ISREG(status.st_mode) && static_cast<std::uint64_t>(status.st_size) == state.size &&
         modified_ns(status) == state.modified;
}

} // namespace

class OutputFolder::Publish {
public:
  Publish(Handle root, Handle lock, std::string name)
      : root_(std::move(root)), lock_(std::move(lock)), reports_(std::move(name)), staging_(root_.number()) {}

  bool start(Diagnostics& out);
  [[nodiscard]] std::optional<std::size_t> still_holds(std::string_view path, std::string_view bytes) const;
  [[nodiscard]] std::optional<ContentHash> keep(std::string_view path, const FileRecipe& recipe);
  bool write(std::string_view path, std::string_view bytes, Diagnostics& out, const FileRecipe& recipe);
  [[nodiscard]] std::string earlier(std::string_view path) const;
  [[nodiscard]] std::string remembered() const {
    return read_file(root_.number(), parts_name, largest_parts).bytes; // empty where that fails
  }
  void remember(std::string bytes) { parts_ = std::move(bytes); }
  std::optional<PublishCounts> finish(Diagnostics& out);

private:
  bool fail(std::string_view path, int error, Diagnostics& out);
  [[nodiscard]] std::map<std::string, Written, std::less<>>::iterator enter(std::string_view path);
  void remember_all();
  void leave(const char* name, const char* waiting, std::string_view bytes);
  FolderWalk borrow_walk();
  void give_back(FolderWalk walk);
  bool stage(const std::string& path, std::string_view bytes, Written& written, Diagnostics& out);
  void demand_no_file_is_a_folder() const;
  bool write_manifest(const std::string& text, Diagnostics& out);
  bool clear_the_way(PublishCounts& counts, Diagnostics& out);
  [[nodiscard]] std::vector<StagedFile> staged() const;
  bool place(std::vector<StagedFile>& files, Diagnostics& out);
  bool remove_stale(PublishCounts& counts, Diagnostics& out);
  bool remove_one(FolderWalk& walk, const std::string& path, bool even_edited, PublishCounts& counts, Diagnostics& out);
  [[nodiscard]] Manifest manifest_after() const;

  Handle root_;
  Handle lock_; // held as long as it is open
  PublishReports reports_;
  Staging staging_;
  std::string manifest_before_;
  Manifest before_; // without what has been removed since
  std::string recipes_text_before_;
  Recipes recipes_before_;
  std::optional<std::string> parts_; // for the next publish
  std::atomic<bool> failed_ = false;

  std::mutex mutex_; // of what follows; a Written is its writer's alone until finish
  std::map<std::string, Written, std::less<>> written_;
  std::vector<std::string> to_clear_;
  std::vector<FolderWalk> walks_; // one for each thread that writes: pages of one folder mostly come one after another
};

bool OutputFolder::Publish::fail(std::string_view path, int error, Diagnostics& out) {
  failed_ = true;
  reports_.failed(path, error, out);
  return false;
}

bool OutputFolder::Publish::start(Diagnostics& out) {
  if (const int error = staging_.remove()) return fail(staging_name, error, out);
  ReadResult read = read_file(root_.number(), manifest_name, largest_manifest);
  if (read.error == ENOENT) return true;
  if (read.error != 0 && read.error != EFBIG && read.error != EINVAL && read.error != ELOOP)
    return fail(manifest_name, read.error, out);
  auto manifest = read.error == 0 ? read_manifest(read.bytes) : std::nullopt;
  if (!manifest) {
    reports_.broken_manifest(manifest_name, out);
    return true;
  }
  before_ = std::move(*manifest);
  manifest_before_ = std::move(read.bytes);
  // What was remembered only saves work, so one that is missing or broken is not worth a word.
  ReadResult remembered = read_file(root_.number(), recipes_name, largest_manifest);
  if (auto recipes = remembered.error == 0 ? read_recipes(remembered.bytes) : std::nullopt) {
    recipes_before_ = std::move(*recipes);
    recipes_text_before_ = std::move(remembered.bytes);
  }
  return true;
}

std::optional<std::size_t> OutputFolder::Publish::still_holds(std::string_view path, std::string_view bytes) const {
  const auto asked = before_.find(path);
  if (asked == before_.end() || asked->second.front().hash != hash_of(bytes)) return {};
  FolderWalk walk{root_.number()};
  for (const auto& [name, states] : before_) // two states: that publish was stopped
    if (states.size() != 1 || !is_as_left(walk, name, states.front())) return {};
  return before_.size();
}

std::string OutputFolder::Publish::earlier(std::string_view path) const {
  const auto known = before_.find(path);
  FolderWalk walk{root_.number()};
  if (known == before_.end() || walk.go(folder_of(path)) != 0) return {};
  ReadResult read = read_file(walk.here(), std::string{name_of(path)}, known->second.back().size);
  return read.error == 0 ? std::move(read.bytes) : std::string{};
}

// The place of a file that is written or kept now.
std::map<std::string, Written, std::less<>>::iterator OutputFolder::Publish::enter(std::string_view path) {
  if (!is_output_path(path)) throw std::logic_error(fmt::format("publish: `{}` is no path of a file", path));
  const std::lock_guard lock{mutex_};
  const auto [at, is_new] = written_.try_emplace(std::string{path});
  if (!is_new) throw std::logic_error(fmt::format("publish: `{}` is written twice", path));
  return at;
}

std::optional<ContentHash> OutputFolder::Publish::keep(std::string_view path, const FileRecipe& recipe) {
  const auto known = before_.find(path);
  if (known == before_.end() || known->second.size() != 1) return {};
  const FileState& state = known->second.front();
  const auto gave_it = [&](const std::optional<ContentHash>& one) {
    const auto content = one ? recipes_before_.find(*one) : recipes_before_.end();
    return content != recipes_before_.end() && content->second == state.hash;
  };
  if (!gave_it(recipe.inputs) && !gave_it(recipe.content)) return {};
  FolderWalk walk = borrow_walk();
  const bool is_there = is_as_left(walk, path, state);
  give_back(std::move(walk));
  if (!is_there) return {};
  enter(path)->second = {Fate::unchanged, state, recipe};
  return state.hash;
}

bool OutputFolder::Publish::write(std::string_view path, std::string_view bytes, Diagnostics& out,
                                  const FileRecipe& recipe) {
  const auto place = enter(path);
  const std::string& name = place->first;
  Written& written = place->second;
  written.state.hash = hash_of(bytes);
  written.state.size = bytes.size();
  written.recipe = recipe;
  FolderWalk walk = borrow_walk();
  Occupant target = look_at(walk, before_, name, bytes, written.state.hash);
  give_back(std::move(walk));
  switch (target.standing) {
  case Occupancy::same:
    written = {Fate::unchanged, target.state, recipe};
    return true;
  case Occupancy::foreign:
    failed_ = true;
    reports_.foreign(target.what, out);
    return false;
  case Occupancy::shut:
    return fail(target.what, target.error, out);
  case Occupancy::free:
    written.fate = Fate::fresh;
    break;
  case Occupancy::ours:
    written.fate = Fate::replaces;
    break;
  case Occupancy::edited:
    written.fate = Fate::replaces_edit;
    break;
  }
  if (!target.clear.empty()) {
    const std::lock_guard lock{mutex_};
    to_clear_.push_back(std::move(target.clear));
  }
  return stage(name, bytes, written, out);
}

FolderWalk OutputFolder::Publish::borrow_walk() {
  const std::lock_guard lock{mutex_};
  if (walks_.empty()) return FolderWalk{root_.number()};
  FolderWalk walk = std::move(walks_.back());
  walks_.pop_back();
  return walk;
}

void OutputFolder::Publish::give_back(FolderWalk walk) {
  const std::lock_guard lock{mutex_};
  walks_.push_back(std::move(walk));
}

bool OutputFolder::Publish::stage(const std::string& path, std::string_view bytes, Written& written, Diagnostics& out) {
  if (failed_) return false; // nothing will be published; what follows is only looked at
  if (const int error = staging_.make()) return fail({}, error, out);
  const WriteResult result = write_new_file(staging_.files(), path, bytes);
  if (result.error == ENOTDIR || result.error == EEXIST || result.error == EISDIR) {
    const std::lock_guard lock{mutex_};
    demand_no_file_is_a_folder();
  }
  if (result.error != 0) return fail(path, result.error, out);
  written.state.modified = result.modified;
  return true;
}

// A mistake of ours: `a` and `a/b` cannot both be files.
void OutputFolder::Publish::demand_no_file_is_a_folder() const {
  for (const auto& [path, written] : written_)
    for (std::string_view folder = folder_of(path); !folder.empty(); folder = folder_of(folder))
      if (written_.contains(folder))
        throw std::logic_error(fmt::format("publish: `{}` is both a file and the folder of `{}`", folder, path));
}

bool OutputFolder::Publish::write_manifest(const std::string& text, Diagnostics& out) {
  constexpr const char* waiting = "manifest";
  if (const int error = staging_.make()) return fail({}, error, out);
  if (const WriteResult result = write_new_file(staging_.own(), waiting, text); result.error != 0)
    return fail(manifest_name, result.error, out);
  // The one file that must outlive a power failure: without it, what is left of a site belongs to nobody.
  if (const int error = flush_file(staging_.own(), waiting)) return fail(manifest_name, error, out);
  if (::renameat(staging_.own(), waiting, root_.number(), manifest_name) != 0) return fail(manifest_name, errno, out);
  return true;
}

// For the next publish. Where that fails it will make everything again, and the site is none the worse.
void OutputFolder::Publish::remember_all() {
  Recipes recipes;
  std::set<ContentHash> kept; // contents of files of which the other recipe was not asked for
  for (const auto& [path, written] : written_) {
    for (const auto& recipe : {written.recipe.inputs, written.recipe.content})
      if (recipe) recipes.emplace(*recipe, written.state.hash);
    if (written.recipe.inputs && !written.recipe.content) kept.insert(written.state.hash);
  }
  for (const auto& [recipe, content] : recipes_before_)
    if (kept.contains(content)) recipes.emplace(recipe, content);
  const std::string text = recipes.empty() ? std::string{} : recipes_text(recipes);
  if (text != recipes_text_before_ && text.size() <= largest_manifest) leave(recipes_name, "recipes", text);
  if (parts_ && parts_->size() <= largest_parts) leave(parts_name, "parts", *parts_);
}

void OutputFolder::Publish::leave(const char* name, const char* waiting, std::string_view bytes) {
  if (staging_.make() == 0 && write_new_file(staging_.own(), waiting, bytes).error == 0)
    (void)::renameat(staging_.own(), waiting, root_.number(), name);
}

// What this publish has written, as it will be.
Manifest OutputFolder::Publish::manifest_after() const {
  Manifest manifest;
  for (const auto& [path, written] : written_)
    manifest.try_emplace(manifest.end(), path)->second.push_back(written.state);
  return manifest;
}

bool OutputFolder::Publish::remove_one(FolderWalk& walk, const std::string& path, bool even_edited,
                                       PublishCounts& counts, Diagnostics& out) {
  const RemovalResult result = remove_ours(walk, path, before_.at(path), even_edited);
  switch (result.removal) {
  case Removal::removed:
    ++counts.removed;
    return true;
  case Removal::edited:
    reports_.edit_kept(path, out);
    return true;
  case Removal::missing:
    return true;
  case Removal::failed:
    break;
  }
  return fail(path, result.error, out);
}

// Where a file of the last publish stands in the way of a folder, or the other way round, it has to go first.
bool OutputFolder::Publish::clear_the_way(PublishCounts& counts, Diagnostics& out) {
  FolderWalk walk{root_.number()};
  for (const std::string& obstacle : to_clear_) {
    std::vector<std::string> gone;
    const std::string inside = obstacle + "/";
    for (auto at = before_.lower_bound(obstacle); at != before_.end() && at->first.starts_with(obstacle); ++at)
      if (at->first == obstacle || at->first.starts_with(inside)) gone.push_back(at->first);
    for (const std::string& path : gone) {
      if (!remove_one(walk, path, true, counts, out)) return false;
      before_.erase(path);
    }
    walk.forget();
    remove_empty_folders(root_.number(), gone);
  }
  return true;
}

std::vector<StagedFile> OutputFolder::Publish::staged() const {
  std::vector<StagedFile> files;
  for (const auto& [path, written] : written_)
    if (written.fate != Fate::unchanged) files.push_back({path, written.fate == Fate::fresh});
  return files;
}

bool OutputFolder::Publish::place(std::vector<StagedFile>& files, Diagnostics& out) {
  // First what is new, then what is changed, so that no page ever links to one that is not there yet.
  auto failure = place_new(staging_.files(), root_.number(), files);
  if (!failure) failure = replace_old(staging_.files(), root_.number(), files);
  if (!failure) return true;
  if (failure->error != EEXIST) return fail(failure->path, failure->error, out);
  failed_ = true;
  reports_.foreign(failure->path, out);
  return false;
}

bool OutputFolder::Publish::remove_stale(PublishCounts& counts, Diagnostics& out) {
  FolderWalk walk{root_.number()};
  std::vector<std::string> stale;
  for (const auto& [path, states] : before_)
    if (!written_.contains(path)) stale.push_back(path);
  for (const std::string& path : stale)
    if (!remove_one(walk, path, false, counts, out)) return false;
  remove_empty_folders(root_.number(), stale);
  return true;
}

std::optional<PublishCounts> OutputFolder::Publish::finish(Diagnostics& out) {
  demand_no_file_is_a_folder();
  reports_.more_foreign(out);
  if (failed_) {
    staging_.remove();
    return {};
  }
  PublishCounts counts;
  for (const auto& [path, written] : written_) ++(written.fate == Fate::unchanged ? counts.unchanged : counts.written);
  const Manifest after = manifest_after();
  const std::string text = manifest_text(after);
  if (counts.written == 0 && text == manifest_before_) {
    remember_all();
    staging_.remove();
    return counts;
  }

  // What will be ours is on record before it appears, what was ours until it is gone: whenever this is stopped, the
  // next publish knows every file.
  if (!write_manifest(manifest_text(both(before_, after)), out)) {
    staging_.remove();
    return {};
  }
  std::vector<StagedFile> files = staged();
  const bool done = clear_the_way(counts, out) && place(files, out) && remove_stale(counts, out);
  if (done) {
    failed_ = !write_manifest(text, out);
    if (!failed_) remember_all();
  } else {
    // What has not come to its place must not count as ours next time: somebody else's file may stand there.
    Manifest there = after;
    for (const StagedFile& file : files)
      if (!file.placed) there.erase(file.path);
    (void)write_manifest(manifest_text(both(before_, there)), out);
  }
  staging_.remove();
  if (failed_) return {};
  for (const auto& [path, written] : written_)
    if (written.fate == Fate::replaces_edit) reports_.edit_replaced(path, out);
  return counts;
}

std::optional<OutputFolder> OutputFolder::open(const std::filesystem::path& folder, Diagnostics& out) {
  PublishReports reports{folder.native()};
  std::error_code error;
  std::filesystem::create_directories(folder, error); // where that fails, so does opening it
  Handle root{::open(folder.c_str(), site_folder_flags)};
  if (!root.is_open()) {
    const int why = errno;
    if (why == ENOTDIR)
      reports.not_a_folder(out);
    else
      reports.failed({}, why == ENOENT && error ? error.value() : why, out);
    return {};
  }
  Handle lock{
      ::openat(root.number(), lock_name, O_RDWR | O_CREAT | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY | O_CLOEXEC, 0666)};
  if (!lock.is_open()) {
    reports.failed(lock_name, errno, out);
    return {};
  }
  if (::flock(lock.number(), LOCK_EX | LOCK_NB) != 0) {
    if (errno == EWOULDBLOCK)
      reports.locked(out);
    else
      reports.failed(lock_name, errno, out);
    return {};
  }
  auto publish = std::make_unique<Publish>(std::move(root), std::move(lock), folder.native());
  if (!publish->start(out)) return {};
  return OutputFolder{std::move(publish)};
}

OutputFolder::OutputFolder(std::unique_ptr<Publish> publish) : publish_(std::move(publish)) {}
OutputFolder::~OutputFolder() = default;
OutputFolder::OutputFolder(OutputFolder&&) noexcept = default;
OutputFolder& OutputFolder::operator=(OutputFolder&&) noexcept = default;

std::optional<std::size_t> OutputFolder::still_holds(std::string_view path, std::string_view bytes) const {
  return publish_->still_holds(path, bytes);
}

std::optional<ContentHash> OutputFolder::keep(std::string_view path, const FileRecipe& recipe) {
  return publish_->keep(path, recipe);
}

bool OutputFolder::write(std::string_view path, std::string_view bytes, Diagnostics& out, const FileRecipe& recipe) {
  return publish_->write(path, bytes, out, recipe);
}

std::string OutputFolder::earlier(std::string_view path) const { return publish_->earlier(path); }
std::string OutputFolder::remembered() const { return publish_->remembered(); }
void OutputFolder::remember(std::string bytes) { publish_->remember(std::move(bytes)); }

std::optional<PublishCounts> OutputFolder::finish(Diagnostics& out) { return publish_->finish(out); }

} // namespace coeval
