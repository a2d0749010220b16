// Does one file, or one new folder, get to its place whole or not at all, and never over what is somebody else's?
#include "faults.hpp"
#include "scratch.hpp"

#include <cerrno>

#include "publish/file.hpp"

using namespace coeval;
using namespace coeval::publishing;

namespace {

const Replacing only_ours{.ours = [](std::string_view beginning) { return beginning.starts_with("ours"); },
                          .beginning = 8};

// The codes of the reports; none where it was written.
Strings told(const Diagnostics& out) {
  Strings list;
  for (const Diagnostic& diagnostic : out.sorted()) list.emplace_back(row(diagnostic.code).name);
  return list;
}

Strings write(const fs::path& path, std::string_view bytes, const Replacing& replacing) {
  Diagnostics out;
  const bool written = write_whole_file(path, bytes, replacing, out);
  CHECK(written == !out.has_errors());
  return told(out);
}

Strings write_folder(const fs::path& path, const std::vector<NewFile>& files) {
  Diagnostics out;
  const bool written = write_new_folder(path, files, out);
  CHECK(written == !out.has_errors());
  return told(out);
}

const std::vector<NewFile> some{{"a.toml", "a"}, {"figures/b.toml", "b"}};

} // namespace

TEST_CASE("a file takes its place where nothing is, or an earlier one of ours") {
  const Scratch scratch;
  const fs::path file = scratch.base() / "kb.json";
  CHECK(write(file, "ours, the first and longest", only_ours).empty());
  CHECK(write(file, "ours too", only_ours).empty());
  CHECK(files_in(scratch.base(), true) == Files{{"kb.json", "ours too"}});
}

TEST_CASE("what is somebody else's stays, unless it is to be replaced") {
  const Scratch scratch;
  for (const char* text : {"theirs", "", "our"}) {
    scratch.write("kb.json", text);
    CHECK(write(scratch.base() / "kb.json", "ours", only_ours) == Strings{"foreign-file"});
    CHECK(files_in(scratch.base(), true) == Files{{"kb.json", text}});
  }
  CHECK(write(scratch.base() / "kb.json", "ours", {.anything = true, .ours = {}}).empty());
  CHECK(content(scratch.base() / "kb.json") == "ours");
}

TEST_CASE("links, folders and devices stay whatever is asked for") {
  const Scratch scratch;
  scratch.write("kept", "theirs");
  fs::create_symlink("kept", scratch.base() / "link");
  fs::create_symlink("nowhere", scratch.base() / "dangling");
  fs::create_directory(scratch.base() / "folder");
  REQUIRE(::mkfifo((scratch.base() / "pipe").c_str(), 0600) == 0);
  for (const char* name : {"link", "dangling", "folder", "pipe"})
    CHECK(write(scratch.base() / name, "ours", {.anything = true, .ours = {}}) == Strings{"foreign-file"});
  CHECK(content(scratch.base() / "kept") == "theirs");
  CHECK_FALSE(fs::exists(scratch.base() / "nowhere"));
  CHECK(write(scratch.base() / "missing/kb.json", "ours", only_ours) == Strings{"unwritable-folder"});
  CHECK(write(scratch.base() / "folder" / "", "ours", only_ours) == Strings{"unwritable-folder"});
  CHECK(write(scratch.base() / "..", "ours", only_ours) == Strings{"unwritable-folder"});
}

TEST_CASE("whichever call fails, the file is the old one or the new, whole, and nothing is left beside it") {
  const Scratch scratch{in_memory()};
  const fs::path file = scratch.base() / "kb.json";
  const std::string large(1 << 20, 'x');
  int kept = 0;
  for (int at = 1; at < 20; ++at) {
    fs::remove(file);
    scratch.write("kb.json", "ours, old");
    set_fault(at, ENOSPC);
    Diagnostics out;
    const bool written = write_whole_file(file, large, only_ours, out);
    clear_fault();
    CHECK(files_in(scratch.base(), true).size() == 1);
    const std::string now = content(file);
    CHECK((now == large || (!written && now == "ours, old")));
    if (now == large) continue;
    ++kept;
    CHECK(told(out) == Strings{"disk-full"});
  }
  CHECK(kept >= 6); // opening, writing, owner, permissions, flushing, renaming
}

TEST_CASE("a file that is replaced keeps its permissions, and a new one gets those that are asked for") {
  const Scratch scratch;
  const fs::path file = scratch.base() / "shelf.csv";
  Diagnostics out;
  CHECK(write_whole_file(file, "one", {}, out, 0600));
  CHECK(fs::status(file).permissions() == fs::perms{0600});
  fs::permissions(file, fs::perms{0640});
  CHECK(write_whole_file(file, "two", {.anything = true, .ours = {}}, out));
  CHECK(fs::status(file).permissions() == fs::perms{0640});
  CHECK_FALSE(write_whole_file(file, "three", {}, out));
  CHECK(told(out) == Strings{"foreign-file"});
  CHECK(content(file) == "two");
}

TEST_CASE("a folder appears whole, in place of nothing or of an empty one") {
  const Scratch scratch;
  CHECK(write_folder(scratch.base() / "kb", some).empty());
  CHECK(files_in(scratch.base(), true) == Files{{"kb/a.toml", "a"}, {"kb/figures/b.toml", "b"}});
  fs::create_directory(scratch.base() / "empty");
  CHECK(write_folder(scratch.base() / "empty" / "", some).empty());
  CHECK(files_in(scratch.base() / "empty", true) == Files{{"a.toml", "a"}, {"figures/b.toml", "b"}});
}

TEST_CASE("a folder never takes the place of anything that is there") {
  const Scratch scratch;
  scratch.write("full/theirs", "theirs");
  scratch.write("file", "theirs");
  fs::create_directory(scratch.base() / "target");
  fs::create_symlink("target", scratch.base() / "link");
  const Files before = files_in(scratch.base(), true);
  for (const char* name : {"full", "file", "link"})
    CHECK(write_folder(scratch.base() / name, some) == Strings{"foreign-file"});
  CHECK(write_folder(scratch.base() / "missing" / "kb", some) == Strings{"unwritable-folder"});
  CHECK(files_in(scratch.base(), true) == before);
}

TEST_CASE("whichever call fails, no part of a folder appears") {
  const Scratch scratch{in_memory()};
  int failures = 0;
  for (int at = 1; at < 20; ++at) {
    set_fault(at, EACCES);
    Diagnostics out;
    const bool written = write_new_folder(scratch.base() / "kb", some, out);
    clear_fault();
    CHECK(files_in(scratch.base(), true).size() == (written ? some.size() : 0));
    if (!written) ++failures;
    fs::remove_all(scratch.base() / "kb");
  }
  CHECK(failures >= 4);
}
