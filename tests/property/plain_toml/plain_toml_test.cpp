// What the quick reader takes for plain TOML is TOML, and says the same as toml++ says: on every file of the project,
// on what is plain and what is not quite, and on texts put together at random from pieces of both.
#include <catch2/catch.hpp>

#include <array>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>

#include "toml_trees.hpp"

using toml_trees::compare;
using toml_trees::Comparison;

namespace {

const std::filesystem::path project = std::filesystem::path{COEVAL_TEST_DATA} / "../../..";

std::string content_of(const std::filesystem::path& path) {
  std::ifstream file{path, std::ios::binary};
  return {std::istreambuf_iterator<char>{file}, {}};
}

std::vector<std::filesystem::path> toml_files(const std::filesystem::path& root) {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::recursive_directory_iterator{root})
    if (entry.is_regular_file() && entry.path().extension() == ".toml") files.push_back(entry.path());
  return files;
}

// A value without pairs of its own, now and then one that is not plain or no value at all.
std::string random_value(std::mt19937& random, int depth) {
  static constexpr std::array values{"1",
                                     "-7",
                                     "+3",
                                     "0",
                                     "-0",
                                     "999999999999999999",
                                     "9999999999999999999",
                                     "007",
                                     "1_000",
                                     "0x1f",
                                     "1.5",
                                     "-0.25",
                                     "+2.50",
                                     "0.1",
                                     "123456789.1234567",
                                     "1e3",
                                     "1.",
                                     ".5",
                                     "inf",
                                     "nan",
                                     "true",
                                     "false",
                                     "truer",
                                     "fals",
                                     "\"\"",
                                     "\"text\"",
                                     "\"h\xC3\xB6he \xF0\x9F\x8F\xAE\"",
                                     "\"a \\\"b\\\" \\\\ c\\n\\td\"",
                                     "\"\\u00e9\"",
                                     "\"\\x\"",
                                     "\"open",
                                     "'literal \\n'",
                                     "'it \"says\"'",
                                     "''",
                                     "'''three'''",
                                     "'open",
                                     "\"\"\"\nlong\ntext\"\"\"",
                                     "\"\"\"on \\\n   one \\\n\n  line\"\"\"",
                                     "\"\"\"two \"\" quotes\"\"\"",
                                     "\"\"\"four\"\"\"\"",
                                     "\"\"\"open\"\"",
                                     "\"\"\"\"\"\"",
                                     "\"\"\"crlf\r\n\"\"\"",
                                     "\"\"\"\\ \n x\"\"\"",
                                     "\"tab\there\"",
                                     "\"bell\x07\"",
                                     "1979-06-30",
                                     "1979-06-30T12:00:00Z",
                                     "1979-06-30 12:00:00",
                                     "12:30:00",
                                     "1979",
                                     "\"\"\"\\\n\xC2\xA0x\"\"\"",
                                     "\"a\xE2\x80\xA8"
                                     "b\"",
                                     "\"\"\"a\xC2\x85"
                                     "b\"\"\"",
                                     ""};
  if (depth > 0 && random() % 4 == 0) {
    const bool list = random() % 2 == 0;
    std::string all = list ? "[" : "{";
    static constexpr std::array gaps{"", "", " ", "\n", " # remark\n", "\t"};
    static constexpr std::array keys{"a", "b", "c", "a-b", "1", "\"q\"", "a.b", ""};
    const auto gap = [&] { return list || random() % 12 == 0 ? gaps[random() % gaps.size()] : " "; };
    const std::size_t count = random() % 4;
    for (std::size_t i = 0; i < count; ++i) {
      all += gap();
      if (!list) all += std::string{keys[random() % (random() % 8 == 0 ? 8 : 4)]} + " = ";
      all += random_value(random, depth - 1) + gap();
      if (i + 1 < count || random() % 6 == 0) all += ",";
    }
    return all + gap() + (random() % 30 == 0 ? "" : list ? "]" : "}");
  }
  // Mostly what is plain, so that whole files are.
  static constexpr std::array plain{"1",
                                    "-7",
                                    "0.5",
                                    "true",
                                    "\"text\"",
                                    "'literal'",
                                    "\"\"\"\nlong \\\n text\"\"\"",
                                    "\"h\xC3\xB6he\"",
                                    "[1, 2]",
                                    "{ a = 1, b = \"x\" }"};
  return random() % 8 != 0 ? plain[random() % plain.size()] : values[random() % values.size()];
}

std::string random_text(std::mt19937& random) {
  static constexpr std::array heads{"[a]",   "[b]",     "[[c]]",   "[[d]]",   "[a.x]", "[[c.y]]", "[[c.y.z]]",
                                    "[c.w]", "[b.a-1]", "[[a.v]]", "[c.y.u]", "[ a ]", "[a .x]",  "[\"a\"]",
                                    "[]",    "[a",      "[[c]",    "[a]]",    "[a.]"};
  static constexpr std::array keys{"k", "l", "m", "n", "k-1", "K_2", "9", "x", "y", "\"k\"", "k.l", "k ", "\xC3\xB6"};
  std::string text = random() % 40 == 0 ? "\xEF\xBB\xBF" : "";
  const std::size_t lines = random() % 12;
  for (std::size_t i = 0; i < lines; ++i) {
    if (random() % 5 == 0) text += random() % 3 == 0 ? " " : "\t";
    switch (random() % 6) {
    case 0:
      text += heads[random() % (random() % 6 == 0 ? heads.size() : 11)];
      break;
    case 1:
      text += random() % 2 == 0 ? "" : random() % 12 == 0 ? "# bell \x07" : "# h\xC3\xB6he \"x\" \\";
      break;
    default:
      text += keys[random() % (random() % 10 == 0 ? keys.size() : 9)];
      text += random() % 3 == 0 ? "=" : " = ";
      text += random_value(random, 3);
    }
    if (random() % 8 == 0) text += random() % 2 == 0 ? " # remark" : "#";
    if (random() % 60 == 0) text += " x";
    text += i + 1 < lines || random() % 2 == 0 ? (random() % 40 == 0 ? "\r\n" : "\n") : "";
  }
  return text;
}

} // namespace

