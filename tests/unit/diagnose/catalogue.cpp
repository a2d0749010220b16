// Does every code have one good row, under the name that people know it by?
#include <catch2/catch.hpp>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <set>
#include <sstream>

#include "diagnose/catalogue.hpp"

using namespace coeval;

namespace {

// The identifiers of the enum, as its header lists them.
std::vector<std::string> codes_in_header() {
  std::ifstream in{COEVAL_TEST_DATA "/../../../compiler/diagnose/catalogue.hpp"};
  const std::string text{std::istreambuf_iterator<char>{in}, {}};
  const std::size_t begin = text.find("enum class Code");
  REQUIRE(begin != std::string::npos);
  std::istringstream body{text.substr(text.find('{', begin) + 1, text.find("};", begin) - text.find('{', begin) - 1)};
  std::vector<std::string> codes;
  for (std::string line; std::getline(body, line);) {
    const std::size_t comma = line.find(',');
    const std::size_t start = line.find_first_not_of(' ');
    if (comma != std::string::npos && line.compare(start, 2, "//") != 0)
      codes.push_back(line.substr(start, comma - start));
  }
  return codes;
}

std::vector<std::string> words(std::string_view text) {
  std::istringstream in{std::string{text}};
  return {std::istream_iterator<std::string>{in}, {}};
}

// "/home", "~/x" or "C:\\x" at the start of a word.
bool has_absolute_path(std::string_view text) {
  for (std::size_t i = 0; i + 1 < text.size(); ++i) {
    if (i > 0 && std::string_view{" \n\"'`("}.find(text[i - 1]) == std::string_view::npos) continue;
    const bool letter = text[i + 1] >= 'a' && text[i + 1] <= 'z';
    if ((text[i] == '/' && letter) || text.substr(i, 2) == "~/" || text.substr(i + 1, 2) == ":\\") return true;
  }
  return false;
}

} // namespace

TEST_CASE("every code has exactly one row, named as its identifier") {
  std::vector<std::string> codes = codes_in_header();
  REQUIRE(codes.size() >= 40);
  REQUIRE(codes.size() == catalogue().size());
  std::set<std::string_view> names;
  for (std::size_t i = 0; i < codes.size(); ++i) {
    std::ranges::replace(codes[i], '_', '-');
    const Code code = static_cast<Code>(i);
    INFO(codes[i]);
    CHECK(row(code).code == code);
    CHECK(row(code).name == codes[i]);
    CHECK(names.insert(row(code).name).second);
    REQUIRE(find_row(codes[i]) != nullptr);
    CHECK(find_row(codes[i])->code == code);
  }
  CHECK(find_row("no-such-code") == nullptr);
  CHECK(find_row("") == nullptr);
}

TEST_CASE("what is doubtful is a warning, what is wrong an error") {
  const std::set<std::string_view> doubtful{
      "slot-differs",           "pairing-without-place",      "pairing-misrouted",  "no-outfit",    "unused-source",
      "refuted-claim-possible", "supported-claim-impossible", "open-claim-decided", "empty-text",   "edited-file",
      "days-backwards",         "claim-not-proven",           "broken-manifest",    "no-tolerance", "picture-located",
      "indistinguishable"};
  for (const CatalogueRow& kind : catalogue()) {
    INFO(kind.name);
    const bool good_news = kind.name == "claim-now-proven";
    CHECK(kind.severity == (good_news                      ? Severity::note
                            : doubtful.contains(kind.name) ? Severity::warning
                                                           : Severity::error));
  }
  CHECK(name(Severity::error) == "error");
  CHECK(name(Severity::warning) == "warning");
  CHECK(name(Severity::note) == "note");
}

TEST_CASE("the check for absolute paths can fail") {
  CHECK(has_absolute_path("see /home/x"));
  CHECK(has_absolute_path("`~/kb`"));
  CHECK(has_absolute_path("C:\\kb"));
  CHECK_FALSE(has_absolute_path("join ids with `/`, as in `a/b`, or from / until"));
}

TEST_CASE("the texts of a row keep to the wording") {
  for (const CatalogueRow& kind : catalogue()) {
    INFO(kind.name);
    for (const std::string_view text : {kind.title, kind.why, kind.repair}) {
      INFO(text);
      REQUIRE_FALSE(text.empty());
      CHECK_FALSE((text.front() >= 'A' && text.front() <= 'Z'));
      CHECK(text.front() != ' ');
      CHECK(text.back() != '.');
      CHECK(text.back() != ' ');
      CHECK(text.find("  ") == std::string_view::npos);
      CHECK(text.find('\n') == std::string_view::npos);
      CHECK(std::ranges::count(text, '`') % 2 == 0);
      CHECK_FALSE(has_absolute_path(text));
    }
    CHECK(kind.title.size() <= 70);
    CHECK(words(kind.title).size() >= 4);
    CHECK(words(kind.why).size() >= 8);
    CHECK(words(kind.why).size() <= 50);
    CHECK(words(kind.repair).size() >= 6);
    CHECK(words(kind.repair).size() <= 50);
  }
}

TEST_CASE("an example is short, shows something, and fits a narrow page") {
  std::set<std::string_view> examples;
  for (const CatalogueRow& kind : catalogue()) {
    INFO(kind.name);
    CHECK(examples.insert(kind.example).second);
    CHECK_FALSE(has_absolute_path(kind.example));
    const bool terminal = kind.example.starts_with("$ ");
    const bool markup = kind.example.starts_with("<"); // of a template
    CHECK((terminal || markup || kind.example.find('[') != std::string_view::npos));
    std::istringstream lines{std::string{kind.example}};
    int count = 0;
    for (std::string line; std::getline(lines, line); ++count) {
      INFO(line);
      CHECK(line.size() <= 80);
      CHECK(line.find('\t') == std::string::npos);
      CHECK((line.empty() || line.back() != ' '));
    }
    CHECK(count >= 2);
    CHECK(count <= 12);
    CHECK(kind.example.back() != '\n');
  }
}

TEST_CASE("the repair does not repeat why it matters") {
  constexpr std::size_t run = 5; // words in a row
  for (const CatalogueRow& kind : catalogue()) {
    const auto why = words(kind.why);
    const auto repair = words(kind.repair);
    std::set<std::vector<std::string>> told;
    for (std::size_t i = 0; i + run <= why.size(); ++i)
      told.insert({why.begin() + static_cast<std::ptrdiff_t>(i), why.begin() + static_cast<std::ptrdiff_t>(i + run)});
    bool repeated = false;
    for (std::size_t i = 0; i + run <= repair.size(); ++i)
      repeated = repeated || told.contains({repair.begin() + static_cast<std::ptrdiff_t>(i),
                                            repair.begin() + static_cast<std::ptrdiff_t>(i + run)});
    INFO(kind.name);
    CHECK_FALSE(repeated);
  }
}
