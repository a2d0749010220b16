// Are all files of a knowledge base found and read, and nothing else touched?
#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <functional>

#include <sys/stat.h>
#include <unistd.h>

#include "files/load.hpp"
#include "scratch.hpp"

using namespace coeval;
using coeval::testing::Scratch;
namespace fs = std::filesystem;

namespace {

struct Loaded {
  LoadResult result;
  std::vector<Diagnostic> reports;
  [[nodiscard]] std::vector<std::string> paths() const {
    std::vector<std::string> list;
    for (const SourceFile& file : result.sources.files) list.push_back(file.path());
    return list;
  }
  [[nodiscard]] std::vector<std::string> assets() const {
    return {result.sources.assets.begin(), result.sources.assets.end()};
  }
  // "code path" of each report.
  [[nodiscard]] std::vector<std::string> told() const {
    std::vector<std::string> list;
    for (const Diagnostic& report : reports) list.push_back(std::string{row(report.code).name} + " " + report.path);
    return list;
  }
};

Loaded load(const fs::path& root, const LoadLimits& limits = {}) {
  Loaded loaded;
  Diagnostics out;
  loaded.result = load_sources(root, out, limits);
  loaded.reports = out.sorted();
  return loaded;
}

using Strings = std::vector<std::string>;

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

} // namespace

TEST_CASE("every .toml file below the root is read, in the order of paths, and every other file listed") {
  const Scratch scratch;
  scratch.write("line.toml", "[line]\n");
  scratch.write("b/keeper-maren.toml", "[figure]\r\n");
  scratch.write("b/deep/er/x.toml");
  scratch.write("b.toml");
  scratch.write("B.toml");
  scratch.write("b/drawings/maren.svg");
  scratch.write("readme.txt");
  scratch.write("odd.TOML");
  scratch.write("toml");
  fs::create_directory(scratch.kb() / "folder.toml");
  scratch.write("folder.toml/inside.toml");
  const Loaded loaded = load(scratch.kb());
  CHECK(loaded.paths() ==
        Strings{"B.toml", "b.toml", "b/deep/er/x.toml", "b/keeper-maren.toml", "folder.toml/inside.toml", "line.toml"});
  CHECK(loaded.assets() == Strings{"b/drawings/maren.svg", "odd.TOML", "readme.txt", "toml"});
  CHECK(loaded.reports.empty());
  CHECK(loaded.result.broken.empty());
  CHECK(loaded.result.sources.root == scratch.kb().native());
  CHECK(loaded.result.sources.files[3].text() == "[figure]\r\n");
  CHECK(loaded.result.sources.files[5].text() == "[line]\n");
}

TEST_CASE("names that start with a dot are passed over, files, folders and links") {
  const Scratch scratch;
  scratch.write("a.toml");
  scratch.write(".hidden.toml");
  scratch.write(".git/config.toml");
  scratch.write(".picture.svg");
  scratch.link("/etc", ".outside");
  const Loaded loaded = load(scratch.kb());
  CHECK(loaded.paths() == Strings{"a.toml"});
  CHECK(loaded.assets().empty());
  CHECK(loaded.reports.empty());
}

TEST_CASE("the root may be hidden, relative, end in a slash, or be a link itself") {
  const Scratch scratch;
  scratch.write("a.toml");
  fs::create_directory(scratch.base() / ".kb");
  std::ofstream{scratch.base() / ".kb/b.toml"} << "x = 1\n";
  CHECK(load(scratch.base() / ".kb").paths() == Strings{"b.toml"});
  fs::create_directory_symlink(scratch.kb(), scratch.base() / "link");
  CHECK(load(scratch.base() / "link").paths() == Strings{"a.toml"});
  CHECK(load(scratch.base() / "link").reports.empty());
  CHECK(load(scratch.kb() / "").paths() == Strings{"a.toml"});
  const fs::path before = fs::current_path();
  fs::current_path(scratch.base());
  const Loaded relative = load("kb");
  fs::current_path(before);
  CHECK(relative.paths() == Strings{"a.toml"});
  CHECK(relative.result.sources.root == "kb");
}

