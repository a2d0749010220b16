// Is a file made again exactly where it, or what it is made from, is not as it was?
#include "scratch.hpp"

#include <fmt/format.h>

#include "publish/recipes.hpp"

using namespace coeval;
using namespace coeval::publishing;

namespace {

struct Made {
  std::string from;
  std::string bytes;
};
using Making = std::map<std::string, Made>; // by path

struct Outcome {
  Strings made; // the paths of what was not kept
  std::optional<PublishCounts> counts;
};

// As an edition does: keeps what it can, makes the rest.
Outcome publish_made(const fs::path& folder, const Making& files) {
  Outcome outcome;
  Diagnostics out;
  auto open = OutputFolder::open(folder, out);
  REQUIRE(open);
  for (const auto& [path, file] : files) {
    const ContentHash recipe = hash_of(file.from);
    if (const auto content = open->keep(path, {.inputs = {}, .content = recipe})) {
      CHECK(*content == hash_of(file.bytes));
      continue;
    }
    outcome.made.push_back(path);
    open->write(path, file.bytes, out, {.inputs = {}, .content = recipe});
  }
  outcome.counts = open->finish(out);
  return outcome;
}

const Making site{{"a.html", {"entry a", "<p>a</p>"}}, {"b/c.html", {"entry c", "<p>c</p>"}}};

} // namespace

TEST_CASE("what was made from the same, and lies there, is not made again") {
  const Scratch scratch;
  CHECK(publish_made(scratch.site(), site).made == Strings{"a.html", "b/c.html"});
  const Outcome again = publish_made(scratch.site(), site);
  CHECK(again.made.empty());
  REQUIRE(again.counts);
  CHECK(again.counts->unchanged == 2);

  Making changed = site;
  changed["a.html"] = {"entry a, edited", "<p>a, edited</p>"};
  CHECK(publish_made(scratch.site(), changed).made == Strings{"a.html"});
  CHECK(content(scratch.site() / "a.html") == "<p>a, edited</p>");
  CHECK(publish_made(scratch.site(), changed).made.empty());
}

TEST_CASE("a file that is gone, was edited or was touched is made again") {
  const Scratch scratch;
  publish_made(scratch.site(), site);
  fs::remove(scratch.site() / "a.html");
  scratch.write("site/b/c.html", "<p>d</p>");
  CHECK(publish_made(scratch.site(), site).made == Strings{"a.html", "b/c.html"});
  CHECK(content(scratch.site() / "b/c.html") == "<p>c</p>");
  fs::last_write_time(scratch.site() / "a.html", fs::file_time_type::clock::now() + std::chrono::hours{1});
  CHECK(publish_made(scratch.site(), site).made == Strings{"a.html"});
}

TEST_CASE("what stands under a path is kept only if it has the content that its recipe gave") {
  const Scratch scratch;
  publish_made(scratch.site(), site);
  // The same recipe, but the other page stands there.
  const Making swapped{{"a.html", site.at("b/c.html")}, {"b/c.html", site.at("a.html")}};
  CHECK(publish_made(scratch.site(), swapped).made == Strings{"a.html", "b/c.html"});
  CHECK(content(scratch.site() / "a.html") == "<p>c</p>");
}

TEST_CASE("without the list of recipes, or with a broken one, everything is made again and nothing else is lost") {
  const Scratch scratch;
  publish_made(scratch.site(), site);
  const fs::path list = scratch.site() / ".coeval-recipes";
  SECTION("deleted") { fs::remove(list); }
  SECTION("of a later version") { scratch.write("site/.coeval-recipes", "coeval-recipes 2\n"); }
  SECTION("cut short") { fs::resize_file(list, fs::file_size(list) - 1); }
  SECTION("a folder") {
    fs::remove(list);
    fs::create_directory(list);
  }
  const Outcome again = publish_made(scratch.site(), site);
  CHECK(again.made == Strings{"a.html", "b/c.html"});
  REQUIRE(again.counts);
  CHECK(again.counts->unchanged == 2);
  CHECK(files_in(scratch.site()) == Files{{"a.html", "<p>a</p>"}, {"b/c.html", "<p>c</p>"}});
}

TEST_CASE("nothing is kept without the list of files") {
  const Scratch scratch;
  publish_made(scratch.site(), site);
  fs::remove(scratch.site() / ".coeval-manifest");
  CHECK(publish_made(scratch.site(), site).made == Strings{"a.html", "b/c.html"});
}

