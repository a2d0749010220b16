// serve/watch.hpp: has anything below these folders changed?
//
// Told by inotify. Where that is not to be had, or has run out of watches, the modification times are read again and
// again. Names that start with a dot or end in '~' are passed over: they are editors' and no part of a knowledge base.
#pragma once

#include <chrono>
#include <filesystem>
#include <memory>
#include <vector>

namespace coeval {

enum class WatchBy : std::uint8_t { notification, modification_times };

class FolderWatch {
public:
  // Changes count from here on. A folder that is not there yet counts as changed when it appears.
  explicit FolderWatch(std::vector<std::filesystem::path> folders, WatchBy by = WatchBy::notification);
  ~FolderWatch();
  FolderWatch(const FolderWatch&) = delete;
  FolderWatch& operator=(const FolderWatch&) = delete;

  // Waits for a change, and then until all has been quiet for a moment, since an editor or a checkout changes many
  // files. False where nothing changed for as long as `patience`.
  [[nodiscard]] bool wait(std::chrono::milliseconds patience);
  [[nodiscard]] WatchBy by() const;

private:
  class Source;
  class Notifications;
  class ModificationTimes;
  std::unique_ptr<Source> source_;
};

} // namespace coeval
