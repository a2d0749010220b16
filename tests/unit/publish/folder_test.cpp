// Is what a publish was given in the folder afterwards, and nothing written that was there already?
#include "scratch.hpp"

#include <fstream>
#include <thread>

#include <unistd.h>

using namespace coeval;
using namespace coeval::publishing;

namespace {

const Files site{{"index.html", "<p>home</p>"},
                 {"figures/keeper-maren/index.html", "<p>Keeper Maren</p>"},
                 {"figures/mudlark-pip/index.html", "<p>Mudlark Pip</p>"},
                 {"style.css", "p { margin: 0 }"},
                 {"data/kb.sqlite", std::string("\0binary\0", 8)},
                 {"empty.txt", ""}};

} // namespace

TEST_CASE("a folder that is missing is made, with those above it, and filled") {
  const Scratch scratch;
  const fs::path folder = scratch.base() / "deep" / "er" / "site";
  const Published published = publish(folder, site);
  CHECK(published.told().empty());
  CHECK(counted(published) == "6 0 0");
  CHECK(files_in(folder) == site);
  CHECK_FALSE(fs::exists(folder / ".coeval-staging"));
}

TEST_CASE("files get the permissions that the umask leaves them") {
  const Scratch scratch;
  const mode_t before = ::umask(0027);
  publish(scratch.site(), site);
  ::umask(before);
  struct stat status {};
  REQUIRE(::stat((scratch.site() / "figures/mudlark-pip/index.html").c_str(), &status) == 0);
  CHECK((status.st_mode & 07777) == 0640);
  REQUIRE(::stat((scratch.site() / "figures/mudlark-pip").c_str(), &status) == 0);
  CHECK((status.st_mode & 07777) == 0750);
  REQUIRE(::stat((scratch.site() / "index.html").c_str(), &status) == 0);
  CHECK((status.st_mode & 07777) == 0640);
}

TEST_CASE("what has not changed keeps its inode and modification time, down to the list of files and the folder") {
  const Scratch scratch;
  publish(scratch.site(), site);
  std::map<std::string, Identity> before;
  for (const auto& [path, bytes] : files_in(scratch.site(), true))
    before.emplace(path, identity(scratch.site() / path));
  before.emplace(".", identity(scratch.site()));
  REQUIRE(before.size() == site.size() + 3); // the list, the lock and the folder itself
  const Published again = publish(scratch.site(), site);
  CHECK(counted(again) == "0 6 0");
  for (const auto& [path, was] : before) {
    INFO(path);
    CHECK(identity(scratch.site() / path) == was);
  }
}

TEST_CASE("a folder tells whether it still holds what was made from the same, and nobody touched it") {
  const Scratch scratch;
  const auto holds = [&](std::string_view bytes) {
    Diagnostics out;
    const auto folder = OutputFolder::open(scratch.site(), out);
    REQUIRE(folder);
    return folder->still_holds("style.css", bytes);
  };
  CHECK_FALSE(holds("p { margin: 0 }")); // nothing is there yet
  publish(scratch.site(), site);
  CHECK(holds("p { margin: 0 }") == site.size());
  CHECK_FALSE(holds("p { margin: 1 }"));
  SECTION("an edit is seen") { std::ofstream{scratch.site() / "index.html"} << "<p>hoax</p>"; }
  SECTION("a lost file is seen") { fs::remove(scratch.site() / "empty.txt"); }
  SECTION("a link in the place of a file is seen") {
    fs::remove(scratch.site() / "index.html");
    fs::create_symlink("style.css", scratch.site() / "index.html");
  }
  CHECK_FALSE(holds("p { margin: 0 }"));
}

TEST_CASE("only what has changed is written, what is new appears and what is stale goes, with folders left empty") {
  const Scratch scratch;
  publish(scratch.site(), site);
  Files next = site;
  next["style.css"] = "p { margin: 1em }";
  next["periods/index.html"] = "<p>periods</p>";
  next["figures/a.html"] = "<p>a new file in an old folder</p>";
  next.erase("figures/mudlark-pip/index.html");
  next.erase("empty.txt");
  const Identity index = identity(scratch.site() / "index.html");
  const Published published = publish(scratch.site(), next);
  CHECK(published.told().empty());
  CHECK(counted(published) == "3 3 2");
  CHECK(files_in(scratch.site()) == next);
  CHECK(identity(scratch.site() / "index.html") == index);
  CHECK_FALSE(fs::exists(scratch.site() / "figures/mudlark-pip"));
  CHECK(fs::exists(scratch.site() / "figures/keeper-maren"));
  CHECK(counted(publish(scratch.site(), next)) == "0 6 0");
  CHECK(counted(publish(scratch.site(), {})) == "0 0 6");
  CHECK(files_in(scratch.site()).empty());
  CHECK_FALSE(fs::exists(scratch.site() / "figures"));
}

TEST_CASE("the same size does not make a file the same") {
  const Scratch scratch;
  publish(scratch.site(), {{"a.html", "1976"}, {"b.html", "1977"}});
  CHECK(counted(publish(scratch.site(), {{"a.html", "1977"}, {"b.html", "1977"}})) == "1 1 0");
  CHECK(files_in(scratch.site()) == Files{{"a.html", "1977"}, {"b.html", "1977"}});
}

TEST_CASE("a file of ours that was deleted comes back") {
  const Scratch scratch;
  publish(scratch.site(), site);
  fs::remove(scratch.site() / "style.css");
  fs::remove_all(scratch.site() / "figures");
  CHECK(counted(publish(scratch.site(), site)) == "3 3 0");
  CHECK(files_in(scratch.site()) == site);
}

