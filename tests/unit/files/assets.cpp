// Is a picture read as it is, and nothing else?
#include <catch2/catch.hpp>

#include <sys/stat.h>

#include "files/asset.hpp"
#include "scratch.hpp"

using namespace coeval;
using coeval::testing::Scratch;
namespace fs = std::filesystem;

namespace {

struct Read {
  std::optional<std::string> bytes;
  std::vector<Diagnostic> reports;
};

Read read(const Scratch& scratch, const std::string& path, std::size_t most = most_asset_bytes) {
  Diagnostics out;
  Read result{read_asset(scratch.kb(), path, out, most), {}};
  result.reports = out.sorted();
  return result;
}

void check_refused(const Read& read, Code code) {
  CHECK_FALSE(read.bytes);
  REQUIRE(read.reports.size() == 1);
  CHECK(read.reports.front().code == code);
  CHECK_FALSE(read.reports.front().help.empty());
}

} // namespace

TEST_CASE("an asset is read byte for byte") {
  const Scratch scratch;
  const std::string bytes("\x89PNG\0\xFF\r\n", 8);
  scratch.write("pictures/lantern.png", bytes);
  scratch.write("empty.png", "");
  const Read result = read(scratch, "pictures/lantern.png");
  REQUIRE(result.bytes);
  CHECK(*result.bytes == bytes);
  CHECK(result.reports.empty());
  REQUIRE(read(scratch, "empty.png").bytes);
  CHECK(read(scratch, "empty.png").bytes->empty());
}

TEST_CASE("an asset as large as the limit is read, a larger one is not") {
  const Scratch scratch;
  scratch.write("a.png", std::string(100'000, 'x'));
  CHECK(read(scratch, "a.png", 100'000).bytes);
  check_refused(read(scratch, "a.png", 99'999), Code::file_too_large);
}

TEST_CASE("nothing outside the knowledge base is read") {
  const Scratch scratch;
  std::ofstream{scratch.base() / "private.txt"} << "secret";
  scratch.write("a.png");
  fs::create_directory(scratch.base() / "kb-private");
  std::ofstream{scratch.base() / "kb-private" / "b.png"} << "secret";
  scratch.link(scratch.base() / "private.txt", "link.png");
  scratch.link(scratch.base(), "folder");
  for (const std::string path :
       {"../private.txt", "link.png", "folder/private.txt", "../kb-private/b.png", "a/../../private.txt", ".."})
    CHECK_FALSE(read(scratch, path).bytes);
  check_refused(read(scratch, "link.png"), Code::link_leaves_kb);
  check_refused(read(scratch, "../private.txt"), Code::link_leaves_kb);
  CHECK_FALSE(read(scratch, (scratch.base() / "private.txt").string()).bytes);
}

TEST_CASE("a link to another picture below the root is followed") {
  const Scratch scratch;
  scratch.write("pictures/a.png", "dots");
  scratch.link("pictures", "drawings");
  scratch.link("pictures/a.png", "b.png");
  CHECK(read(scratch, "b.png").bytes == "dots");
  CHECK(read(scratch, "drawings/a.png").bytes == "dots");
}

TEST_CASE("what is no file, is missing or may not be read is reported") {
  const Scratch scratch;
  scratch.write("folder/a.png");
  REQUIRE(::mkfifo((scratch.kb() / "pipe.png").c_str(), 0600) == 0);
  check_refused(read(scratch, "folder"), Code::unreadable_file);
  check_refused(read(scratch, "pipe.png"), Code::unreadable_file);
  check_refused(read(scratch, "gone.png"), Code::unreadable_file);
  check_refused(read(scratch, "folder/a.png/b"), Code::unreadable_file);
  scratch.link("loop.png", "loop.png");
  check_refused(read(scratch, "loop.png"), Code::unreadable_file);
}