TEST_CASE("a root that is missing, no folder, or without TOML is reported as the user wrote it") {
  const Scratch scratch;
  const std::string kb = scratch.kb().native();
  CHECK(load(kb).told() == Strings{"no-entries " + kb});
  scratch.write("readme.txt");
  const Loaded none = load(kb);
  CHECK(none.told() == Strings{"no-entries " + kb});
  CHECK(none.assets() == Strings{"readme.txt"});
  const Loaded missing = load(kb + "/nowhere");
  CHECK(missing.told() == Strings{"unreadable-folder " + kb + "/nowhere"});
  CHECK(missing.reports[0].message == "there is no such folder");
  const Loaded file = load(kb + "/readme.txt");
  CHECK(file.told() == Strings{"unreadable-folder " + kb + "/readme.txt"});
  CHECK(file.reports[0].message == "this is not a folder");
  CHECK(load(kb + "/readme.txt/below").reports[0].message == "this is not a folder");
  CHECK(load("").told() == Strings{"unreadable-folder "});
}

TEST_CASE("files and folders that may not be read are reported, and the others still read") {
  const Scratch scratch;
  fs::permissions(scratch.base(), fs::perms::all);
  scratch.write("a.toml");
  scratch.write("shut.toml");
  scratch.write("shut/inside.toml");
  fs::permissions(scratch.kb() / "shut.toml", fs::perms::none);
  fs::permissions(scratch.kb() / "shut", fs::perms::none);
  Loaded loaded;
  {
    const Unprivileged nobody;
    loaded = load(scratch.kb());
  }
  CHECK(loaded.paths() == Strings{"a.toml"});
  CHECK(loaded.told() == Strings{"unreadable-folder shut", "unreadable-file shut.toml"});
  CHECK(loaded.reports[1].message == "this file could not be read: reading is not allowed");
  fs::permissions(scratch.kb(), fs::perms::none);
  {
    const Unprivileged nobody;
    loaded = load(scratch.kb());
  }
  CHECK(loaded.told() == Strings{"unreadable-folder " + scratch.kb().native()});
  fs::permissions(scratch.kb(), fs::perms::all);
  fs::permissions(scratch.kb() / "shut", fs::perms::all);
}

TEST_CASE("a file may be as large as the limit and no larger") {
  const Scratch scratch;
  scratch.write("fits.toml", std::string(1000, '#'));
  scratch.write("over.toml", std::string(1001, '#'));
  scratch.write("picture.svg", std::string(5000, ' '));
  const Loaded loaded = load(scratch.kb(), {.file_bytes = 1000});
  CHECK(loaded.paths() == Strings{"fits.toml"});
  CHECK(loaded.told() == Strings{"file-too-large over.toml"});
  CHECK(loaded.reports[0].message == "this file is larger than 1000 bytes, so it was not read");
  scratch.write("four.toml", std::string((std::size_t{4} << 20) + 1, '#'));
  const Loaded usual = load(scratch.kb());
  CHECK(usual.paths() == Strings{"fits.toml", "over.toml"});
  REQUIRE(usual.told() == Strings{"file-too-large four.toml"});
  CHECK(usual.reports[0].message == "this file is larger than 4 MiB, so it was not read");
}

TEST_CASE("over the limit of files nothing is read, and that is the only report") {
  const Scratch scratch;
  for (int i = 0; i < 9; ++i) scratch.write("f" + std::to_string(i) + ".toml");
  scratch.write("x/y.svg"); // 11 with its folder
  CHECK(load(scratch.kb(), {.files = 11}).paths().size() == 9);
  CHECK(load(scratch.kb(), {.files = 11}).reports.empty());
  const Loaded over = load(scratch.kb(), {.files = 10});
  CHECK(over.told() == Strings{"too-many-files " + scratch.kb().native()});
  CHECK(over.paths().empty());
  CHECK(over.assets().empty());
}

