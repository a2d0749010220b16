// Is it said when the folder cannot be published to, and is the old site still there?
#include "scratch.hpp"

#include <cerrno>

#include <fcntl.h>
#include <sched.h>
#include <sys/mount.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace coeval;
using namespace coeval::publishing;

namespace {

// Permissions do not bind the superuser: while one of these lives, the process is nobody.
class Unprivileged {
public:
  Unprivileged() {
    if (was_ == 0) REQUIRE(::seteuid(65534) == 0);
  }
  Unprivileged(const Unprivileged&) = delete;
  Unprivileged& operator=(const Unprivileged&) = delete;
  ~Unprivileged() {
    if (was_ == 0 && ::seteuid(0) != 0) std::abort();
  }

private:
  uid_t was_ = ::geteuid();
};

// A file system in memory of its own, where this process may mount one.
class SmallDisk {
public:
  SmallDisk(fs::path at, const char* size) : at_(std::move(at)) {
    fs::create_directories(at_);
    mounted_ = ::mount("none", at_.c_str(), "tmpfs", 0, size) == 0;
  }
  SmallDisk(const SmallDisk&) = delete;
  SmallDisk& operator=(const SmallDisk&) = delete;
  ~SmallDisk() {
    if (mounted_) ::umount2(at_.c_str(), MNT_DETACH);
  }
  [[nodiscard]] bool mounted() const { return mounted_; }
  [[nodiscard]] bool make_read_only() const {
    return ::mount("none", at_.c_str(), "tmpfs", MS_REMOUNT | MS_RDONLY, nullptr) == 0;
  }

private:
  fs::path at_;
  bool mounted_ = false;
};

} // namespace

TEST_CASE("what is no folder, or cannot be made one, is said") {
  const Scratch scratch;
  scratch.write("site", "a file");
  const Published file = publish(scratch.site(), {{"a.html", "a"}});
  CHECK(file.told() == Strings{"unwritable-folder site"});
  CHECK(file.reports[0].message == "this is not a folder");
  CHECK(content(scratch.site()) == "a file");
  CHECK(publish(scratch.site() / "below", {}).told() == Strings{"unwritable-folder site/below"});
  CHECK(publish("", {}).told() == Strings{"unwritable-folder "});
}

TEST_CASE("a folder that others own cannot be published to") {
  const Scratch scratch;
  publish(scratch.site(), {{"a.html", "a"}});
  const Files before = files_in(scratch.site(), true);
  fs::permissions(scratch.base(), fs::perms{0755});
  fs::permissions(scratch.site() / ".coeval-lock", fs::perms{0644});
  SECTION("not at all") {
    fs::permissions(scratch.site(), fs::perms{0555});
    const Unprivileged nobody;
    if (::access((scratch.site() / ".coeval-lock").c_str(), W_OK) == 0 && ::geteuid() != 65534) return;
    const Published published = publish(scratch.site(), {{"a.html", "b"}});
    CHECK(counted(published) == "nothing");
    REQUIRE(published.told().size() == 1);
    CHECK(published.told()[0].starts_with("unwritable-folder site"));
    CHECK(published.reports[0].message == "this could not be written: writing is not allowed");
  }
  SECTION("but for the lock") {
    fs::permissions(scratch.site() / ".coeval-lock", fs::perms{0666});
    fs::permissions(scratch.site(), fs::perms{0555});
    const Unprivileged nobody;
    CHECK(publish(scratch.site(), {{"a.html", "b"}, {"b.html", "b"}}).told() == Strings{"unwritable-folder site"});
    // What changes nothing needs no permission.
    CHECK(counted(publish(scratch.site(), {{"a.html", "a"}})) == "0 1 0");
  }
  fs::permissions(scratch.site(), fs::perms{0755});
  CHECK(files_in(scratch.site(), true) == before);
}

