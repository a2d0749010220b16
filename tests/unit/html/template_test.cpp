// Is every mistake in a template told, with its line?
#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "html/template.hpp"
#include "sample.hpp"

using namespace coeval;

namespace {

using Files = std::map<std::string, std::string>;

// "template-slot-unknown layout.html:12 there is no slot …" of each mistake.
std::vector<std::string> mistakes(const Files& files) {
  Diagnostics found;
  const TemplateResult result = read_templates(files, "looks", found);
  CHECK((result.templates == nullptr) == found.has_errors());
  std::vector<std::string> lines;
  for (const Diagnostic& wrong : found.sorted()) {
    std::string where = wrong.path;
    if (wrong.place.known()) {
      const SourceFile& file = result.sources[wrong.place.file];
      where = file.path() + ":" + std::to_string(file.position(wrong.place.begin).line);
    }
    lines.push_back(std::string{row(wrong.code).name} + " " + where + " " + wrong.message);
  }
  return lines;
}

Files with(const std::string& path, const std::string& from, const std::string& to) {
  Files files = builtin_template();
  std::string& text = files.at(path);
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  text.replace(at, from.size(), to);
  return files;
}

std::size_t line_of(const std::string& path, const std::string& text) {
  const std::string& file = builtin_template().at(path);
  return 1 +
         static_cast<std::size_t>(std::count(file.begin(), file.begin() + static_cast<long>(file.find(text)), '\n'));
}

std::string read(const std::filesystem::path& path) {
  std::ifstream in{path, std::ios::binary};
  return {std::istreambuf_iterator<char>{in}, {}};
}

} // namespace

TEST_CASE("the template that is part of the program is without a mistake, and is the folder's") {
  CHECK(mistakes(builtin_template()).empty());
  std::size_t count = 0;
  for (const auto& item : std::filesystem::recursive_directory_iterator{COEVAL_SITE_TEMPLATE}) {
    if (!item.is_regular_file() || item.path().extension() == ".md") continue;
    const std::string path = std::filesystem::relative(item.path(), COEVAL_SITE_TEMPLATE).generic_string();
    INFO(path);
    ++count;
    REQUIRE(builtin_template().contains(path));
    CHECK(builtin_template().at(path) == read(item.path()));
  }
  CHECK(count == builtin_template().size());
}

TEST_CASE("a missing slot is told where its place is missing") {
  CHECK(mistakes(with("pages/figure.html", "<slot name=\"matrix\"></slot>", "")) ==
        std::vector<std::string>{"template-slot-missing pages/figure.html:1 pages/figure.html has no slot `matrix`"});
  CHECK(mistakes(with("layout.html", "<slot name=\"title\">Title</slot>", "Title")) ==
        std::vector<std::string>{"template-slot-missing layout.html:2 layout.html has no slot `title`"});
  const std::string line = std::to_string(line_of("parts.html", "<template id=\"caution\">"));
  CHECK(
      mistakes(with("parts.html", "<slot name=\"text\"></slot>", "")) ==
      std::vector<std::string>{"template-slot-missing parts.html:" + line + " the part `caution` has no slot `text`"});
}

TEST_CASE("an unknown slot is told with its line") {
  const std::string line = std::to_string(line_of("pages/issue.html", "<slot name=\"outfit\">"));
  const auto told = mistakes(with("pages/issue.html", "name=\"outfit\"", "name=\"outfits\""));
  REQUIRE(told.size() == 2);
  CHECK(told[0] == "template-slot-missing pages/issue.html:1 pages/issue.html has no slot `outfit`");
  CHECK(told[1] ==
        "template-slot-unknown pages/issue.html:" + line + " there is no slot `outfits` in pages/issue.html");
  CHECK(mistakes(with("pages/issue.html", "<slot name=\"when\"></slot>",
                      "<slot name=\"when\"></slot><slot name=\"when\"></slot>"))
            .size() == 1);
  CHECK(mistakes(with("pages/issue.html", "<slot name=\"when\">", "<slot/><slot name=\"when\">")).size() == 1);
}

TEST_CASE("what is not well-formed is told with its line, and everything else is still checked") {
  Files files = with("pages/issue.html", "</article>", "<br></article>");
  files.at("pages/run.html") = "<article>&nbsp;<slot name=\"about\"/></article>";
  files.at("pages/key.html") = "";
  files.at("pages/line.html") = "<article>\xFF</article>";
  const auto told = mistakes(files);
  REQUIRE(told.size() == 4);
  const std::string line = std::to_string(line_of("pages/issue.html", "</article>"));
  CHECK(told[0] == "broken-template pages/issue.html:" + line + " an end tag does not match the start tag before it");
  CHECK(told[1] == "broken-template pages/key.html:1 there is no element");
  CHECK(told[2] == "broken-template pages/line.html:1 this byte is not UTF-8");
  CHECK(told[3] == "broken-template pages/run.html:1 `&nbsp;` is no character that XML knows");
}