TEST_CASE("files of the demo are read alike, and nearly all of them are plain") {
  const std::vector<std::filesystem::path> files = toml_files(project / "kb");
  REQUIRE(files.size() > 100);
  std::size_t plain = 0;
  for (const std::filesystem::path& path : files) {
    INFO(path);
    const Comparison comparison = compare(content_of(path));
    CHECK((comparison == Comparison::alike || comparison == Comparison::not_plain));
    plain += comparison == Comparison::alike ? 1 : 0;
  }
  CHECK(plain * 10 > files.size() * 9); // else questions about the demo take longer than they need
}

TEST_CASE("files of tests are read alike where they are plain") {
  std::size_t plain = 0;
  for (const std::filesystem::path& path : toml_files(project / "tests")) {
    const std::string text = content_of(path);
    if (coeval::first_bad_byte(text)) continue; // such files are never handed to the reader
    INFO(path);
    const Comparison comparison = compare(text);
    CHECK((comparison == Comparison::alike || comparison == Comparison::not_plain));
    plain += comparison == Comparison::alike ? 1 : 0;
  }
  CHECK(plain > 100);
}

TEST_CASE("texts at random are read alike where they are plain") {
  const char* times = std::getenv("COEVAL_MORE_ROUNDS");
  const int rounds = 20'000 * (times == nullptr ? 1 : std::max(1, std::atoi(times)));
  std::mt19937 random{2611};
  int plain = 0;
  for (int round = 0; round < rounds; ++round) {
    const std::string text = random_text(random);
    const Comparison comparison = compare(text);
    plain += comparison == Comparison::alike ? 1 : 0;
    if (comparison == Comparison::alike || comparison == Comparison::not_plain) continue;
    FAIL("round " << round << (comparison == Comparison::different ? ": read otherwise" : ": toml++ refuses it") << "\n"
                  << text);
  }
  CHECK(plain > rounds / 10); // the test would be idle without
  CHECK(plain < rounds * 9 / 10);
}

// What every way of being not plain costs is that toml++ reads it; none of these may be taken for something else.
TEST_CASE("what is rare or wrong is left to toml++") {
  const std::string many_keys = [] {
    std::string text;
    for (int i = 0; i < 65; ++i) text += "k" + std::to_string(i) + " = 1\n";
    return text;
  }();
  for (const std::string& text : {std::string{"a = 1\na = 2\n"},
                                  std::string{"[a]\n[a]\n"},
                                  std::string{"[a.b]\n[a]\n"},
                                  std::string{"a = 1\n[a]\n"},
                                  std::string{"a = [{}]\n[[a]]\n"},
                                  std::string{"a = [{}]\n[a.b]\n"},
                                  std::string{"a = {}\n[a.b]\n"},
                                  std::string{"a = []\n[[a]]\n"},
                                  std::string{"[a]\n[[a]]\n"},
                                  std::string{"[[a]]\n[a]\n"},
                                  std::string{"a.b = 1\n"},
                                  std::string{"\"a\" = 1\n"},
                                  std::string{"a = 1\r\n"},
                                  std::string{"a = \"\"\"x\"\"\"\"\n"},
                                  std::string{"a = 1 2\n"},
                                  std::string{"a = [[[[[[[[[1]]]]]]]]]\n"},
                                  std::string{"a = \"\\u00e9\"\n"},
                                  std::string{"a = 1e3\n"},
                                  std::string{"a = 1_0\n"},
                                  std::string{"a = 1979-06\n"},
                                  std::string{"a = {b = 1,}\n"},
                                  std::string{"a = [1 2]\n"},
                                  std::string{"a = \"x\n\"\n"},
                                  std::string{"a = \"x\\\n y\"\n"},
                                  std::string{"a = truer\n"},
                                  std::string{"a = 1.5.5\n"},
                                  std::string{"a = 99999999999999999999\n"},
                                  std::string{"a = '''x'''\n"},
                                  std::string{"a =\n"},
                                  std::string{"a\n"},
                                  std::string{"[a\n"},
                                  std::string{"a = \"\\"},
                                  std::string{"a = \"\"\"\\"},
                                  std::string{"a = '"},
                                  std::string{"# \x7f\n"},
                                  std::string(3, '\0'),
                                  many_keys}) {
    INFO(text);
    CHECK(compare(text) == Comparison::not_plain);
  }
  CHECK(compare("") == Comparison::alike);
  CHECK(compare("a = {}\nb = { }\nc = []#\nd = 1#\n") == Comparison::alike);
  CHECK(compare(many_keys.substr(0, many_keys.rfind("k64"))) == Comparison::alike);
  CHECK(compare("a = [[[[[[[[1]]]]]]]]\n") == Comparison::alike);
}
