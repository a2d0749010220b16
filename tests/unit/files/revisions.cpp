// Is a knowledge base read from git as it was, without the working tree and without running what a repository names?
#include <catch2/catch.hpp>

#include <cstdlib>

#include "files/program.hpp"
#include "files/revision.hpp"
#include "scratch.hpp"

using namespace coeval;
using coeval::testing::Scratch;

namespace fs = std::filesystem;

namespace {

// A repository in a folder of its own, with a knowledge base in its folder kb.
class Repository : public Scratch {
public:
  Repository() {
    git({"init", "-q", "-b", "main", "."});
    git({"config", "user.name", "Curator"});
    git({"config", "user.email", "curator@example.org"});
  }
  void git(std::vector<std::string> words) const {
    words.insert(words.begin(), {"git", "-C", base().string()});
    const ProgramResult result = run_program(words, {}, 1 << 20);
    INFO(result.said);
    REQUIRE(result.error == 0);
    REQUIRE(result.exit == 0);
  }
  void commit(const std::string& date) const {
    ::setenv("GIT_COMMITTER_DATE", date.c_str(), 1);
    git({"add", "-A"});
    git({"commit", "-q", "-m", "x"});
    ::unsetenv("GIT_COMMITTER_DATE");
  }
  [[nodiscard]] std::optional<Revision> load(const std::string& name) {
    out = {};
    return load_revision(kb(), name, out);
  }
  [[nodiscard]] std::string report() const {
    const auto list = out.sorted();
    return list.empty() ? "" : list.front().message;
  }
  Diagnostics out;
};

std::vector<std::string> paths(const LoadResult& loaded) {
  std::vector<std::string> list;
  for (const SourceFile& file : loaded.sources.files) list.push_back(file.path());
  return list;
}

} // namespace

TEST_CASE("a revision holds the files of its time, whatever the working tree holds now") {
  Repository repository;
  repository.write("b/two.toml", "two = 2\r\n");
  repository.write("one.toml", "one = 1\n");
  repository.write("picture.svg", "<svg/>");
  repository.write(".hidden/three.toml", "three = 3\n");
  repository.link("one.toml", "link.toml");
  repository.commit("2024-02-29T23:30:00-0500");
  repository.write("one.toml", "one = 11\n");
  repository.write("more.toml", "more = 1\n");
  fs::remove_all(repository.kb() / "b");

  const auto revision = repository.load("HEAD");
  INFO(repository.report());
  REQUIRE(revision);
  CHECK(paths(revision->loaded) == std::vector<std::string>{"b/two.toml", "one.toml"});
  CHECK(revision->loaded.sources.files[0].text() == "two = 2\r\n");
  CHECK(revision->loaded.sources.files[1].text() == "one = 1\n");
  CHECK(revision->loaded.sources.assets == std::set<std::string, std::less<>>{"picture.svg"});
  CHECK(revision->day == "2024-02-29"); // where the committer was: in UTC it is the next day
  CHECK(revision->commit.size() == 40);
  CHECK(revision->loaded.sources.root == "HEAD:kb");
}

TEST_CASE("the repository's top folder can be the knowledge base itself") {
  Repository repository;
  repository.write("one.toml");
  repository.commit("2024-03-01T12:00:00+0000");
  Diagnostics out;
  const auto revision = load_revision(repository.base(), "main", out);
  REQUIRE(revision);
  CHECK(paths(revision->loaded) == std::vector<std::string>{"kb/one.toml"});
}

TEST_CASE("names that could be options, ranges or more than one word are refused") {
  Repository repository;
  repository.write("one.toml");
  repository.commit("2024-03-01T12:00:00+0000");
  for (const std::string name : {"--output=/tmp/x", "-1", "", "HEAD HEAD", "HEAD\nHEAD", "HEAD\x1b[2J"}) {
    CAPTURE(name);
    CHECK_FALSE(repository.load(name));
    CHECK(repository.report() == "this is no name of a revision");
  }
  for (const std::string name : {"HAED", "HEAD..HEAD", "HEAD:kb", "$(touch${IFS}x)", "HEAD;true"}) {
    CAPTURE(name);
    CHECK_FALSE(repository.load(name));
    CHECK(repository.report() == "git knows no such revision here, and there is no such folder");
  }
}

