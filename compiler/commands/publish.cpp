#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstdlib>
#include <memory>
#include <mutex>

#include <fmt/format.h>
#include <unistd.h>

#include "calendar/day.hpp"
#include "commands/command.hpp"
#include "commands/shelf_commands.hpp"
#include "commands/templates.hpp"
#include "commands/version.hpp"
#include "diagnose/near.hpp"
#include "edition.hpp"
#include "publish/folder.hpp"

namespace coeval {
namespace {

// A line on a terminal that is drawn over again, for publishes that take longer than a moment.
class ProgressBar {
public:
  explicit ProgressBar(bool shown) : shown_(shown) {}
  ~ProgressBar() {
    if (drawn_) print_error("\r\x1b[K");
  }
  void operator()(std::size_t done, std::size_t of) {
    if (!shown_) return;
    const std::scoped_lock lock{guard_};
    const auto now = std::chrono::steady_clock::now();
    if (now - last_ < std::chrono::milliseconds{100} || now - begun_ < std::chrono::milliseconds{400}) return;
    last_ = now;
    drawn_ = true;
    constexpr std::size_t width = 40;
    const std::size_t full = of == 0 ? width : width * done / of;
    print_error(
        fmt::format("\r\x1b[Kpages [{}{}] {} of {}", std::string(full, '#'), std::string(width - full, '.'), done, of));
  }

private:
  bool shown_;
  bool drawn_ = false;
  std::mutex guard_;
  std::chrono::steady_clock::time_point begun_ = std::chrono::steady_clock::now();
  std::chrono::steady_clock::time_point last_ = begun_;
};

// The day of SOURCE_DATE_EPOCH (https://reproducible-builds.org/specs/source-date-epoch/); empty where it is not set.
// Nothing where it is no number of seconds.
std::optional<std::string> given_date() {
  const char* text = std::getenv("SOURCE_DATE_EPOCH");
  if (text == nullptr || *text == '\0') return std::string{};
  char* end = nullptr;
  const long long seconds = std::strtoll(text, &end, 10);
  if (*end != '\0' || seconds < 0 || seconds / 86'400 > 10'000'000) return {};
  return iso(static_cast<Day>(seconds / 86'400));
}

// Pages and copies of entries in the knowledge base's own folder would be read as part of it the next time.
bool lies_within(const std::filesystem::path& folder, const std::filesystem::path& root) {
  std::error_code error;
  const std::filesystem::path inner = std::filesystem::weakly_canonical(folder, error);
  const std::filesystem::path outer = std::filesystem::weakly_canonical(root, error);
  const auto [end, rest] = std::ranges::mismatch(outer, inner);
  return end == outer.end();
}

} // namespace

std::optional<std::string> checked_base_url(const std::string& text) {
  if (text.empty()) return text;
  const bool web = text.starts_with("https://") || text.starts_with("http://");
  const bool clean = std::ranges::none_of(text, [](char c) {
    return static_cast<unsigned char>(c) <= ' ' || static_cast<unsigned char>(c) >= 0x7f || c == '"' || c == '<' ||
           c == '>' || c == '?' || c == '#';
  });
  const std::size_t host = text.find("//") + 2;
  if (!web || !clean || host >= text.size() || text[host] == '/') return {};
  return text.ends_with('/') ? text : text + "/";
}

int run_publish(const Settings& settings, const PublishSettings& publish) {
  const auto base_url = checked_base_url(publish.base_url);
  if (!base_url) {
    print_error(fmt::format("coeval: `{}` is no address of a site: --base-url https://example.org/reference/\n",
                            printable(publish.base_url)));
    return exit_usage;
  }
  const auto date = given_date();
  if (!date) {
    print_error("coeval: SOURCE_DATE_EPOCH is set, but is no number of seconds since 1970\n");
    return exit_usage;
  }
  const auto root = find_kb(settings);
  if (!root) return exit_usage;
  if (lies_within(publish.to, *root)) {
    print_error(fmt::format(
        "coeval: `{}` lies in the knowledge base `{}`, and what is published there would be read as part of it; "
        "choose a folder outside\n",
        printable(publish.to), printable(root->string())));
    return exit_usage;
  }
  std::error_code ignored;
  if (std::filesystem::exists(std::filesystem::path{publish.to} / private_shelf_file, ignored)) {
    print_error(fmt::format("coeval: `{}` holds the pages of a private shelf, and a site is for everybody; choose "
                            "another folder\n",
                            printable(publish.to)));
    return exit_usage;
  }
  const Session session{settings, Depth::to_publish};
  if (session.exit) return *session.exit;
  std::vector<std::unique_ptr<const NamedVersion>> earlier;
  for (const std::string& since : publish.since) {
    earlier.push_back(std::make_unique<const NamedVersion>(settings, since));
    if (earlier.back()->exit) return *earlier.back()->exit;
  }
  const LoadedTemplates loaded = load_templates(publish.templates);
  if (!loaded.diagnostics.empty()) print_error(render_text(loaded.diagnostics, loaded.sources, settings.err));
  if (!loaded.templates) return loaded.world_failed ? exit_world : exit_no;

  Diagnostics out;
  const auto failed = [&] {
    print_error(render_text(out.sorted(), session.sources(), settings.err));
    return exit_world;
  };
  auto folder = OutputFolder::open(publish.to, out);
  if (!folder) return failed();
  EditionOptions options{.base_url = *base_url, .date = *date, .maker = loaded.mark};
  options.keep = [&](std::string_view path, const FileRecipe& recipe) { return folder->keep(path, recipe); };
  for (const auto& version : earlier)
    options.since.push_back({version->public_name(), version->day(), &version->compiled()});
  const std::string mark = edition_mark(session.compiled(), options, out);
  const auto published = [&](const PublishCounts& counts) {
    if (const std::vector<Diagnostic> said = out.sorted(); !said.empty())
      print_error(render_text(said, session.sources(), settings.err));
    print(fmt::format("{}: {} written, {} unchanged, {} removed\n", printable(publish.to),
                      counted(counts.written, "file"), counts.unchanged, counts.removed));
    return exit_yes;
  };
  if (const auto there = folder->still_holds(edition_file, mark); there && !loaded.mark.empty())
    return published({.unchanged = *there});
  options.parts = folder->remembered();
  options.keep_parts = [&](std::string bytes) { folder->remember(std::move(bytes)); };
  options.earlier = [&](std::string_view path) { return folder->earlier(path); };
  folder->write(edition_file, mark, out);
  {
    ProgressBar bar{isatty(STDERR_FILENO) != 0};
    Diagnostics from_sink;
    std::mutex guard;
    make_edition(
        session.compiled(), *loaded.templates, options,
        [&](const EditionFile& file) {
          Diagnostics here;
          if (folder->write(file.path, file.bytes, here, file.recipe)) return;
          const std::scoped_lock lock{guard};
          from_sink.merge(std::move(here));
        },
        [&](std::size_t done, std::size_t of) { bar(done, of); }, out);
    out.merge(std::move(from_sink));
  }
  const auto counts = folder->finish(out);
  return counts ? published(*counts) : failed();
}

} // namespace coeval