TEST_CASE("a file is kept by what it is made from or by what it says, and both are remembered") {
  const Scratch scratch;
  Diagnostics out;
  const auto inputs = [](int version) { return hash_of(fmt::format("entry a, version {}", version)); };
  const ContentHash says = hash_of("a");
  const auto publish = [&](auto&& keep_or_write) {
    auto open = OutputFolder::open(scratch.site(), out);
    REQUIRE(open);
    keep_or_write(*open);
    REQUIRE(open->finish(out));
  };
  publish([&](OutputFolder& open) { open.write("a.html", "<p>a</p>", out, {.inputs = inputs(1), .content = says}); });
  for (int again = 0; again < 2; ++again)
    publish([&](OutputFolder& open) { CHECK(open.keep("a.html", {.inputs = inputs(1), .content = {}})); });
  publish([&](OutputFolder& open) {
    CHECK_FALSE(open.keep("a.html", {.inputs = inputs(2), .content = {}}));
    CHECK(open.keep("a.html", {.inputs = inputs(2), .content = says}));
  });
  publish([&](OutputFolder& open) {
    CHECK_FALSE(open.keep("a.html", {.inputs = inputs(1), .content = {}})); // no list that grows for ever
    CHECK(open.keep("a.html", {.inputs = inputs(2), .content = {}}));
  });
}

TEST_CASE("what is left for the next publish is there until another is left, and of no account to the site") {
  const Scratch scratch;
  Diagnostics out;
  const auto publish = [&](const std::optional<std::string>& left) {
    auto open = OutputFolder::open(scratch.site(), out);
    REQUIRE(open);
    std::string before = open->remembered();
    open->write("a.html", "<p>a</p>", out);
    if (left) open->remember(*left);
    REQUIRE(open->finish(out));
    return before;
  };
  CHECK(publish({}).empty());
  CHECK(publish("parts, first").empty()); // nothing else has changed
  CHECK(publish("parts, second") == "parts, first");
  CHECK(publish({}) == "parts, second");
  CHECK(publish({}) == "parts, second");
  fs::remove(scratch.site() / ".coeval-parts");
  CHECK(publish({}).empty());
  CHECK(files_in(scratch.site()) == Files{{"a.html", "<p>a</p>"}});
}

TEST_CASE("what an earlier publish wrote can be read again, and nothing else") {
  const Scratch scratch;
  Diagnostics out;
  const auto earlier = [&](std::string_view path) {
    const auto open = OutputFolder::open(scratch.site(), out);
    REQUIRE(open);
    return open->earlier(path);
  };
  CHECK(earlier("data/a.txt").empty());
  {
    auto open = OutputFolder::open(scratch.site(), out);
    REQUIRE(open);
    open->write("data/a.txt", "as it was", out);
    REQUIRE(open->finish(out));
  }
  CHECK(earlier("data/a.txt") == "as it was");
  CHECK(earlier("data/b.txt").empty());
  scratch.write("site/data/b.txt", "of somebody else");
  CHECK(earlier("data/b.txt").empty());
  CHECK(earlier("../site/data/a.txt").empty());
  scratch.write("site/data/a.txt", "edited: longer than what was written");
  CHECK(earlier("data/a.txt").empty()); // no more is read than what was written
  fs::remove(scratch.site() / "data/a.txt");
  fs::create_symlink(scratch.site() / "data/b.txt", scratch.site() / "data/a.txt");
  CHECK(earlier("data/a.txt").empty());
}

TEST_CASE("a path is kept or written once") {
  const Scratch scratch;
  publish_made(scratch.site(), site);
  Diagnostics out;
  auto open = OutputFolder::open(scratch.site(), out);
  REQUIRE(open);
  REQUIRE(open->keep("a.html", {.inputs = {}, .content = hash_of("entry a")}));
  CHECK_THROWS_AS(open->write("a.html", "<p>a</p>", out), std::logic_error);
}

TEST_CASE("recipes read back as they were written, and not with any one byte wrong or missing") {
  Recipes recipes;
  for (int i = 0; i < 4; ++i) recipes[hash_of(fmt::format("recipe {}", i))] = hash_of(fmt::format("content {}", i));
  const std::string text = recipes_text(recipes);
  REQUIRE(read_recipes(text));
  CHECK(*read_recipes(text) == recipes);
  CHECK(read_recipes(recipes_text({})) == Recipes{});
  for (std::size_t i = 0; i < text.size(); ++i) {
    INFO(i);
    std::string changed = text;
    changed[i] = static_cast<char>(changed[i] ^ 1);
    CHECK_FALSE(read_recipes(changed));
    CHECK_FALSE(read_recipes(text.substr(0, i)));
    CHECK_FALSE(read_recipes(text.substr(0, i) + text.substr(i + 1)));
  }
}