TEST_CASE("what git cannot give is told with what to do") {
  Scratch none;
  Diagnostics out;
  CHECK_FALSE(load_revision(none.kb(), "HEAD", out));
  CHECK(out.sorted().front().message.find("is in no repository that git would read") != std::string::npos);

  Repository repository;
  repository.write("one.toml");
  repository.commit("2024-03-01T12:00:00+0000");
  fs::rename(repository.kb(), repository.base() / "elsewhere");
  fs::create_directory(repository.kb());
  CHECK_FALSE(repository.load("HEAD~1")); // there is no earlier one
  repository.write("../elsewhere/two.toml");
  repository.git({"rm", "-q", "-r", "--cached", "kb"});
  repository.commit("2024-03-02T12:00:00+0000");
  CHECK_FALSE(repository.load("HEAD"));
  CHECK(repository.report() == "there is no folder `kb` in this revision");

  const std::string path = std::getenv("PATH");
  ::setenv("PATH", "/nowhere", 1);
  CHECK_FALSE(repository.load("HEAD"));
  ::setenv("PATH", path.c_str(), 1);
  CHECK(repository.report() == "revisions are read by the program git, and there is none here");
}

TEST_CASE("limits hold for revisions, and text that is not UTF-8 is told with its place") {
  Repository repository;
  repository.write("broken.toml", "x = \"\xff\"\n");
  repository.write("large.toml", std::string(200, '#'));
  repository.write("small.toml", "y = 1\n");
  repository.commit("2024-03-01T12:00:00+0000");
  Diagnostics out;
  const auto revision = load_revision(repository.kb(), "HEAD", out, {.file_bytes = 100});
  REQUIRE(revision);
  CHECK(paths(revision->loaded) == std::vector<std::string>{"broken.toml", "small.toml"});
  CHECK(revision->loaded.broken == std::vector<FileIndex>{FileIndex{0}});
  const auto reports = out.sorted();
  REQUIRE(reports.size() == 2);
  CHECK(reports[0].code == Code::file_too_large);
  CHECK(reports[0].path == "large.toml");
  CHECK(reports[1].code == Code::broken_utf8);
  CHECK(reports[1].place.begin == 5);

  Diagnostics many;
  const auto over = load_revision(repository.kb(), "HEAD", many, {.files = 2});
  REQUIRE(over);
  CHECK(over->loaded.sources.files.empty());
  CHECK(many.sorted().front().code == Code::too_many_files);
}

TEST_CASE("nothing that a repository names is run") {
  Repository repository;
  repository.write("one.toml", "one = 1\n");
  repository.write("../.gitattributes", "*.toml filter=spy diff=spy export-subst\n");
  repository.commit("2024-03-01T12:00:00+0000");
  const std::string spy = "touch " + (repository.base() / "spied").string();
  for (const std::string key : {"filter.spy.smudge", "filter.spy.clean", "diff.spy.textconv", "core.pager",
                                "core.fsmonitor", "core.sshCommand", "core.editor"})
    repository.git({"config", key, spy});
  REQUIRE(repository.load("HEAD"));
  CHECK_FALSE(fs::exists(repository.base() / "spied"));
}

TEST_CASE("a hook's environment does not lead to another repository") {
  Repository repository;
  repository.write("one.toml", "one = 1\n");
  repository.commit("2024-03-01T12:00:00+0000");
  Repository other;
  other.write("other.toml", "other = 1\n");
  other.commit("2024-03-01T12:00:00+0000");
  ::setenv("GIT_DIR", (other.base() / ".git").c_str(), 1);
  const auto revision = repository.load("HEAD");
  ::unsetenv("GIT_DIR");
  REQUIRE(revision);
  CHECK(paths(revision->loaded) == std::vector<std::string>{"one.toml"});
}

TEST_CASE("a program's words and input reach it as they are, and its output is limited") {
  const ProgramResult echoed = run_program({"cat"}, std::string(100'000, 'x'), 200'000);
  CHECK(echoed.output.size() == 100'000);
  CHECK(echoed.exit == 0);
  const ProgramResult words = run_program({"printf", "%s|", "a b", "$HOME", "*"}, {}, 1000);
  CHECK(words.output == "a b|$HOME|*|");
  const ProgramResult endless = run_program({"yes"}, {}, 1000);
  CHECK_FALSE(endless.whole);
  CHECK(endless.exit == 128 + 9);
  CHECK(run_program({"no-such-program-here"}, {}, 10).error == 2);
}
