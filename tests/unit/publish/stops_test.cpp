// Whenever a publish is stopped, by a kill or by a disk that fails: is every file whole, does every link lead
// somewhere, and does the next publish put everything right?
#include "scratch.hpp"

#include <cerrno>
#include <csignal>
#include <set>

#include <sys/wait.h>
#include <unistd.h>

#include "faults.hpp"

using namespace coeval;
using namespace coeval::publishing;

namespace {

// A page is its version, and the paths that it links to, one a line.
std::string page(const std::string& version, const Strings& links) {
  std::string text = version + "\n";
  for (const std::string& link : links) text += link + "\n";
  return text;
}

const Files before{{"index.html", page("1", {"figures/maren.html", "figures/pip.html", "cards/six-back.html"})},
                   {"figures/maren.html", page("1", {"index.html", "cards/six-back.html"})},
                   {"figures/pip.html", page("1", {"figures/maren.html"})},
                   {"cards/six-back.html", page("1", {"index.html"})},
                   {"same.html", page("same", {"index.html"})},
                   {"style.css", page("1", {})}};
const Files after{{"index.html", page("2", {"figures/maren.html", "figures/voss.html", "plants/tai-po/index.html"})},
                  {"figures/maren.html", page("2", {"figures/voss.html", "index.html"})},
                  {"figures/voss.html", page("2", {"plants/tai-po/index.html"})},
                  {"plants/tai-po/index.html", page("2", {"plants/tai-po/routes.html", "figures/maren.html"})},
                  {"plants/tai-po/routes.html", page("2", {"index.html"})},
                  {"same.html", page("same", {"index.html"})},
                  {"style.css", page("2", {})}};
const Files foreign{{"mine.txt", "not of the site"}, {"figures/mine.html", "nor this"}};

Files with_foreign(Files files) {
  files.insert(foreign.begin(), foreign.end());
  return files;
}

void start_over(const Scratch& scratch) {
  fs::remove_all(scratch.site());
  for (const auto& [path, bytes] : foreign) scratch.write(fs::path{"site"} / path, bytes);
  REQUIRE(counted(publish(scratch.site(), before)) == "6 0 0");
}

// What a reader would see, between the two sites: from the first page on, by following links.
void check_what_is_seen(const Scratch& scratch) {
  const Files now = files_in(scratch.site());
  for (const auto& [path, bytes] : now) {
    INFO(path);
    const bool whole = (before.contains(path) && bytes == before.at(path)) ||
                       (after.contains(path) && bytes == after.at(path)) ||
                       (foreign.contains(path) && bytes == foreign.at(path));
    CHECK(whole);
  }
  for (const auto& [path, bytes] : foreign) CHECK(now.contains(path));
  std::set<std::string> met{"index.html"};
  Strings waiting{"index.html"};
  while (!waiting.empty()) {
    const std::string path = waiting.back();
    waiting.pop_back();
    INFO(path);
    REQUIRE(now.contains(path));
    std::istringstream lines{now.at(path)};
    std::string link;
    std::getline(lines, link); // the version
    while (std::getline(lines, link))
      if (met.insert(link).second) waiting.push_back(link);
  }
  CHECK(met.size() >= 4);
}

void check_next_publish(const Scratch& scratch, const Files& files) {
  const Published published = publish(scratch.site(), files);
  CHECK(published.told().empty());
  CHECK(published.counts);
  CHECK(files_in(scratch.site()) == with_foreign(files));
  CHECK_FALSE(fs::exists(scratch.site() / ".coeval-staging"));
  CHECK(counted(publish(scratch.site(), files)) == "0 " + std::to_string(files.size()) + " 0");
}

} // namespace

TEST_CASE("a publish that is killed before any of its changes to the disk leaves whole files and living links") {
  const Scratch scratch{in_memory()};
  std::set<Files> seen; // what readers could meet
  int steps = 0;
  for (bool ended = false; !ended; ++steps) {
    INFO("killed at call " << steps + 1);
    for (const Files& next : {after, before}) {
      start_over(scratch);
      const pid_t child = ::fork();
      REQUIRE(child >= 0);
      if (child == 0) {
        set_fault(steps + 1, 0);
        ::_exit(publish(scratch.site(), after).counts ? 0 : 1);
      }
      int status = 0;
      REQUIRE(::waitpid(child, &status, 0) == child);
      ended = WIFEXITED(status);
      if (ended) REQUIRE(WEXITSTATUS(status) == 0);
      if (!ended) REQUIRE(WTERMSIG(status) == SIGKILL);
      check_what_is_seen(scratch);
      seen.insert(files_in(scratch.site()));
      check_next_publish(scratch, next);
    }
  }
  CHECK(steps > 30);
  // The old site, the new one, and what lies between: two appearing folders or files, three replaced, two removed.
  CHECK(seen.contains(with_foreign(before)));
  CHECK(seen.contains(with_foreign(after)));
  CHECK(seen.size() == 1 + 2 + 3 + 2);
}

TEST_CASE("a first publish that is killed can be done again") {
  const Scratch scratch{in_memory()};
  for (int step = 1;; ++step) {
    INFO("killed at call " << step);
    fs::remove_all(scratch.site());
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
      set_fault(step, 0);
      ::_exit(publish(scratch.site(), after).counts ? 0 : 1);
    }
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    for (const auto& [path, bytes] : files_in(scratch.site())) CHECK(bytes == after.at(path));
    const Published again = publish(scratch.site(), after);
    CHECK(again.told().empty());
    CHECK(files_in(scratch.site()) == after);
    if (WIFEXITED(status)) {
      CHECK(step > 20);
      break;
    }
  }
}

TEST_CASE("a publish of which any one change to the disk fails says so, and leaves whole files and living links") {
  const Scratch scratch{in_memory()};
  for (const auto& [error, code] :
       std::map<int, std::string>{{ENOSPC, "disk-full"}, {EIO, "unwritable-folder"}, {EROFS, "unwritable-folder"}}) {
    int failures = 0;
    for (int step = 1;; ++step) {
      INFO(code << " at call " << step);
      start_over(scratch);
      set_fault(step, error);
      const Published published = publish(scratch.site(), after);
      const bool ended = calls_seen() < step;
      clear_fault();
      check_what_is_seen(scratch);
      if (published.counts) {
        // Only what is tidied away at the end may fail without harm.
        CHECK(files_in(scratch.site()) == with_foreign(after));
        CHECK(published.reports.empty());
      } else {
        ++failures;
        REQUIRE(published.reports.size() == 1);
        CHECK(row(published.reports[0].code).name == code);
        CHECK(published.reports[0].path.starts_with(scratch.site().string()));
      }
      check_next_publish(scratch, step % 2 == 0 ? after : before);
      if (ended) {
        CHECK(published.counts);
        break;
      }
    }
    CHECK(failures > 20);
  }
}
