// Does a file that is changed hold the old content or the new, whole, wherever the change is stopped?
#include "faults.hpp"
#include "scratch.hpp"

#include <cerrno>
#include <csignal>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/wait.h>

#include "publish/file.hpp"

using namespace coeval;
using namespace coeval::publishing;

namespace {

const std::string before = "[shelf]\nname = \"Harbour drawer\"\n";
const std::string after(200'000, 'x');

// "code: message" of what is wrong; empty where it was done.
std::string changed(const fs::path& path, std::string_view from, std::string_view to) {
  Diagnostics out;
  const bool done = change_file(path, from, to, out);
  const std::vector<Diagnostic> wrong = out.sorted();
  CHECK(done == wrong.empty());
  if (done) return {};
  CHECK_FALSE(wrong.front().help.empty());
  return std::string{row(wrong.front().code).name} + ": " + wrong.front().message;
}

// Somebody else's lock of the name.
class Held {
public:
  explicit Held(const fs::path& waiting) : file_(::open(waiting.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600)) {
    REQUIRE(::flock(file_, LOCK_EX | LOCK_NB) == 0);
  }
  Held(const Held&) = delete;
  Held& operator=(const Held&) = delete;
  ~Held() { ::close(file_); }

private:
  int file_;
};

} // namespace

TEST_CASE("a file is changed with its permissions, and through a link the file that it leads to") {
  const Scratch scratch{in_memory()};
  scratch.write("drawer/shelf.toml", before);
  const fs::path file = scratch.base() / "drawer/shelf.toml";
  const fs::path link = scratch.base() / "shelf.toml";
  fs::create_symlink("drawer/shelf.toml", link);
  for (const fs::perms mode : {fs::perms{0640}, fs::perms{0444}}) {
    scratch.write("drawer/shelf.toml", before);
    fs::permissions(file, mode);
    CHECK(changed(link, before, after).empty());
    CHECK(fs::status(file).permissions() == mode);
    fs::permissions(file, fs::perms{0600});
  }
  CHECK(fs::read_symlink(link) == "drawer/shelf.toml");
  CHECK(files_in(scratch.base() / "drawer", true) == Files{{"shelf.toml", after}});
}

TEST_CASE("a file is left as it is where it no longer says what was read") {
  const Scratch scratch{in_memory()};
  const fs::path file = scratch.base() / "shelf.toml";
  for (const std::string& now : {before + "# mine\n", before.substr(1), std::string{}, "!" + before.substr(1)}) {
    scratch.write("shelf.toml", now);
    CHECK(changed(file, before, after) == "file-in-use: this file was changed since it was read");
    CHECK(files_in(scratch.base(), true) == Files{{"shelf.toml", now}});
  }
  fs::remove(file);
  CHECK(changed(file, before, after).starts_with("unwritable-folder: "));
  fs::create_directory(file);
  CHECK_FALSE(changed(file, before, after).empty());
  CHECK(files_in(scratch.base(), true).empty());
}

TEST_CASE("a second writer of a file is refused, and what a kill left behind is in nobody's way") {
  const Scratch scratch{in_memory()};
  scratch.write("shelf.toml", before);
  const fs::path file = scratch.base() / "shelf.toml";
  const fs::path waiting = scratch.base() / ".shelf.toml.coeval-new";
  {
    const Held held{waiting};
    CHECK(changed(file, before, after) == "file-in-use: another program is writing this file");
    Diagnostics out;
    CHECK_FALSE(write_whole_file(file, after, {.anything = true, .ours = {}}, out));
    CHECK(content(file) == before);
    CHECK(fs::exists(waiting));
  }
  CHECK(changed(file, before, after).empty());
  CHECK(files_in(scratch.base(), true) == Files{{"shelf.toml", after}});
}

TEST_CASE("of two programs that write one file at once each finds it whole, and nothing is left beside it") {
  const Scratch scratch{in_memory()};
  const fs::path file = scratch.base() / "kb.json";
  const std::string ones(50'000, '1');
  const std::string twos(70'000, '2');
  std::vector<pid_t> children;
  for (const std::string& bytes : {ones, twos}) {
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
      ::alarm(60); // ends it where the other never lets go
      for (int written = 0; written < 100;) {
        Diagnostics out;
        if (write_whole_file(file, bytes, {.anything = true, .ours = {}}, out))
          ++written;
        else
          ::usleep(100); // refused as often as the other is at it
      }
      ::_exit(0);
    }
    children.push_back(child);
  }
  for (int i = 0; i < 300; ++i) {
    const std::string now = content(file);
    if (now != ones && now != twos) CHECK(now.empty()); // not there yet
  }
  for (const pid_t child : children) {
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    CHECK((WIFEXITED(status) && WEXITSTATUS(status) == 0));
  }
  const Files files = files_in(scratch.base(), true);
  CHECK(files.size() == 1);
  CHECK((files.at("kb.json") == ones || files.at("kb.json") == twos));
}

TEST_CASE("a change that is killed at any call leaves the old file or the new, and the next one succeeds") {
  const Scratch scratch{in_memory()};
  const fs::path file = scratch.base() / "shelf.toml";
  int kept = 0;
  int replaced = 0;
  for (int step = 1;; ++step) {
    INFO("killed at call " << step);
    scratch.write("shelf.toml", before);
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
      set_fault(step, 0);
      Diagnostics out;
      ::_exit(change_file(file, before, after, out) ? 0 : 1);
    }
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    const std::string now = content(file);
    REQUIRE((now == before || now == after));
    ++(now == before ? kept : replaced);
    CHECK(changed(file, now, "again").empty());
    CHECK(files_in(scratch.base(), true) == Files{{"shelf.toml", "again"}});
    if (!WIFEXITED(status)) continue;
    CHECK(WEXITSTATUS(status) == 0);
    break;
  }
  CHECK(kept >= 6);     // openat, write, fchown, fchmod, fsync, renameat
  CHECK(replaced >= 2); // the flush of the folder, and the end
}

TEST_CASE("a change of which any one call fails says so, and leaves the old file or the new and nothing else") {
  const Scratch scratch{in_memory()};
  const fs::path file = scratch.base() / "shelf.toml";
  for (const int error : {ENOSPC, EIO, EROFS}) {
    int failures = 0;
    for (int step = 1;; ++step) {
      INFO("error " << error << " at call " << step);
      scratch.write("shelf.toml", before);
      set_fault(step, error);
      const std::string wrong = changed(file, before, after);
      const bool ended = calls_seen() < step;
      clear_fault();
      const Files files = files_in(scratch.base(), true);
      CHECK(files.size() == 1);
      if (ended) {
        CHECK(wrong.empty());
        break;
      }
      const bool has_name = wrong.starts_with("unwritable-folder: this was written, but may not outlast a power cut");
      CHECK_FALSE(wrong.empty());
      CHECK(files.at("shelf.toml") == (has_name ? after : before));
      ++failures;
    }
    CHECK(failures >= 7);
  }
}
