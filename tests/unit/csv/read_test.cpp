#include <catch2/catch.hpp>

#include "csv/read.hpp"
#include "csv/write.hpp"

namespace {

using namespace coeval;
using Rows = std::vector<std::vector<std::string>>;

Rows texts_of(std::string_view text) {
  Rows rows;
  const auto fault = read_csv(text, [&](const CsvRow& row) {
    rows.emplace_back();
    for (const CsvCell& cell : row.cells) rows.back().push_back(cell.text);
  });
  INFO((fault ? fault->message : "no fault"));
  REQUIRE_FALSE(fault);
  return rows;
}

CsvFault fault_of(std::string_view text, const CsvLimits& limits = {}) {
  const auto fault = read_csv(
      text, [](const CsvRow&) {}, limits);
  REQUIRE(fault);
  return *fault;
}

// The examples of RFC 4180 section 2, rules 1 to 7, each below a head of its own.
TEST_CASE("the examples of RFC 4180 are read as it says") {
  const Rows plain{{"field_name", "field_name", "field_name"}, {"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}};
  CHECK(texts_of("field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") == plain);
  CHECK(texts_of("field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx") == plain);
  CHECK(texts_of("a,b,c\r\n\"aaa\",\"bbb\",\"ccc\"\r\n")[1] == std::vector<std::string>{"aaa", "bbb", "ccc"});
  CHECK(texts_of("a,b,c\r\n\"aaa\",\"b\r\nbb\",\"ccc\"\r\n")[1] == std::vector<std::string>{"aaa", "b\r\nbb", "ccc"});
  CHECK(texts_of("a,b,c\r\n\"aaa\",\"b\"\"bb\",\"ccc\"\r\n")[1] == std::vector<std::string>{"aaa", "b\"bb", "ccc"});
  CHECK(texts_of("a,b\r\n x , y \r\n")[1] == std::vector<std::string>{" x ", " y "}); // rule 4: blanks belong to it
}

TEST_CASE("separator, row ends and byte order mark are as the table has them") {
  const Rows rows{{"table", "id"}, {"part", "a,b;c"}};
  CHECK(texts_of("table,id\npart,\"a,b;c\"\n") == rows);
  CHECK(texts_of("table;id\r\npart;\"a,b;c\"\r\n") == rows);
  CHECK(texts_of("table\tid\rpart\ta,b;c\r") == rows);
  CHECK(texts_of("\xEF\xBB\xBFtable,id\npart,\"a,b;c\"") == rows);
  CHECK(texts_of("\"table,x\";id\npart;1\n") == Rows{{"table,x", "id"}, {"part", "1"}});
  CHECK(texts_of("alone\none\n") == Rows{{"alone"}, {"one"}});
  CHECK(texts_of("").empty());
}

TEST_CASE("a cell knows its bytes, and a row its number, blank lines counted") {
  const std::string text = "\xEF\xBB\xBF"
                           "a,b\r\n\r\n\r\n\"x\ny\",\n";
  std::vector<CsvRow> rows;
  REQUIRE_FALSE(read_csv(text, [&](const CsvRow& row) { rows.push_back(row); }));
  REQUIRE(rows.size() == 2);
  CHECK(rows[0].number == 1);
  CHECK(rows[1].number == 4);
  const auto bytes = [&](const CsvCell& cell) { return text.substr(cell.begin, cell.end - cell.begin); };
  CHECK(bytes(rows[0].cells[0]) == "a");
  CHECK(bytes(rows[0].cells[1]) == "b");
  CHECK(bytes(rows[1].cells[0]) == "\"x\ny\"");
  CHECK(rows[1].cells[0].text == "x\ny");
  CHECK(rows[1].cells[1].begin == text.size() - 1);
  CHECK_FALSE(rows[1].cells[1].given);
}

TEST_CASE("an apostrophe in front is dropped, and tells an empty text from none") {
  const Rows rows = texts_of("a,b,c,d\n'=1+1,''x,',\"'-a\"\"b\"\n");
  CHECK(rows[1] == std::vector<std::string>{"=1+1", "'x", "", "-a\"b"});
  std::vector<bool> given;
  REQUIRE_FALSE(read_csv("a,b,c\n',,\"\"\n", [&](const CsvRow& row) {
    given.clear();
    for (const CsvCell& cell : row.cells) given.push_back(cell.given);
  }));
  CHECK(given == std::vector<bool>{true, false, false});
}

TEST_CASE("what is no table is refused with row and column") {
  CHECK(fault_of("table,id\npart,le\"n\n").message == "row 2, column `id`: a quote stands in a cell without quotes");
  CHECK(fault_of("table,id\npart,\"len\" \n").message ==
        "row 2, column `id`: something stands behind the closing quote");
  CHECK(fault_of("table,id\n\"part,len\n").message == "row 2, column `table`: a quote is opened and never closed");
  CHECK(fault_of("table,\"id\n").message == "row 1, column 2: a quote is opened and never closed");
  CHECK(fault_of("table,id\npart,one\npart,two,\n").message ==
        "row 3: there are more cells than the 2 that the head names");
  const CsvFault stray = fault_of("table,id\npart,le\"n\n");
  CHECK(stray.begin == 14);
  CHECK(stray.end == 17);
}

TEST_CASE("what is larger than the limits is refused") {
  const CsvLimits small{.rows = 2, .columns = 3, .cell = 4};
  CHECK_FALSE(read_csv(
      "a,b,c\n1234,,\n", [](const CsvRow&) {}, small));
  CHECK(fault_of("a,b\n1,2\n3,4\n", small).message == "there are more than 2 rows");
  CHECK(fault_of("a,b,c,d\n", small).message == "row 1: there are more than 3 columns");
  CHECK(fault_of("a,b\n1,23456\n", small).message == "row 2, column `b`: a cell has more than 4 bytes");
}

TEST_CASE("what is written, our reader reads back as it was") {
  const Rows rows{
      {"", "'", "\"", "\"\"", ",", "\r\n", "\n", "a\rb"},
      {"=1", "+a", "-1", "-x", "@", "\t", "''=", "Inês \xE2\x80\x94 100"},
      {"x", "", "", "", "", "", "", ""},
  };
  std::string table;
  for (const std::vector<std::string>& row : rows) table += csv_row(row);
  CHECK(texts_of(table) == rows);
  CHECK(texts_of("a;b\n" + csv_cell("x;y", ';') + ";" + csv_cell("x,y", ';') + "\n")[1] ==
        std::vector<std::string>{"x;y", "x,y"});
}

} // namespace
