// How many pages a second are rendered and published? edition_bench KB FOLDER RUNS: the last line of numbers is read by
// tests/bench/hugo/compare, which builds the same pages with Debian's Hugo in the same run.
#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
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

// Publishes what has changed, and tells how many pages had to be made.
std::size_t publish_as_the_command_does(const Compiled& compiled, const Templates& templates,
                                        const std::filesystem::path& folder) {
  Diagnostics out;
  auto target = OutputFolder::open(folder, out);
  if (!target) std::exit(1);
  EditionOptions options{.one_file = false, .maker = "bench"};
  options.keep = [&](std::string_view path, const FileRecipe& recipe) { return target->keep(path, recipe); };
  const std::string mark = edition_mark(compiled, options, out);
  if (target->still_holds(edition_file, mark)) return 0;
  options.parts = target->remembered();
  options.keep_parts = [&](std::string bytes) { target->remember(std::move(bytes)); };
  options.earlier = [&](std::string_view path) { return target->earlier(path); };
  if (!target->write(edition_file, mark, out)) std::exit(1);
  std::atomic<std::size_t> made = 0;
  make_edition(
      compiled, templates, options,
      [&](const EditionFile& file) {
        if (file.recipe.content) ++made;
        Diagnostics here;
        if (!target->write(file.path, file.bytes, here, file.recipe)) std::exit(1);
      },
      [](std::size_t, std::size_t) {}, out);
  if (!target->finish(out)) std::exit(1);
  return made;
}

// One figure gets another name, and everything is compiled and published again: beside the same into an empty folder,
// and beside compiling alone, which no publish can do without.
void change_one_entry(const std::filesystem::path& original, const Templates& templates,
                      const std::filesystem::path& folder, int runs) {
  const std::filesystem::path kb = folder.string() + "-kb";
  std::filesystem::remove_all(kb);
  std::filesystem::copy(original, kb, std::filesystem::copy_options::recursive);
  std::filesystem::path file;
  std::string text;
  for (const auto& entry : std::filesystem::recursive_directory_iterator{kb})
    if (entry.path().extension() == ".toml" && (file.empty() || entry.path() < file)) {
      std::ifstream in{entry.path()};
      std::string read{std::istreambuf_iterator<char>{in}, {}};
      if (read.find("[figure]\n") == std::string::npos || read.find("\nname") == std::string::npos) continue;
      file = entry.path();
      text = std::move(read);
    }
  if (file.empty()) return;
  const auto rename = [&](const std::string& name) {
    std::string edited = text;
    edited.insert(edited.find('"', edited.find("\nname")) + 1, name);
    std::ofstream{file, std::ios::trunc} << edited;
  };
  std::size_t made = 0;
  const auto compile_and_publish = [&] {
    made = publish_as_the_command_does(compile(kb, Depth::to_publish), templates, folder);
  };
  const double full = median(runs, [&] {
    std::filesystem::remove_all(folder);
    return seconds(compile_and_publish);
  });
  int round = 0;
  const double again = median(runs, [&] {
    rename("Name " + std::to_string(++round) + " of ");
    return seconds(compile_and_publish);
  });
  const double floor = median(runs, [&] { return seconds([&] { (void)compile(kb, Depth::to_publish); }); });
  std::filesystem::remove_all(kb);
  std::printf("one figure renamed, compiled and published again: %.3f s, %zu pages made\n"
              "  %.3f of a full publish (%.3f s); compiling alone is %.3f of it\n",
              again, made, again / full, full, floor / full);
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
  const auto publish = [&] { (void)publish_as_the_command_does(compiled, *templates.templates, folder); };
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
  change_one_entry(argv[1], *templates.templates, folder, runs);
  std::printf("%zu %.6f %.6f %.6f %.6f\n", pages.size(), build, render, fresh, unchanged);
  return 0;
}
