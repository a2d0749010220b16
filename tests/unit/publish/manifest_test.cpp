// Is the list of published files believed only when it is whole, and does nothing in it lead out of the folder?
#include "scratch.hpp"

#include <fmt/format.h>

#include "publish/manifest.hpp"

using namespace coeval;
using namespace coeval::publishing;

namespace {

// A list with the right first and last line around these, as somebody would forge it.
std::string forged(const std::string& lines, std::size_t count) {
  const std::string head = "coeval-manifest 1\n" + lines;
  const ContentHash hash = hash_of(head);
  return head + fmt::format("end {} {:016x}{:016x}\n", count, hash.high, hash.low);
}

std::string line_of(const std::string& bytes, const std::string& path) {
  const ContentHash hash = hash_of(bytes);
  return fmt::format("{:016x}{:016x} {} 0 {}\n", hash.high, hash.low, bytes.size(), path);
}

} // namespace

TEST_CASE("the hash is XXH3 of 128 bits") {
  // The digest of no bytes with seed 0; value from memory.
  CHECK(hash_of("") == ContentHash{0x99aa06d3014798d8U, 0x6001c324468d497fU});
  CHECK(hash_of("a") != hash_of("b"));
}

TEST_CASE("a list reads back as it was written") {
  Manifest manifest;
  manifest["a.html"] = {{hash_of("a"), 1, 1'700'000'000'123'456'789}};
  manifest["b/c.html"] = {{hash_of("b"), 2, -1}, {hash_of("c"), std::uint64_t{1} << 40, 0}};
  const std::string text = manifest_text(manifest);
  REQUIRE(read_manifest(text));
  CHECK(*read_manifest(text) == manifest);
  CHECK(read_manifest(manifest_text({})) == Manifest{});
  CHECK(text.starts_with("coeval-manifest 1\n"));
  CHECK(text.find(" 1 1700000000123456789 a.html\n") != std::string::npos);
}

TEST_CASE("a list of which any one byte is wrong or missing is not believed") {
  Manifest manifest;
  for (int i = 0; i < 5; ++i) manifest["p" + std::to_string(i)] = {{hash_of("x"), 1, i}};
  const std::string text = manifest_text(manifest);
  for (std::size_t i = 0; i < text.size(); ++i) {
    INFO(i);
    std::string changed = text;
    changed[i] = static_cast<char>(changed[i] ^ 1);
    CHECK_FALSE(read_manifest(changed));
    CHECK_FALSE(read_manifest(text.substr(0, i)));
    CHECK_FALSE(read_manifest(text.substr(0, i) + text.substr(i + 1)));
  }
  CHECK_FALSE(read_manifest(text + "\n"));
  CHECK_FALSE(read_manifest(text + text));
}

TEST_CASE("a forged list may not name anything outside, nor be of another shape") {
  const std::string good = line_of("x", "a.html");
  REQUIRE(read_manifest(forged(good, 1)));
  CHECK_FALSE(read_manifest(forged(good, 2)));
  CHECK_FALSE(read_manifest(forged("", 1)));
  for (const std::string path :
       {"../a", "/etc/passwd", "a/../../b", "", ".", "a//b", "A", ".coeval-lock", ".coeval-staging/files/a", "a b"}) {
    INFO(path);
    CHECK_FALSE(read_manifest(forged(line_of("x", path), 1)));
  }
  const std::string hash(32, '0');
  for (const std::string line : {"0 1 1 a", "", "a", " ", "    ", "x 1 1 a", "00000000000000000000000000000000 -1 1 a",
                                 "00000000000000000000000000000000 1 99999999999999999999 a",
                                 "00000000000000000000000000000000 99999999999999999999 1 a",
                                 "00000000000000000000000000000000 1  1 a", "00000000000000000000000000000000 1 1",
                                 "+0000000000000000000000000000000 1 1 a", "0x000000000000000000000000000000 1 1 a"}) {
    INFO(line);
    CHECK_FALSE(read_manifest(forged(std::string{line} + "\n", 1)));
  }
  for (const std::string_view text : {"", "\n", "coeval-manifest 1\n", "coeval-manifest 2\n", "coeval-manifest 1",
                                      "end 0 0\n", "coeval-manifest 1\nend 0 00000000000000000000000000000000\n"})
    CHECK_FALSE(read_manifest(text));
}

TEST_CASE("a damaged list makes no file ours: what is the same is taken over, what differs is in the way") {
  for (const std::string& damage : {std::string{}, std::string{"nonsense\n"}, std::string(1000, '\0')}) {
    const Scratch scratch;
    publish(scratch.site(), {{"a.html", "a"}, {"b.html", "b"}, {"stale.html", "s"}});
    scratch.write("site/.coeval-manifest", damage);
    const Published differs = publish(scratch.site(), {{"a.html", "a"}, {"b.html", "new"}});
    CHECK(counted(differs) == "nothing");
    CHECK(differs.told() == Strings{"broken-manifest site/.coeval-manifest", "foreign-file site/b.html"});
    CHECK(files_in(scratch.site()) == Files{{"a.html", "a"}, {"b.html", "b"}, {"stale.html", "s"}});
    const Published same = publish(scratch.site(), {{"a.html", "a"}, {"b.html", "b"}});
    CHECK(same.told() == Strings{"broken-manifest site/.coeval-manifest"});
    CHECK(counted(same) == "0 2 0");
    CHECK(publish(scratch.site(), {{"a.html", "a"}, {"b.html", "new"}}).told().empty());
    CHECK(files_in(scratch.site()) == Files{{"a.html", "a"}, {"b.html", "new"}, {"stale.html", "s"}});
  }
}

TEST_CASE("a list that is a link, a pipe or a folder is not followed, not waited for and not believed") {
  const Scratch scratch;
  publish(scratch.base() / "elsewhere", {{"a.html", "a"}, {"b.html", "b"}});
  publish(scratch.site(), {{"a.html", "a"}});
  const fs::path list = scratch.site() / ".coeval-manifest";
  scratch.write("site/b.html", "b");
  fs::remove(list);
  SECTION("link") { fs::create_symlink("../elsewhere/.coeval-manifest", list); }
  SECTION("pipe") { REQUIRE(::mkfifo(list.c_str(), 0600) == 0); }
  const Published published = publish(scratch.site(), {{"a.html", "a"}});
  CHECK(published.told() == Strings{"broken-manifest site/.coeval-manifest"});
  CHECK(counted(published) == "0 1 0");
  CHECK(files_in(scratch.site()) == Files{{"a.html", "a"}, {"b.html", "b"}});
  CHECK(fs::is_regular_file(fs::symlink_status(list)));
  CHECK(files_in(scratch.base() / "elsewhere") == Files{{"a.html", "a"}, {"b.html", "b"}});
}

TEST_CASE("a list that is too large is not read") {
  const Scratch scratch;
  fs::create_directories(scratch.site());
  scratch.write("site/.coeval-manifest", "");
  fs::resize_file(scratch.site() / ".coeval-manifest", largest_manifest + 1);
  CHECK(publish(scratch.site(), {{"a.html", "a"}}).told() == Strings{"broken-manifest site/.coeval-manifest"});
}
