// Is what others have in the folder left alone, whatever it is, and said where it is in the way?
#include "scratch.hpp"

#include <unistd.h>

using namespace coeval;
using namespace coeval::publishing;

TEST_CASE("foreign files that are in nobody's way are never touched") {
  const Scratch scratch;
  const Files foreign{{"cname", "saltmere.example"}, {"figures/notes.txt", "mine"}, {"own/page.html", "mine"}};
  for (const auto& [path, bytes] : foreign) scratch.write("site/" + path, bytes);
  fs::create_directory(scratch.site() / "empty");
  const Identity notes = identity(scratch.site() / "figures/notes.txt");
  CHECK(counted(publish(scratch.site(), {{"figures/maren.html", "a"}, {"index.html", "b"}})) == "2 0 0");
  CHECK(counted(publish(scratch.site(), {})) == "0 0 2");
  CHECK(files_in(scratch.site()) == foreign);
  CHECK(identity(scratch.site() / "figures/notes.txt") == notes);
  CHECK(fs::is_directory(scratch.site() / "empty"));
}

TEST_CASE("a foreign file where a page must go is named, each of them, and nothing is published") {
  const Scratch scratch;
  scratch.write("site/index.html", "by hand");
  scratch.write("site/figures", "a file where a folder must be");
  scratch.write("site/cards/six-back.html/x", "a folder where a file must be");
  const Files before = files_in(scratch.site());
  const Published published = publish(scratch.site(), {{"index.html", "a"},
                                                       {"figures/maren.html", "b"},
                                                       {"figures/pip.html", "b"},
                                                       {"cards/six-back.html", "c"},
                                                       {"new.html", "d"}});
  CHECK(counted(published) == "nothing");
  CHECK(published.told() == Strings{"foreign-file site/cards/six-back.html/x", "foreign-file site/figures",
                                    "foreign-file site/index.html"});
  CHECK(files_in(scratch.site()) == before);
  CHECK_FALSE(fs::exists(scratch.site() / ".coeval-staging"));
  CHECK_FALSE(fs::exists(scratch.site() / ".coeval-manifest"));
}

TEST_CASE("of many foreign files twenty are named and the others counted") {
  const Scratch scratch;
  Files pages;
  for (int i = 0; i < 25; ++i) {
    scratch.write("site/p" + std::to_string(i), "by hand");
    pages["p" + std::to_string(i)] = "page";
  }
  const Published published = publish(scratch.site(), pages);
  REQUIRE(published.reports.size() == 21);
  CHECK(published.reports.front().path == scratch.site().string());
  CHECK(published.reports.front().message.starts_with("5 more files"));
}

TEST_CASE("a foreign file that appears while pages wait is not replaced") {
  const Scratch scratch;
  publish(scratch.site(), {{"index.html", "old"}});
  Published late;
  Diagnostics out;
  {
    auto folder = OutputFolder::open(scratch.site(), out);
    REQUIRE(folder);
    CHECK(folder->write("index.html", "new", out));
    CHECK(folder->write("figures/maren.html", "new", out));
    scratch.write("site/figures/maren.html", "by hand");
    late.counts = folder->finish(out);
  }
  late.reports = out.sorted();
  CHECK(counted(late) == "nothing");
  CHECK(late.told() == Strings{"foreign-file site/figures/maren.html"});
  CHECK(files_in(scratch.site()) == Files{{"index.html", "old"}, {"figures/maren.html", "by hand"}});
  // It has not become ours by that.
  CHECK(publish(scratch.site(), {{"index.html", "new"}, {"figures/maren.html", "new"}}).told() == late.told());
  const Published without = publish(scratch.site(), {{"index.html", "new"}});
  CHECK(counted(without) == "1 0 0");
  CHECK(without.told().empty());
  CHECK(content(scratch.site() / "figures/maren.html") == "by hand");
}

TEST_CASE("a foreign file with the very bytes of a page is taken over") {
  const Scratch scratch;
  scratch.write("site/index.html", "page");
  const Identity index = identity(scratch.site() / "index.html");
  CHECK(counted(publish(scratch.site(), {{"index.html", "page"}})) == "0 1 0");
  CHECK(identity(scratch.site() / "index.html") == index);
  CHECK(counted(publish(scratch.site(), {{"index.html", "next"}})) == "1 0 0");
}

TEST_CASE("a page that was edited in its place is written anew, with a warning") {
  const Scratch scratch;
  publish(scratch.site(), {{"a.html", "1976"}, {"b.html", "1976"}, {"c.html", "1976"}});
  scratch.write("site/a.html", "1977");
  scratch.write("site/b.html", "longer");
  const Published published = publish(scratch.site(), {{"a.html", "1976"}, {"b.html", "1978"}, {"c.html", "1976"}});
  CHECK(counted(published) == "2 1 0");
  CHECK(published.told() == Strings{"edited-file site/a.html", "edited-file site/b.html"});
  CHECK(files_in(scratch.site()) == Files{{"a.html", "1976"}, {"b.html", "1978"}, {"c.html", "1976"}});
  CHECK(publish(scratch.site(), {{"a.html", "1976"}}).told().empty());
}

TEST_CASE("an edit that made the page what it must be now is no edit") {
  const Scratch scratch;
  publish(scratch.site(), {{"a.html", "1976"}});
  scratch.write("site/a.html", "1977");
  const Published published = publish(scratch.site(), {{"a.html", "1977"}});
  CHECK(published.told().empty());
  CHECK(counted(published) == "0 1 0");
}