TEST_CASE("a site that was copied, so that every time is new, is not written again") {
  const Scratch scratch;
  publish(scratch.site(), site);
  fs::copy(scratch.site(), scratch.base() / "copy", fs::copy_options::recursive);
  const Identity index = identity(scratch.base() / "copy/index.html");
  CHECK(counted(publish(scratch.base() / "copy", site)) == "0 6 0");
  CHECK(identity(scratch.base() / "copy/index.html") == index);
}

TEST_CASE("a file may become a folder, and a folder a file") {
  const Scratch scratch;
  const Files first{{"a", "file"}, {"b/x/y.html", "page"}, {"b/z.html", "page"}, {"a-b", "between"}};
  const Files second{{"a/x.html", "page"}, {"a/y.html", "page"}, {"b", "file"}, {"a-b", "between"}};
  publish(scratch.site(), first);
  const Published there = publish(scratch.site(), second);
  CHECK(there.told().empty());
  CHECK(counted(there) == "3 1 3");
  CHECK(files_in(scratch.site()) == second);
  const Published back = publish(scratch.site(), first);
  CHECK(counted(back) == "3 1 3");
  CHECK(files_in(scratch.site()) == first);
}

TEST_CASE("until it is finished, a publish changes nothing, and dropped it leaves nothing behind") {
  const Scratch scratch;
  publish(scratch.site(), site);
  const Files before = files_in(scratch.site(), true);
  {
    Diagnostics out;
    auto folder = OutputFolder::open(scratch.site(), out);
    REQUIRE(folder);
    CHECK(folder->write("index.html", "<p>new</p>", out));
    CHECK(folder->write("new/index.html", "<p>new</p>", out));
    CHECK(files_in(scratch.site()) == site);
  }
  CHECK(files_in(scratch.site(), true) == before);
  CHECK_FALSE(fs::exists(scratch.site() / ".coeval-staging"));
}

TEST_CASE("two threads may write") {
  const Scratch scratch;
  Files many;
  for (int i = 0; i < 400; ++i)
    many["figures/f" + std::to_string(i % 20) + "/p" + std::to_string(i) + ".html"] =
        std::string(100, char('a' + i % 26));
  for (const std::string round : {"400 0 0", "0 400 0"}) {
    Diagnostics out;
    auto folder = OutputFolder::open(scratch.site(), out);
    REQUIRE(folder);
    const auto half = [&](bool odd) {
      bool mine = false;
      for (const auto& [path, bytes] : many)
        if ((mine = !mine) == odd) folder->write(path, bytes, out);
    };
    {
      const std::jthread one{half, true};
      const std::jthread other{half, false};
    }
    Published published;
    published.counts = folder->finish(out);
    CHECK(counted(published) == round);
    CHECK(out.sorted().empty());
    CHECK(files_in(scratch.site()) == many);
  }
}

TEST_CASE("the result does not depend on the order of writing") {
  const Scratch scratch;
  Diagnostics out;
  auto folder = OutputFolder::open(scratch.site(), out);
  for (auto at = site.rbegin(); at != site.rend(); ++at) CHECK(folder->write(at->first, at->second, out));
  CHECK(folder->finish(out));
  CHECK(files_in(scratch.site()) == site);
}

TEST_CASE("a path that is none is a mistake of the program's") {
  for (const std::string good :
       {"a", "index.html", "a/b/c-d_e.9", "..a", "a..", ".well-known/x", "...", ".htaccess", "a/.coeval-lock"}) {
    INFO(good);
    CHECK(is_output_path(good));
  }
  const std::string long_part(256, 'a');
  std::string long_path = "a";
  while (long_path.size() <= 1024) long_path += "/aaaaaaaaa";
  for (const std::string& bad : Strings{"",
                                        "/",
                                        "/a",
                                        "a/",
                                        "a//b",
                                        ".",
                                        "..",
                                        "../a",
                                        "a/../b",
                                        "a/..",
                                        "a/./b",
                                        "./a",
                                        "A",
                                        "a b",
                                        "a\nb",
                                        "ä",
                                        "a\\b",
                                        "a:b",
                                        std::string("a\0b", 3),
                                        ".coeval-lock",
                                        ".coeval-manifest",
                                        ".coeval-staging/x",
                                        ".coeval-x",
                                        long_part,
                                        long_path}) {
    INFO(bad);
    CHECK_FALSE(is_output_path(bad));
    const Scratch scratch;
    Diagnostics out;
    auto folder = OutputFolder::open(scratch.site(), out);
    CHECK_THROWS_AS(folder->write(bad, "x", out), std::logic_error);
  }
  CHECK(is_output_path(long_part.substr(1)));
}

TEST_CASE("writing a file twice, or a file that is a folder too, is a mistake of the program's") {
  const Scratch scratch;
  const auto in_turn = [&](const Strings& paths) {
    Diagnostics out;
    auto folder = OutputFolder::open(scratch.site(), out);
    for (const std::string& path : paths) folder->write(path, path, out);
    return folder->finish(out).has_value();
  };
  CHECK_THROWS_AS(in_turn({"a", "a"}), std::logic_error);
  CHECK_THROWS_AS(in_turn({"a", "a/b"}), std::logic_error);
  CHECK_THROWS_AS(in_turn({"a/b", "a"}), std::logic_error);
  CHECK_THROWS_AS(in_turn({"a/b/c", "a-", "a"}), std::logic_error);
  CHECK(files_in(scratch.site()).empty());
  CHECK(in_turn({"a", "a-b/c"}));
  CHECK_THROWS_AS(in_turn({"a", "a/b"}), std::logic_error); // `a` is there already and is not written
  CHECK(files_in(scratch.site()) == Files{{"a", "a"}, {"a-b/c", "a-b/c"}});
}