TEST_CASE("a folder below that cannot be looked into is named") {
  const Scratch scratch;
  fs::permissions(scratch.base(), fs::perms{0755});
  publish(scratch.site(), {{"figures/a.html", "a"}});
  fs::permissions(scratch.site(), fs::perms{0777});
  fs::permissions(scratch.site() / ".coeval-lock", fs::perms{0666});
  fs::permissions(scratch.site() / "figures", fs::perms{0});
  {
    const Unprivileged nobody;
    CHECK(publish(scratch.site(), {{"figures/a.html", "b"}}).told() == Strings{"unwritable-folder site/figures"});
  }
  fs::permissions(scratch.site() / "figures", fs::perms{0755});
  CHECK(content(scratch.site() / "figures/a.html") == "a");
}

TEST_CASE("a file system that can only be read is said") {
  const Scratch scratch;
  const SmallDisk disk{scratch.base() / "disk", "size=1m"};
  if (!disk.mounted()) {
    WARN("no right to mount: not tried on a read-only file system (stops_test fails every call with EROFS)");
    return;
  }
  const fs::path site = scratch.base() / "disk/site";
  publish(site, {{"a.html", "a"}});
  REQUIRE(disk.make_read_only());
  const Published published = publish(site, {{"a.html", "b"}});
  CHECK(published.told() == Strings{"unwritable-folder site/.coeval-lock"});
  CHECK(published.reports[0].message == "this could not be written: it lies on a file system that can only be read");
  CHECK(publish(scratch.base() / "disk/new", {}).reports[0].message ==
        "this could not be written: it lies on a file system that can only be read");
  CHECK(files_in(site) == Files{{"a.html", "a"}});
}

TEST_CASE("a full disk is said once, and the old site stays; with room, the next publish succeeds") {
  const Scratch scratch;
  const SmallDisk disk{scratch.base() / "disk", "size=256k"};
  if (!disk.mounted()) {
    WARN("no right to mount: not tried on a full file system (stops_test fails every call with ENOSPC)");
    return;
  }
  const fs::path site = scratch.base() / "disk/site";
  Files old;
  Files next;
  for (int i = 0; i < 10; ++i) {
    old["p" + std::to_string(i)] = std::string(10'000, 'a');
    next["p" + std::to_string(i)] = std::string(10'000, 'b');
  }
  REQUIRE(counted(publish(site, old)) == "10 0 0");
  scratch.write("disk/ballast", std::string(60'000, 'x'));
  const Published published = publish(site, next);
  CHECK(counted(published) == "nothing");
  CHECK(published.told() == Strings{"disk-full site"});
  CHECK(files_in(site) == old);
  CHECK_FALSE(fs::exists(site / ".coeval-staging"));
  fs::remove(scratch.base() / "disk/ballast");
  CHECK(counted(publish(site, next)) == "10 0 0");
  CHECK(files_in(site) == next);
}

TEST_CASE("another process that publishes into the folder keeps it to itself, for as long as it lives") {
  const Scratch scratch;
  publish(scratch.site(), {{"a.html", "a"}});
  int ready[2];
  REQUIRE(::pipe(ready) == 0);
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    Diagnostics out;
    auto folder = OutputFolder::open(scratch.site(), out);
    const bool wrote = folder && folder->write("a.html", "of the child", out);
    if (::write(ready[1], wrote ? "y" : "n", 1) == 1) ::pause();
    ::_exit(1);
  }
  char answer = 0;
  REQUIRE(::read(ready[0], &answer, 1) == 1);
  REQUIRE(answer == 'y');
  CHECK(publish(scratch.site(), {{"a.html", "b"}}).told() == Strings{"folder-locked site"});
  CHECK(content(scratch.site() / "a.html") == "a");
  REQUIRE(::kill(child, SIGKILL) == 0);
  REQUIRE(::waitpid(child, nullptr, 0) == child);
  ::close(ready[0]);
  ::close(ready[1]);
  CHECK(fs::exists(scratch.site() / ".coeval-staging"));
  CHECK(counted(publish(scratch.site(), {{"a.html", "b"}})) == "1 0 0");
  CHECK(files_in(scratch.site()) == Files{{"a.html", "b"}});
}

TEST_CASE("two publishes of one process do not mix either") {
  const Scratch scratch;
  Diagnostics out;
  auto first = OutputFolder::open(scratch.site(), out);
  REQUIRE(first);
  CHECK(publish(scratch.site(), {}).told() == Strings{"folder-locked site"});
  first.reset();
  CHECK(publish(scratch.site(), {}).told().empty());
}