TEST_CASE("a page that was only touched is replaced without a warning") {
  const Scratch scratch;
  publish(scratch.site(), {{"a.html", "1976"}});
  fs::last_write_time(scratch.site() / "a.html", fs::file_time_type::clock::now() + std::chrono::hours{1});
  const Published published = publish(scratch.site(), {{"a.html", "1977"}});
  CHECK(published.told().empty());
  CHECK(counted(published) == "1 0 0");
}

TEST_CASE("a stale page that was edited stays, with a warning, and is foreign from then on") {
  const Scratch scratch;
  publish(scratch.site(), {{"a.html", "1976"}, {"b.html", "1976"}, {"c.html", "1976"}});
  scratch.write("site/a.html", "1977"); // of the same size
  scratch.write("site/b.html", "longer than it was");
  const Published published = publish(scratch.site(), {{"c.html", "1976"}});
  CHECK(counted(published) == "0 1 0");
  CHECK(published.told() == Strings{"edited-file site/a.html", "edited-file site/b.html"});
  CHECK(files_in(scratch.site()) == Files{{"a.html", "1977"}, {"b.html", "longer than it was"}, {"c.html", "1976"}});
  CHECK(publish(scratch.site(), {{"c.html", "1976"}}).told().empty());
  CHECK(publish(scratch.site(), {{"a.html", "1976"}, {"c.html", "1976"}}).told() ==
        Strings{"foreign-file site/a.html"});
}

TEST_CASE("links in the folder are not followed: neither for writing nor for comparing nor for removing") {
  const Scratch scratch;
  scratch.write("outside/index.html", "page");
  scratch.write("outside/maren.html", "page");
  const Files outside = files_in(scratch.base() / "outside");
  fs::create_directories(scratch.site());

  SECTION("a link where a page must go, even if what it leads to has the same bytes") {
    fs::create_symlink("../outside/index.html", scratch.site() / "index.html");
    CHECK(publish(scratch.site(), {{"index.html", "page"}}).told() == Strings{"foreign-file site/index.html"});
  }
  SECTION("a link where a folder must be") {
    fs::create_directory_symlink("../outside", scratch.site() / "figures");
    CHECK(publish(scratch.site(), {{"figures/maren.html", "page"}, {"figures/new.html", "x"}}).told() ==
          Strings{"foreign-file site/figures"});
  }
  SECTION("a link that leads nowhere") {
    fs::create_symlink("../outside/new.html", scratch.site() / "index.html");
    CHECK(publish(scratch.site(), {{"index.html", "page"}}).told() == Strings{"foreign-file site/index.html"});
  }
  SECTION("a link in the place of a page of ours") {
    publish(scratch.site(), {{"index.html", "page"}});
    fs::remove(scratch.site() / "index.html");
    fs::create_symlink("../outside/index.html", scratch.site() / "index.html");
    CHECK(publish(scratch.site(), {{"index.html", "next"}}).told() == Strings{"foreign-file site/index.html"});
    CHECK(publish(scratch.site(), {}).told() == Strings{"edited-file site/index.html"}); // stale, but not ours now
    CHECK(fs::is_symlink(scratch.site() / "index.html"));
  }
  SECTION("a link in the place of a folder of ours, with stale pages of the same name and bytes behind it") {
    publish(scratch.site(), {{"figures/index.html", "page"}, {"figures/maren.html", "page"}});
    fs::remove_all(scratch.site() / "figures");
    fs::create_directory_symlink("../outside", scratch.site() / "figures");
    CHECK(counted(publish(scratch.site(), {})) == "0 0 0");
    CHECK(fs::is_symlink(scratch.site() / "figures"));
  }
  SECTION("a link in the place of our own hidden files") {
    fs::create_symlink("../outside/index.html", scratch.site() / ".coeval-lock");
    CHECK(publish(scratch.site(), {{"index.html", "page"}}).told() == Strings{"unwritable-folder site/.coeval-lock"});
  }
  SECTION("a link in the place of the staging folder") {
    fs::create_directory_symlink("../outside", scratch.site() / ".coeval-staging");
    CHECK(counted(publish(scratch.site(), {{"index.html", "page"}})) == "1 0 0");
  }
  SECTION("a staging folder that was left with links in it") {
    scratch.write("site/.coeval-staging/files/x/y.html", "x");
    fs::create_directory_symlink(scratch.base() / "outside", scratch.site() / ".coeval-staging/files/figures");
    CHECK(counted(publish(scratch.site(), {{"index.html", "page"}})) == "1 0 0");
    CHECK_FALSE(fs::exists(scratch.site() / ".coeval-staging"));
  }
  CHECK(files_in(scratch.base() / "outside") == outside);
}

TEST_CASE("the folder itself may be a link") {
  const Scratch scratch;
  fs::create_directory(scratch.base() / "real");
  fs::create_directory_symlink("real", scratch.site());
  CHECK(counted(publish(scratch.site(), {{"index.html", "page"}})) == "1 0 0");
  CHECK(files_in(scratch.base() / "real") == Files{{"index.html", "page"}});
}

TEST_CASE("pipes and sockets are foreign and not waited for") {
  const Scratch scratch;
  fs::create_directories(scratch.site());
  REQUIRE(::mkfifo((scratch.site() / "index.html").c_str(), 0600) == 0);
  CHECK(publish(scratch.site(), {{"index.html", "page"}}).told() == Strings{"foreign-file site/index.html"});
}
