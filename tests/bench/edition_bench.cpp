// How many pages a second are rendered and published? edition_bench KB FOLDER RUNS: the last line of numbers is read by
// tests/bench/hugo/compare, which builds the same pages with Debian's Hugo in the same run.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

#include "edition.hpp"
#include "html/render.hpp"
#include "pages/site.hpp"
#include "publish/folder.hpp"

namespace {

using namespace coeval;

double seconds(const std::function<void()>& work) {
  const auto begin = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

// The median of several runs.
double median(int runs, const std::function<double()>& one) {
  std::vector<double> times;
  for (int i = 0; i < runs; ++i) times.push_back(one());
  std::ranges::sort(times);
  return times[times.size() / 2];
}

void on_threads(std::size_t count, const std::function<void(std::size_t)>& work) {
  std::atomic<std::size_t> next = 0;
  std::vector<std::jthread> threads;
  for (unsigned i = 0; i < std::max(1U, std::thread::hardware_concurrency()); ++i)
    threads.emplace_back([&] {
      for (std::size_t at = next++; at < count; at = next++) work(at);
    });
}

} // namespace

int main(int argc, char** argv) {
  if (argc != 4) {
    std::fprintf(stderr, "edition_bench KB FOLDER RUNS\n");
    return 2;
  }
  const int runs = std::max(1, std::atoi(argv[3]));
  const Compiled compiled = compile(argv[1], Depth::to_publish);
  if (compiled.has_errors) return 1;
  Diagnostics out;
  const TemplateResult templates = read_templates(builtin_template(), "site-template", out);
  if (!templates.templates) return 1;
  const Site site{{*compiled.kb, *compiled.dates, compiled.sources, {}}};
  const std::vector<PlannedPage>& planned = site.pages();

  std::vector<Page> pages(planned.size());
  const double build = median(runs, [&] {
    return seconds([&] { on_threads(planned.size(), [&](std::size_t i) { pages[i] = site.page(planned[i]); }); });
  });
  std::atomic<std::size_t> bytes = 0;
  const double render = median(runs, [&] {
    bytes = 0;
    return seconds([&] {
      on_threads(pages.size(), [&](std::size_t i) { bytes += render_page(*templates.templates, pages[i], {}).size(); });
    });
  });
  const std::filesystem::path folder = argv[2];
  const auto publish = [&] {
    auto target = OutputFolder::open(folder, out);
    if (!target) std::exit(1);
    const EditionOptions options{.one_file = false};
    const std::string mark = edition_mark(compiled, options, "bench", out);
    if (target->still_holds(edition_file, mark)) return; // as `coeval publish` does
    if (!target->write(edition_file, mark, out)) std::exit(1);
    make_edition(
        compiled, *templates.templates, options,
        [&](std::string_view path, std::string_view text) {
          Diagnostics here;
          if (!target->write(path, text, here)) std::exit(1);
        },
        [](std::size_t, std::size_t) {}, out);
    if (!target->finish(out)) std::exit(1);
  };
  const double fresh = median(runs, [&] {
    std::filesystem::remove_all(folder);
    return seconds(publish);
  });
  const double unchanged = median(runs, [&] { return seconds(publish); });
  const auto rate = [&](double time) { return static_cast<double>(pages.size()) / time; };
  std::printf("pages            %zu, %.1f kB each\n", pages.size(),
              static_cast<double>(bytes) / 1000 / static_cast<double>(pages.size()));
  std::printf("built as data    %8.0f pages/s\nrendered         %8.0f pages/s\npublished fresh  %8.0f pages/s\n"
              "published again  %8.0f pages/s, nothing changed\n",
              rate(build), rate(render), rate(fresh), rate(unchanged));
  std::printf("%zu %.6f %.6f %.6f %.6f\n", pages.size(), build, render, fresh, unchanged);
  return 0;
}