TEST_CASE("links out of the knowledge base are reported and not followed") {
  const Scratch scratch;
  scratch.write("a.toml");
  std::ofstream{scratch.base() / "private.toml"} << "secret = 1\n";
  fs::create_directory(scratch.base() / "kb-other"); // a name that begins as the root's does
  std::ofstream{scratch.base() / "kb-other/c.toml"} << "x = 1\n";
  scratch.link("../private.toml", "b.toml");
  scratch.link(scratch.base() / "kb-other", "other");
  scratch.link("/", "everything");
  scratch.link("..", "up");
  scratch.link("sideways.toml", "twice.toml"); // by way of another link
  scratch.link("../private.toml", "sideways.toml");
  const Loaded loaded = load(scratch.kb());
  CHECK(loaded.paths() == Strings{"a.toml"});
  CHECK(loaded.assets().empty());
  CHECK(loaded.told() == Strings{"link-leaves-kb b.toml", "link-leaves-kb everything", "link-leaves-kb other",
                                 "link-leaves-kb sideways.toml", "link-leaves-kb twice.toml", "link-leaves-kb up"});
}

TEST_CASE("links inside are followed once, without doubles and without end") {
  const Scratch scratch;
  scratch.write("figures/a.toml");
  scratch.write("figures/a.svg");
  scratch.write("plain.txt", "y = 1\n");
  scratch.write(".store/b.toml", "z = 1\n");
  scratch.write(".store/deep/c.toml");
  scratch.link("figures", "again");            // a folder listed already
  scratch.link("figures/a.toml", "same.toml"); // a file read already
  scratch.link("../..", "figures/loop/up");    // the root, from below
  scratch.link(".", "here");
  scratch.link("figures/a.svg", "a.svg");  // a picture under a second name
  scratch.link("plain.txt", "named.toml"); // read under the name that makes it an entry
  scratch.link(".store", "store");         // hidden, so found through the link only
  scratch.link("store", "zz-store");
  const Loaded loaded = load(scratch.kb());
  CHECK(loaded.reports.empty());
  CHECK(loaded.paths() == Strings{"figures/a.toml", "named.toml", "store/b.toml", "store/deep/c.toml"});
  CHECK(loaded.assets() == Strings{"a.svg", "figures/a.svg", "plain.txt"});
  CHECK(loaded.result.sources.files[2].text() == "z = 1\n");
}

TEST_CASE("links that lead nowhere or in a circle are reported") {
  const Scratch scratch;
  scratch.write("a.toml");
  scratch.link("gone.toml", "b.toml");
  scratch.link("d.toml", "c.toml");
  scratch.link("c.toml", "d.toml");
  const Loaded loaded = load(scratch.kb());
  CHECK(loaded.paths() == Strings{"a.toml"});
  REQUIRE(loaded.told() == Strings{"unreadable-file b.toml", "unreadable-file c.toml", "unreadable-file d.toml"});
  CHECK(loaded.reports[0].message == "this link leads nowhere");
  CHECK(loaded.reports[1].message == "this link leads in a circle");
}

TEST_CASE("pipes and devices are never opened") {
  const Scratch scratch;
  scratch.write("a.toml");
  REQUIRE(::mkfifo((scratch.kb() / "pipe.toml").c_str(), 0600) == 0); // opening it would wait for ever
  REQUIRE(::mkfifo((scratch.kb() / "pipe").c_str(), 0600) == 0);
  scratch.link("pipe.toml", "to-pipe.toml");
  scratch.link("/dev/zero", "zero.toml");
  const Loaded loaded = load(scratch.kb());
  CHECK(loaded.paths() == Strings{"a.toml"});
  CHECK(loaded.assets().empty());
  CHECK(loaded.told() ==
        Strings{"unreadable-file pipe.toml", "unreadable-file to-pipe.toml", "link-leaves-kb zero.toml"});
}

