// Is a change below a watched folder noticed, and nothing else?
#include <catch2/catch.hpp>

#include <thread>

#include <sys/resource.h>

#include "scratch.hpp"
#include "serve/watch.hpp"

using namespace coeval;
using namespace coeval::previewing;
using std::chrono::milliseconds;

namespace {

constexpr milliseconds soon{3'000}; // never waited for in full where all is well
constexpr milliseconds now{60};

} // namespace

TEST_CASE("files that are written, made, renamed and removed are changes, at any depth") {
  const WatchBy by = GENERATE(WatchBy::notification, WatchBy::modification_times);
  const Scratch scratch;
  scratch.write("kb/line.toml", "x");
  scratch.write("kb/figures/maren.toml", "x");
  scratch.write("template/page.html", "x");
  FolderWatch watch{{scratch / "kb", scratch / "template"}, by};
  REQUIRE(watch.by() == by);
  CHECK_FALSE(watch.wait(now));

  scratch.write("kb/figures/maren.toml", "longer");
  CHECK(watch.wait(soon));
  CHECK_FALSE(watch.wait(now));
  scratch.write("template/page.html", "longer");
  CHECK(watch.wait(soon));
  scratch.write("kb/new/deep/er.toml", "x");
  CHECK(watch.wait(soon));
  CHECK_FALSE(watch.wait(now));
  scratch.write("kb/new/deep/er.toml", "longer"); // in a folder that is younger than the watch
  CHECK(watch.wait(soon));
  fs::rename(scratch / "kb/line.toml", scratch / "kb/line2.toml");
  CHECK(watch.wait(soon));
  scratch.write("saved", "as editors do it: beside, then over");
  fs::rename(scratch / "saved", scratch / "kb/line2.toml");
  CHECK(watch.wait(soon));
  fs::remove(scratch / "kb/figures/maren.toml");
  CHECK(watch.wait(soon));
  CHECK_FALSE(watch.wait(now));
  fs::remove_all(scratch / "kb/new");
  CHECK(watch.wait(soon));
  CHECK_FALSE(watch.wait(now));
}

TEST_CASE("what lies elsewhere, is hidden or is an editor's own is no change") {
  const WatchBy by = GENERATE(WatchBy::notification, WatchBy::modification_times);
  const Scratch scratch;
  scratch.write("kb/line.toml", "x");
  scratch.write("kb/.git/index", "x");
  scratch.write("elsewhere/x", "x");
  fs::create_directory_symlink(scratch / "elsewhere", scratch / "kb/link");
  FolderWatch watch{{scratch / "kb"}, by};
  scratch.write("kb/.line.toml.swp", "x");
  scratch.write("kb/line.toml~", "x");
  scratch.write("kb/.git/index", "longer");
  scratch.write("elsewhere/x", "longer");
  CHECK_FALSE(watch.wait(milliseconds{700}));
}

TEST_CASE("a folder that is replaced as a whole, or comes late, is watched again") {
  const WatchBy by = GENERATE(WatchBy::notification, WatchBy::modification_times);
  const Scratch scratch;
  scratch.write("kb/line.toml", "x");
  FolderWatch watch{{scratch / "kb"}, by};
  fs::rename(scratch / "kb", scratch / "old");
  CHECK(watch.wait(soon));
  CHECK_FALSE(watch.wait(now));
  scratch.write("kb/line.toml", "y");
  CHECK(watch.wait(soon));
  CHECK_FALSE(watch.wait(now));
  scratch.write("kb/line.toml", "longer");
  CHECK(watch.wait(soon));
}

TEST_CASE("where notifications are not to be had, modification times are read") {
  const Scratch scratch;
  scratch.write("kb/line.toml", "x");
  rlimit before{};
  REQUIRE(::getrlimit(RLIMIT_NOFILE, &before) == 0);
  rlimit none = before;
  none.rlim_cur = 0; // no file can be opened, so no inotify either
  REQUIRE(::setrlimit(RLIMIT_NOFILE, &none) == 0);
  FolderWatch watch{{scratch / "kb"}};
  REQUIRE(::setrlimit(RLIMIT_NOFILE, &before) == 0);
  CHECK(watch.by() == WatchBy::modification_times);
  (void)watch.wait(now); // the file that could not be seen before
  scratch.write("kb/line.toml", "longer");
  CHECK(watch.wait(soon));
}

TEST_CASE("many changes in a row are one") {
  const Scratch scratch;
  scratch.write("kb/line.toml", "x");
  FolderWatch watch{{scratch / "kb"}};
  for (int i = 0; i < 200; ++i) scratch.write("kb/f" + std::to_string(i) + ".toml", "x");
  CHECK(watch.wait(soon));
  CHECK_FALSE(watch.wait(now));
}
