// How fast does a site get into a folder, beside a loop that only writes the same files?
//
//   publish_bench [FILES] [ROUNDS] [FOLDER]
//
// Pages of 6 KB, 40 in a folder, on two threads. Prints medians; disks are noisy, so compare the ratios of one run and
// nothing else. FOLDER: where to work, on the disk that is meant; without it the folder for temporary files.
#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include <fcntl.h>
#include <unistd.h>

#include "publish/folder.hpp"

namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;
using Files = std::vector<coeval::OutputFile>;

constexpr std::size_t threads = 2;

Files pages(std::size_t count, const std::string& edition) {
  Files files;
  for (std::size_t i = 0; i < count; ++i) {
    std::string bytes = "<!doctype html>\n<title>" + std::to_string(i) + " " + edition + "</title>\n";
    while (bytes.size() < 6'000) bytes += "<p>Saltmere Patrol, " + std::to_string(bytes.size() * i) + "</p>\n";
    files.push_back({"figures/f" + std::to_string(i / 40) + "/p" + std::to_string(i) + ".html", std::move(bytes)});
  }
  return files;
}

template <class Work> void on_threads(std::size_t count, const Work& work) {
  std::array<std::jthread, threads> running;
  for (std::size_t t = 0; t < threads; ++t)
    running[t] = std::jthread{[&, t] {
      for (std::size_t i = t * count / threads; i < (t + 1) * count / threads; ++i) work(i);
    }};
}

[[noreturn]] void stop(const char* why) {
  std::fprintf(stderr, "%s\n", why);
  std::exit(1);
}

void write_plainly(const fs::path& folder, const Files& files) {
  for (std::size_t i = 0; i < files.size(); i += 40) fs::create_directories((folder / files[i].path).parent_path());
  on_threads(files.size(), [&](std::size_t i) {
    const int file = ::open((folder / files[i].path).c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
    const auto size = static_cast<ssize_t>(files[i].bytes.size());
    if (file < 0 || ::write(file, files[i].bytes.data(), files[i].bytes.size()) != size || ::close(file) != 0)
      stop("a file could not be written");
  });
}

void publish(const fs::path& folder, const Files& files, std::size_t expected_written) {
  coeval::Diagnostics out;
  auto open = coeval::OutputFolder::open(folder, out);
  if (!open) stop("the folder could not be opened");
  on_threads(files.size(), [&](std::size_t i) {
    coeval::Diagnostics own;
    open->write(files[i].path, files[i].bytes, own);
  });
  const auto counts = open->finish(out);
  if (!counts || counts->written != expected_written || counts->written + counts->unchanged != files.size())
    stop("not the files were published that should have been");
}

template <class Work> double seconds(const Work& work) {
  const auto start = Clock::now();
  work();
  return std::chrono::duration<double>(Clock::now() - start).count();
}

double median(std::vector<double>& times) {
  std::ranges::sort(times);
  return times[times.size() / 2];
}

} // namespace

int main(int argc, char** argv) {
  const std::size_t count = argc > 1 ? std::max(40UL, std::strtoul(argv[1], nullptr, 10)) : 4'000;
  const int rounds = argc > 2 ? std::max(1, std::atoi(argv[2])) : 5;
  std::string pattern = (argc > 3 ? fs::path{argv[3]} : fs::temp_directory_path()) / "coeval-bench-XXXXXX";
  if (::mkdtemp(pattern.data()) == nullptr) stop("there is no room to work in");
  const fs::path base = pattern;
  const Files first = pages(count, "first");
  const Files second = pages(count, "second");
  Files one_changed = second;
  one_changed[count / 2].bytes += "<p>changed</p>\n";

  std::vector<double> plain;
  std::array<std::pair<const char*, std::vector<double>>, 4> measured{
      {{"into an empty folder", {}}, {"nothing changed", {}}, {"every page changed", {}}, {"one page changed", {}}}};
  for (int round = 0; round < rounds; ++round) {
    plain.push_back(seconds([&] { write_plainly(base / "plain", first); }));
    measured[0].second.push_back(seconds([&] { publish(base / "site", first, count); }));
    measured[1].second.push_back(seconds([&] { publish(base / "site", first, 0); }));
    measured[2].second.push_back(seconds([&] { publish(base / "site", second, count); }));
    measured[3].second.push_back(seconds([&] { publish(base / "site", one_changed, 1); }));
    fs::remove_all(base / "plain");
    fs::remove_all(base / "site");
  }
  fs::remove_all(base);

  const double files = static_cast<double>(count);
  const double loop = median(plain);
  std::printf("a loop that writes %zu files  %8.0f files/s\n", count, files / loop);
  for (auto& [what, times] : measured) {
    const double time = median(times);
    std::printf("%-27s  %8.0f files/s   %.2f of the loop's time\n", what, files / time, time / loop);
  }
  return 0;
}