TEST_CASE("files and parts that are missing, unknown or misnamed are told") {
  Files files = builtin_template();
  files.erase("pages/claim.html");
  files.erase("styles/tables.css");
  files["pages/claims.html"] = "<article/>";
  files["pictures/A b.svg"] = "<svg/>";
  files["feed.xml"] = "";
  const auto told = mistakes(files);
  const std::vector<std::string> expected{
      "template-part-unknown feed.xml the site has a file of this name",
      "template-part-missing pages/claim.html the template has no such file",
      "template-part-unknown pages/claims.html no page is made from this file",
      "template-part-unknown pictures/A b.svg a file of this name is not published",
      "template-part-missing layout.html:" + std::to_string(line_of("layout.html", "styles/tables.css")) +
          " the template has no file `styles/tables.css`"};
  CHECK(told == expected);
  const auto parts = mistakes(with("parts.html", "<template id=\"verdict\">", "<template id=\"verdikt\">"));
  REQUIRE(parts.size() == 2);
  CHECK(parts[0].starts_with("template-part-missing parts.html"));
  CHECK(parts[1].find("there is no part `verdikt`") != std::string::npos);
}

TEST_CASE("what the policy of every page would block is told") {
  const std::string first = "<slot name=\"when\"></slot>";
  for (const std::string bad :
       {"<p style=\"color:red\"/>", "<p onclick=\"x\"/>", "<script>x</script>", "<script src=\"scripts/site.js\"/>",
        "<style>p{}</style>", "<img src=\"https://example.org/x.png\" alt=\"\"/>",
        "<img src=\"//example.org/x.png\" alt=\"\"/>", "<a href=\"javascript:x\">x</a>", "<iframe/>", "<form/>",
        "<link rel=\"stylesheet\" href=\"https://example.org/x.css\"/>"}) {
    INFO(bad);
    const auto told = mistakes(with("pages/issue.html", first, first + bad));
    REQUIRE(told.size() == 1);
    CHECK(told[0].starts_with("template-blocked pages/issue.html:"));
  }
  CHECK(mistakes(with("pages/issue.html", first, first + "<a href=\"https://example.org/\">x</a>")).empty());
  CHECK(mistakes(with("layout.html", "<meta charset=\"utf-8\"/>", "<link rel=\"icon\" href=\"icons/icon.svg\"/>"))
            .size() == 1);
}

TEST_CASE("style sheets and scripts that the layout links are published as one each") {
  std::map<std::string, std::string> published;
  for (const auto& [path, bytes] : template_files(*sample_templates())) published[path] = bytes;
  REQUIRE(published.contains("styles/site.css"));
  CHECK(published.contains("scripts/site.js"));
  CHECK(published.contains("icons/icon.svg"));
  CHECK_FALSE(published.contains("styles/page.css"));
  CHECK_FALSE(published.contains("README.md"));
  const std::string& css = published.at("styles/site.css");
  CHECK(css.starts_with(builtin_template().at("styles/palette.css")));
  CHECK(css.find("@media print {\n") != std::string::npos);
}

TEST_CASE("the README lists every file, part and slot, and what it is for") {
  const std::string text = read(std::filesystem::path{COEVAL_SITE_TEMPLATE} / "README.md");
  std::size_t rows = 0;
  const auto lists = [&](const std::string& owner, std::span<const SlotSpec> slots) {
    std::string expected = "\n| " + owner + " | ";
    if (slots.empty()) expected += "no slot |  |\n";
    for (const SlotSpec& slot : slots) {
      if (&slot != slots.data()) expected += "|  | ";
      expected += "`" + std::string{slot.name} + "` | " + std::string{slot.doc} + " |\n";
    }
    INFO(expected);
    CHECK(text.find(expected) != std::string::npos);
    rows += std::max<std::size_t>(slots.size(), 1);
  };
  lists("`layout.html`", document_slots());
  for (const PageKindSpec& spec : page_kinds()) lists("`pages/" + std::string{spec.name} + ".html`", spec.slots);
  for (const PartSpec& spec : part_specs())
    lists("`" + std::string{spec.id} + "`: " + std::string{spec.doc}, spec.slots);
  const auto lines = static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
  std::size_t listed = 0;
  for (std::size_t at = text.find("\n|", text.find("## The document")); at != std::string::npos;
       at = text.find("\n|", at + 1))
    ++listed;
  CHECK(lines > listed);
  CHECK(listed == rows + 2 * 3); // three tables, each with its head and a rule
}
