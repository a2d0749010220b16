// Is a site that is published over an older one the same, file by file, as one published into an empty folder?
//
// Knowledge bases are generated, then edited at random: dates, names, notes, whole entries, files. Seeds are fixed and
// printed.
#include <algorithm>
#include <atomic>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <mutex>
#include <random>
#include <string>
#include <vector>

#include <unistd.h>

#include <catch2/catch.hpp>

#include "edition.hpp"
#include "generate/written.hpp"
#include "publish/folder.hpp"

using namespace coeval;
namespace fs = std::filesystem;

namespace {

using Files = std::map<std::string, std::string>; // path → bytes

// A folder of its own, in memory where there is one, gone with the test.
class Scratch {
public:
  Scratch() {
    std::string pattern = ::access("/dev/shm", W_OK) == 0 ? "/dev/shm" : fs::temp_directory_path().string();
    pattern += "/coeval-edition-XXXXXX";
    if (::mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no scratch folder");
    path_ = pattern;
  }
  ~Scratch() {
    std::error_code error;
    fs::remove_all(path_, error);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  [[nodiscard]] fs::path operator/(const char* name) const { return path_ / name; }

private:
  fs::path path_;
};

void write_files(const fs::path& folder, const Files& files) {
  fs::remove_all(folder);
  for (const auto& [path, bytes] : files) {
    fs::create_directories((folder / path).parent_path());
    std::ofstream{folder / path, std::ios::binary} << bytes;
  }
}

Files read_files(const fs::path& folder) {
  Files files;
  for (const auto& entry : fs::recursive_directory_iterator{folder}) {
    const std::string path = fs::relative(entry.path(), folder).string();
    if (!entry.is_regular_file() || path.starts_with(".coeval-")) continue;
    std::ifstream in{entry.path(), std::ios::binary};
    files[path] = {std::istreambuf_iterator<char>{in}, {}};
  }
  return files;
}

struct PagesCount {
  std::size_t made = 0;
  std::size_t kept = 0;
};

// Publishes as `coeval publish` does; nothing where the knowledge base has errors.
std::optional<PagesCount> publish(const fs::path& kb, const fs::path& site, const Templates& templates,
                                  EditionOptions options) {
  const Compiled compiled = compile(kb, Depth::to_publish);
  if (compiled.has_errors) return {};
  Diagnostics out;
  auto folder = OutputFolder::open(site, out);
  REQUIRE(folder);
  std::atomic<std::size_t> made = 0;
  std::atomic<std::size_t> kept = 0;
  options.one_file = false;
  options.keep = [&](std::string_view path, const FileRecipe& recipe) {
    const auto content = folder->keep(path, recipe);
    if (content) ++kept;
    return content;
  };
  options.parts = folder->remembered();
  options.keep_parts = [&](std::string bytes) { folder->remember(std::move(bytes)); };
  options.earlier = [&](std::string_view path) { return folder->earlier(path); };
  std::mutex guard;
  make_edition(
      compiled, templates, options,
      [&](const EditionFile& file) {
        if (file.recipe.content) ++made;
        Diagnostics own;
        folder->write(file.path, file.bytes, own, file.recipe);
        const std::scoped_lock lock{guard};
        out.merge(std::move(own));
      },
      [](std::size_t, std::size_t) {}, out);
  CHECK(folder->finish(out));
  CHECK(out.sorted().empty());
  return PagesCount{made, kept};
}

using Dice = std::mt19937_64;
std::size_t below(Dice& dice, std::size_t count) { return static_cast<std::size_t>(dice() % count); }

// The places of a line's beginnings in a file that start so.
std::vector<std::size_t> lines_with(const std::string& text, std::string_view start) {
  std::vector<std::size_t> places;
  for (std::size_t at = text.find(start); at != std::string::npos; at = text.find(start, at + 1))
    if (at == 0 || text[at - 1] == '\n') places.push_back(at);
  return places;
}

// One edit that a curator could make. What it breaks, if anything, is left for the compiler to refuse.
void edit(Files& files, Dice& dice) {
  auto file = std::next(files.begin(), static_cast<std::ptrdiff_t>(below(dice, files.size())));
  std::string& text = file->second;
  const auto one_line = [&](std::string_view start) -> std::optional<std::size_t> {
    const std::vector<std::size_t> places = lines_with(text, start);
    if (places.empty()) return {};
    return places[below(dice, places.size())];
  };
  switch (below(dice, 6)) {
  case 0: // another name, on every page that links to it
    if (const auto at = one_line("name = \"")) text.insert(*at + 8, "New ");
    return;
  case 1: // a day that is known less exactly, and with it what follows from it
    for (const std::string_view key : {"made = \"", "used = \"", "packed = \""})
      if (const auto at = one_line(key)) {
        const std::size_t end = text.find('"', *at + key.size());
        text.replace(*at + key.size(), end - *at - key.size(), "../1999");
        return;
      }
    return;
  case 2: // everything below moves down by a line, and so does where it stands
    text.insert(0, "# read again\n");
    return;
  case 3: // weaker evidence
    if (const auto at = one_line("basis = \"documented\"")) text.replace(*at, 20, "basis = \"reported\"");
    return;
  case 4: // a statement less
    for (const std::string_view table : {"[[issue.pairing]]", "[[mould.timing]]", "[[issue.takes]]"})
      if (const auto at = one_line(table)) {
        const std::size_t end = std::min(text.find("\n[", *at), text.size() - 1);
        text.erase(*at, end + 1 - *at);
        return;
      }
    return;
  default: // a file less
    if (files.size() > 1) files.erase(file);
    return;
  }
}

} // namespace

TEST_CASE("a site published over older ones is the same as one published afresh") {
  const auto seed = GENERATE(range(1, 3));
  CAPTURE(seed);
  Dice dice{static_cast<std::uint64_t>(seed)};
  Files files;
  generated::write_history({.runs = 10, .seed = static_cast<std::uint64_t>(seed), .links = 40},
                           [&](const std::string& path, const std::string& text) { files[path] = text; });
  Diagnostics out;
  const TemplateResult templates = read_templates(builtin_template(), "site-template", out);
  REQUIRE(templates.templates);
  const Scratch scratch;
  EditionOptions options{.base_url = "https://example.org/", .date = "2026-11-25", .maker = "one"};
  int published = 0;
  std::size_t kept = 0;
  for (int round = 0; round < 8; ++round) {
    CAPTURE(round);
    Files edited = files;
    if (round > 0)
      for (std::size_t edits = 1 + below(dice, 2); edits > 0; --edits) edit(edited, dice);
    if (round == 4) options.date = "2026-11-26"; // what every page is made with
    if (round == 6) options.maker = "another";
    write_files(scratch / "kb", edited);
    const auto again = publish(scratch / "kb", scratch / "again", *templates.templates, options);
    if (!again) continue; // not a knowledge base any more: the site stays as it was
    ++published;
    kept += again->kept;
    if (round == 4 || round == 6) CHECK(again->kept == 0);
    fs::remove_all(scratch / "fresh");
    const auto fresh = publish(scratch / "kb", scratch / "fresh", *templates.templates, options);
    REQUIRE(fresh);
    CHECK(fresh->kept == 0);
    CHECK(fresh->made == again->made + again->kept);
    CHECK((read_files(scratch / "again") == read_files(scratch / "fresh")));
    files = std::move(edited);
  }
  CHECK(published > 3);
  CHECK(kept > 0);
}

TEST_CASE("after an edit of one note, as many pages are made in a large knowledge base as in a small one") {
  Diagnostics out;
  const TemplateResult templates = read_templates(builtin_template(), "site-template", out);
  REQUIRE(templates.templates);
  const auto made_again = [&](std::uint32_t runs) {
    Files files;
    generated::write_history({.runs = runs, .seed = 1976},
                             [&](const std::string& path, const std::string& text) { files[path] = text; });
    const Scratch scratch;
    const EditionOptions options{.maker = "one"};
    write_files(scratch / "kb", files);
    REQUIRE(publish(scratch / "kb", scratch / "site", *templates.templates, options));
    const auto figure =
        std::ranges::find_if(files, [](const auto& file) { return file.first.find("/figures/") != std::string::npos; });
    REQUIRE(figure != files.end());
    figure->second += "\n# read again\n";
    figure->second.replace(figure->second.find("name = \""), 8, "name = \"New ");
    write_files(scratch / "kb", files);
    const auto counts = publish(scratch / "kb", scratch / "site", *templates.templates, options);
    REQUIRE(counts);
    CHECK(counts->made > 0);
    return counts->made;
  };
  const std::size_t small = made_again(20);
  const std::size_t large = made_again(80);
  CAPTURE(small, large);
  CHECK(large < 2 * small + 20);
}

TEST_CASE("what is left of the earlier site is taken up only where it is whole") {
  Diagnostics out;
  const TemplateResult templates = read_templates(builtin_template(), "site-template", out);
  REQUIRE(templates.templates);
  Files files;
  generated::write_history({.runs = 20, .seed = 1976},
                           [&](const std::string& path, const std::string& text) { files[path] = text; });
  const Scratch scratch;
  const EditionOptions options{.maker = "one"};
  const auto figure =
      std::ranges::find_if(files, [](const auto& file) { return file.first.find("/figures/") != std::string::npos; });
  REQUIRE(figure != files.end());
  const std::size_t name = figure->second.find("name = \"") + 8;
  const std::string_view damaged = GENERATE("data/kb.sqlite", ".coeval-parts", "data/kb.json", "");
  CAPTURE(damaged);
  for (std::size_t round = 0; round < 8; ++round) {
    CAPTURE(round);
    figure->second.insert(name, "x");
    write_files(scratch / "kb", files);
    REQUIRE(publish(scratch / "kb", scratch / "again", *templates.templates, options));
    fs::remove_all(scratch / "fresh");
    REQUIRE(publish(scratch / "kb", scratch / "fresh", *templates.templates, options));
    REQUIRE((read_files(scratch / "again") == read_files(scratch / "fresh")));
    if (damaged.empty()) continue;
    // As a failing disk would: the size and the modification time stay.
    const fs::path file = scratch / "again" / damaged;
    const auto modified = fs::last_write_time(file);
    {
      std::fstream bytes{file, std::ios::binary | std::ios::in | std::ios::out};
      const auto place = static_cast<std::streamoff>(fs::file_size(file) * round / 8 + round);
      bytes.seekg(place);
      const int byte = bytes.get();
      bytes.seekp(place);
      bytes.put(static_cast<char>(byte ^ 4));
    }
    fs::last_write_time(file, modified);
  }
}
