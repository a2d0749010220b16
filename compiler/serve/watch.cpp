#include "serve/watch.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <thread>
#include <utility>

#include <poll.h>
#include <sys/inotify.h>
#include <unistd.h>

namespace coeval {
namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;
using std::chrono::milliseconds;

constexpr milliseconds quiet{50};      // without a change, before a change counts as complete
constexpr milliseconds busiest{2'000}; // it is looked at then even if changes go on

bool is_passed_over(std::string_view name) { return name.starts_with('.') || name.ends_with('~'); }

// Calls `take(entry)` for everything below a folder, without following links. What cannot be listed is left out:
// whoever builds from it says so.
template <class Take> void for_each_below(const fs::path& folder, const Take& take) {
  std::error_code error;
  auto entry = fs::recursive_directory_iterator{folder, fs::directory_options::skip_permission_denied, error};
  while (!error && entry != fs::recursive_directory_iterator{}) {
    if (is_passed_over(entry->path().filename().native()))
      entry.disable_recursion_pending();
    else
      take(*entry);
    entry.increment(error);
  }
}

} // namespace

class FolderWatch::Source {
public:
  explicit Source(std::vector<fs::path> folders) : folders_(std::move(folders)) {}
  virtual ~Source() = default;
  // Whether anything has changed since the last call, waiting for it as long as `patience`.
  virtual bool changed(milliseconds patience) = 0;
  [[nodiscard]] virtual bool works() const = 0;
  [[nodiscard]] virtual WatchBy by() const = 0;
  [[nodiscard]] const std::vector<fs::path>& folders() const { return folders_; }

private:
  std::vector<fs::path> folders_;
};

class FolderWatch::ModificationTimes final : public Source {
public:
  explicit ModificationTimes(std::vector<fs::path> folders) : Source(std::move(folders)), last_(look()) {}

  bool changed(milliseconds patience) override {
    const auto until = Clock::now() + patience;
    for (;;) {
      Times now = look();
      if (now != last_) {
        last_ = std::move(now);
        return true;
      }
      const auto left = std::chrono::duration_cast<milliseconds>(until - Clock::now());
      if (left <= milliseconds{0}) return false;
      std::this_thread::sleep_for(std::min(left, milliseconds{500}));
    }
  }
  [[nodiscard]] bool works() const override { return true; }
  [[nodiscard]] WatchBy by() const override { return WatchBy::modification_times; }

private:
  struct State {
    fs::file_time_type modified;
    std::uintmax_t size = 0;
    friend bool operator==(const State&, const State&) = default;
  };
  using Times = std::map<fs::path, State>;

  [[nodiscard]] Times look() const {
    Times times;
    for (const fs::path& folder : folders())
      for_each_below(folder, [&](const fs::directory_entry& entry) {
        std::error_code unknown; // gone again: its absence is a change then
        State state;
        if (entry.is_regular_file(unknown)) state.size = entry.file_size(unknown);
        state.modified = entry.last_write_time(unknown);
        times.emplace(entry.path(), state);
      });
    return times;
  }

  Times last_;
};

class FolderWatch::Notifications final : public Source {
public:
  explicit Notifications(std::vector<fs::path> folders)
      : Source(std::move(folders)), handle_(::inotify_init1(IN_NONBLOCK | IN_CLOEXEC)) {
    watch_all();
  }
  Notifications(const Notifications&) = delete;
  Notifications& operator=(const Notifications&) = delete;
  ~Notifications() override {
    if (handle_ >= 0) ::close(handle_);
  }

  bool changed(milliseconds patience) override {
    const auto until = Clock::now() + patience;
    for (;;) {
      // A folder that was replaced is watched again as soon as it is back.
      if (missing_ && watch_all() && !missing_) return true;
      if (read_events()) return true;
      const auto left = std::chrono::duration_cast<milliseconds>(until - Clock::now());
      if (left <= milliseconds{0}) return false;
      pollfd wait{handle_, POLLIN, 0};
      ::poll(&wait, 1, static_cast<int>(missing_ ? std::min(left, milliseconds{100}).count() : left.count()));
    }
  }
  // False once the system has no more watches to give.
  [[nodiscard]] bool works() const override { return works_; }
  [[nodiscard]] WatchBy by() const override { return WatchBy::notification; }

private:
  bool watch(const fs::path& folder) {
    constexpr std::uint32_t what = IN_CLOSE_WRITE | IN_CREATE | IN_DELETE | IN_MOVED_FROM | IN_MOVED_TO |
                                   IN_DELETE_SELF | IN_MOVE_SELF | IN_ONLYDIR;
    if (::inotify_add_watch(handle_, folder.c_str(), what) >= 0) return true;
    if (errno != ENOENT && errno != ENOTDIR && errno != EACCES) works_ = false;
    return false;
  }

  // Watching a folder twice is watching it once. A folder is watched before it is listed, so that nothing is missed.
  bool watch_all() {
    if (handle_ < 0) works_ = false;
    missing_ = false;
    for (const fs::path& folder : folders()) {
      if (!watch(folder)) missing_ = true;
      for_each_below(folder, [&](const fs::directory_entry& entry) {
        std::error_code unknown;
        if (works_ && entry.is_directory(unknown) && !entry.is_symlink(unknown)) (void)watch(entry.path());
      });
    }
    return works_;
  }

  bool read_events() {
    bool change = false;
    bool folders_changed = false;
    alignas(inotify_event) std::array<char, 1 << 14> buffer;
    for (ssize_t size = 0; (size = ::read(handle_, buffer.data(), buffer.size())) > 0;) {
      for (const char* at = buffer.data(); at < buffer.data() + size;) {
        const auto* event = reinterpret_cast<const inotify_event*>(at);
        at += sizeof(inotify_event) + event->len;
        if (event->len > 0 && is_passed_over(event->name)) continue;
        if ((event->mask & (IN_DELETE_SELF | IN_MOVE_SELF | IN_Q_OVERFLOW | IN_ISDIR)) != 0) folders_changed = true;
        if ((event->mask & IN_IGNORED) == 0) change = true;
      }
    }
    if (folders_changed) watch_all();
    return change;
  }

  int handle_;
  bool works_ = true;
  bool missing_ = false; // one of the folders is not there
};

FolderWatch::FolderWatch(std::vector<fs::path> folders, WatchBy by) {
  if (by == WatchBy::notification) {
    source_ = std::make_unique<Notifications>(folders);
    if (source_->works()) return;
  }
  source_ = std::make_unique<ModificationTimes>(std::move(folders));
}

FolderWatch::~FolderWatch() = default;

WatchBy FolderWatch::by() const { return source_->by(); }

bool FolderWatch::wait(milliseconds patience) {
  const bool changed = source_->changed(patience);
  if (!source_->works()) { // the system has run out of watches, for folders that are new
    source_ = std::make_unique<ModificationTimes>(source_->folders());
    return true;
  }
  if (!changed) return false;
  const auto until = Clock::now() + busiest;
  while (Clock::now() < until && source_->changed(quiet)) {
  }
  return true;
}

} // namespace coeval