TEST_CASE("text that is not UTF-8 is kept, marked as broken, and reported at its first bad byte") {
  const Scratch scratch;
  scratch.write("a.toml", "name = \"fine \xC3\xB6\"\n");
  scratch.write("b.toml", "\n\xC3\xB6 = \"\xE9t\xE9\"\n");
  scratch.write("c.toml", std::string_view{"\xFF\xFEx\0", 4});
  scratch.write("d.toml", "\xEF\xBB\xBFx = 1\n");
  scratch.write("e.toml", "cut \xE2\x82");
  scratch.write("picture.png", "\xFF\xFF");
  const Loaded loaded = load(scratch.kb());
  REQUIRE(loaded.paths() == Strings{"a.toml", "b.toml", "c.toml", "d.toml", "e.toml"});
  CHECK(loaded.result.broken == std::vector<FileIndex>{FileIndex{1}, FileIndex{2}, FileIndex{4}});
  REQUIRE(loaded.reports.size() == 3);
  for (const Diagnostic& report : loaded.reports) CHECK(report.code == Code::broken_utf8);
  CHECK(loaded.reports[0].place == Span{FileIndex{1}, 7, 8});
  CHECK(loaded.reports[0].message == "the byte 0xE9 is not UTF-8 text here, so this file was not read");
  CHECK(loaded.result.sources[FileIndex{1}].position(7).column == 6);
  CHECK(loaded.result.sources[FileIndex{1}].text() == "\n\xC3\xB6 = \"\xE9t\xE9\"\n");
  CHECK(loaded.reports[1].place == Span{FileIndex{2}, 0, 1});
  CHECK(loaded.reports[1].help == "the file is UTF-16: save it as UTF-8");
  CHECK(loaded.reports[2].place == Span{FileIndex{4}, 4, 5});
}

TEST_CASE("names need not be UTF-8, nor short, nor without line breaks") {
  const Scratch scratch;
  scratch.write("caf\xE9/\xFF.toml", "x = 1\n");
  scratch.write("two\nlines.toml");
  scratch.write(std::string(200, 'n') + ".toml");
  const Loaded loaded = load(scratch.kb());
  CHECK(loaded.reports.empty());
  CHECK(loaded.paths() == Strings{"caf\xE9/\xFF.toml", std::string(200, 'n') + ".toml", "two\nlines.toml"});
}

TEST_CASE("a tree deeper than the system's paths is read as far as they reach") {
  const Scratch scratch;
  scratch.write("a.toml");
  const std::string name(200, 'd');
  const fs::path before = fs::current_path();
  fs::current_path(scratch.kb());
  for (int depth = 0; depth < 25; ++depth) { // 25 times 201 bytes are more than 4096
    fs::create_directory(name);
    fs::current_path(name);
  }
  fs::current_path(before);
  const Loaded loaded = load(scratch.kb());
  CHECK(loaded.paths() == Strings{"a.toml"});
  REQUIRE(loaded.reports.size() == 1);
  CHECK(loaded.reports[0].code == Code::unreadable_file);
  CHECK(loaded.reports[0].message == "this could not be looked at: its path is too long");
}

TEST_CASE("the result is the same on one thread and on many") {
  const Scratch scratch;
  for (int i = 0; i < 300; ++i) {
    const std::string text = i % 50 == 7 ? "\xFF" : i % 50 == 9 ? std::string(600, '#') : "x = " + std::to_string(i);
    scratch.write("f" + std::to_string(i % 7) + "/" + std::to_string(i) + ".toml", text);
  }
  const Loaded one = load(scratch.kb(), {.file_bytes = 500, .threads = 1});
  CHECK(one.paths().size() == 294);
  CHECK(one.result.broken.size() == 6);
  CHECK(one.reports.size() == 12);
  for (const unsigned threads : {2U, 5U, 16U}) {
    const Loaded many = load(scratch.kb(), {.file_bytes = 500, .threads = threads});
    CHECK(many.paths() == one.paths());
    CHECK(many.told() == one.told());
    CHECK(many.result.broken == one.result.broken);
    CHECK(std::ranges::equal(many.result.sources.files, one.result.sources.files, {}, &SourceFile::text,
                             &SourceFile::text));
  }
}
