// publish/waiting_file.hpp: how do new bytes take a name in a folder, whole or not at all?
//
//   int error = 0;
//   auto waiting = WaitingFile::open(folder, "kb.json", 0666, error);
//   if (waiting) error = waiting->fill(bytes, nullptr);
//   if (waiting && error == 0) error = waiting->take_name();
//
// They wait beside it under a hidden name, are flushed to the disk and then take the name by one rename: whenever this
// is stopped, the name leads to the old file or to the new one, each whole. The waiting file is locked as long as it
// waits, so that of two programs that write one name at once the second is refused. What a kill has left behind is
// cleared away by the next that writes the name.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include <sys/stat.h>

#include "publish/disk.hpp"

namespace coeval {

// Goes away by itself unless it has taken its name. The folder must stay open. A failure is an errno, 0 for none.
class WaitingFile {
public:
  // `mode` is that of a new file, of which the umask takes its share. Nothing where it cannot be made; the error is
  // EWOULDBLOCK where another program is writing the same name.
  [[nodiscard]] static std::optional<WaitingFile> open(int folder, const std::string& name, mode_t mode, int& error);
  WaitingFile(WaitingFile&& other) noexcept;
  WaitingFile& operator=(WaitingFile&&) = delete;
  ~WaitingFile();

  // Once. With the permissions of `like`, and its owner and group where that is allowed, unless it is null.
  [[nodiscard]] int fill(std::string_view bytes, const struct stat* like);

  [[nodiscard]] int take_free_name(); // EEXIST where something stands there
  [[nodiscard]] int take_name();      // in place of what stands there
  // The name leads to this file, even where flushing the folder has failed after that.
  [[nodiscard]] bool has_name() const { return has_name_; }

private:
  WaitingFile(int folder, const std::string& name);
  [[nodiscard]] int taken();

  int folder_;
  std::string name_;
  std::string waiting_name_; // empty once there is nothing to clear away
  bool has_name_ = false;
  Handle file_; // locked
};

} // namespace coeval
