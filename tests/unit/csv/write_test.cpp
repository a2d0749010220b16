#include <catch2/catch.hpp>

#include "csv/write.hpp"
#include "unit/csv/reading.hpp"

namespace {

using namespace coeval;

TEST_CASE("cells are quoted as RFC 4180 asks, and no more") {
  CHECK(csv_cell("plain words") == "plain words");
  CHECK(csv_cell("one, two") == "\"one, two\"");
  CHECK(csv_cell("a \"b\" c") == "\"a \"\"b\"\" c\"");
  CHECK(csv_cell("two\nlines") == "\"two\nlines\"");
  CHECK(csv_cell("").empty());
  CHECK(csv_row({"a", "", "b,c"}) == "a,,\"b,c\"\r\n");
}

TEST_CASE("a cell that a spreadsheet would run has an apostrophe in front; a number has not") {
  CHECK(csv_cell("=1+1") == "'=1+1");
  CHECK(csv_cell("@sum") == "'@sum");
  CHECK(csv_cell("-cmd") == "'-cmd");
  CHECK(csv_cell("+49 30") == "'+49 30");
  CHECK(csv_cell("\tx") == "'\tx");
  CHECK(csv_cell("\rx") == "\"'\rx\"");
  CHECK(csv_cell("'quoted'") == "''quoted'");
  CHECK(csv_cell("-1.5") == "-1.5");
  CHECK(csv_cell("+3") == "+3");
  CHECK(csv_cell("-") == "'-");
  CHECK(csv_cell("-1.") == "'-1.");
  CHECK(csv_cell("=HYPERLINK(\"http://example.org\",\"x\")") ==
        "\"'=HYPERLINK(\"\"http://example.org\"\",\"\"x\"\")\"");
}

TEST_CASE("what is written is read back as it was") {
  const std::vector<std::vector<std::string>> rows{
      {"", "'", "\"", "\"\"", ",", "\r\n", "\n", "a\rb"},
      {"=1", "+a", "-1", "-x", "@", "\t", "''=", "Inês \xE2\x80\x94 100"},
      {"x", "", "", "", "", "", "", ""},
  };
  std::string table;
  for (const std::vector<std::string>& row : rows) table += csv_row(row);
  CHECK(reading::read_csv(table) == rows);
}

} // namespace
