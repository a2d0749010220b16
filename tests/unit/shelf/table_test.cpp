// Does a shelf say the same as a table of cells, and is each mistake in one told at its cell?
#include <catch2/catch.hpp>

#include "entries/csv_tables.hpp"
#include "entries/read.hpp"
#include "entries/rows.hpp"
#include "in_memory_kb.hpp"

using namespace coeval;

namespace {

struct Read {
  SourceSet sources;
  EntrySet entries;
  std::vector<Diagnostic> wrong;

  Read(std::string path, std::string text) {
    sources.files.emplace_back(std::move(path), std::move(text));
    Diagnostics out;
    entries = read_entries(sources, {}, out, Language::shelf);
    wrong = out.sorted();
    name_cells(wrong, sources);
  }
  [[nodiscard]] std::string shown() const { return in_memory::shown(sources, wrong); }
};

std::vector<EntryRow> toml_rows(const std::string& text) {
  const Read read{"shelf.toml", text};
  INFO(read.shown());
  REQUIRE(read.wrong.empty());
  return rows_of(read.entries);
}
std::vector<EntryRow> csv_rows(const std::string& text) {
  const Read read{"shelf.csv", text};
  INFO(text << read.shown());
  REQUIRE(read.wrong.empty());
  return rows_of(read.entries);
}
// Code and message of the only thing that is wrong, and the bytes that it points at.
std::string wrong_with(const std::string& csv) {
  const Read read{"shelf.csv", csv};
  return read.shown();
}

const std::string every_kind = R"(# a remark
[shelf]
name = "Harbour, \"drawer\""
home = "GBP"

[[fees]]
id = "saleroom"
currency = "GBP"
increment = "5.00 GBP"
[fees.premium]
on-whole = false
[[fees.premium.tier]]
up-to = "500.00 GBP"
percent = "25 %"
[[fees.premium.tier]]
percent = "20"
[[fees.fixed]]
name = "lot fee"
amount = "2.00 GBP"
[fees.insurance]
percent = "1.50"
on = ["hammer", "premium"]
[[fees.levy]]
kind = "tax"
percent = "20"
on = ["premium", "fee"]

[[piece]]
id = "maren-1"
issue = "keeper-maren/painted-buttons"
keep = true
plastic = [72.1, -6.0, 48.5]
condition = "C8.5"
priority = 5
purchase = "fair"
notes = """
=HYPERLINK("http://example.org")
second; line, "quoted"
"""
[[piece.certificate]]
by = "somebody"
says = "'tis so"
number = "007"

[[part]]
id = "lantern-1"
in = "maren-1"
seen = ["top=ring", "height-mm=21.4±0.05"]
found = ["a \"small\" chip", "- faded"]
condition = 85

[[purchase]]
id = "fair"
paid = "2026-05-02"
price = "41.5 GBP"
tax = "0 JPY"
[[purchase.voucher]]
kind = "receipt"

[[rate]]
one = "GBP"
is = "1.1740"
of = "EUR"
on = "2026-05-01"
source = "TRUE"
)";

} // namespace

TEST_CASE("tables and keys become rows and columns, and back, without loss") {
  const std::vector<EntryRow> rows = toml_rows(every_kind);
  CHECK(rows.size() == 14);
  const std::string table = csv_of(rows);
  CHECK(csv_rows(table) == rows);
  CHECK(toml_rows(toml_of(rows).text) == rows);
  CHECK(csv_of(csv_rows(table)) == table);
  CHECK(toml_of(csv_rows(table)).text == toml_of(rows).text);
  // What a spreadsheet would take for something else is kept from it.
  CHECK(table.find("'007") != std::string::npos);
  CHECK(table.find("'TRUE") != std::string::npos);
  CHECK(table.find("\"'=HYPERLINK") != std::string::npos);
  CHECK(table.find("''tis so") != std::string::npos);
}

TEST_CASE("a head, a row for each table, and only the columns that are used") {
  const std::string table =
      csv_of(toml_rows("[[part]]\nid = \"lantern-1\"\nfound = [\"chip\", \"faded\"]\n[[part.certificate]]\nby = "
                       "\"x\"\nsays = \"C9\"\n"));
  CHECK(table == "table,of,id,found,by,says\r\npart,,lantern-1,\"chip\nfaded\",,\r\ncertificate,lantern-1,,,x,C9\r\n");
}

TEST_CASE("a table is read with any separator, in any order, with flags as spreadsheets write them") {
  const std::vector<EntryRow> rows =
      toml_rows("[[piece]]\nid = \"a\"\nkeep = true\n[[piece.certificate]]\nby = \"x\"\nsays = \"C9\"\n[[piece]]\nid = "
                "\"b\"\n");
  CHECK(csv_rows("id;table;keep;says;by;of\n;certificate;;C9;x;a\na;piece;TRUE;;;\n;;;;;\nb;piece;;;;\n") == rows);
  CHECK(
      csv_rows("\xEF\xBB\xBFtable\tid\tof\tkeep\tby\tsays\npiece\ta\t\ttrue\npiece\tb\ncertificate\t\ta\t\tx\tC9\n") ==
      rows);
}

TEST_CASE("each mistake is told at its cell, with row and column") {
  const auto one = [](const std::string& csv, const std::string& told) {
    INFO(csv);
    const std::string found = wrong_with(csv);
    INFO(found);
    CHECK(found.starts_with(told));
  };
  one("table,id,price\npurchase,fair,\"41,50 GBP\"\n", "broken-amount at `\"41,50 GBP\"`: row 2, column `price`: ");
  one("table,id,priority\npiece,a,many\n", "wrong-type at `many`: row 2, column `priority`: ");
  one("table,id,prise\npurchase,fair,\n",
      "unknown-key at `prise`: row 1, column `prise`: there is no column `prise` (");
  one("table,id,paid\n\npiece,a,2026-05-02\n",
      "unknown-key at `2026-05-02`: row 3, column `paid`: a piece has no `paid`");
  one("table,id\npeice,a\n",
      "unknown-table at `peice`: row 2, column `table`: there is no table `peice` (did you mean `piece`?)");
  one("table,id\n,a\n", "broken-csv at ``: row 2, column `table`: this row does not say what it is");
  one("table,id\npart,\n", "missing-key at `part`: row 2, column `table`: [[part]] needs `id`");
  one("id,notes\na,b\n", "broken-csv at `id`: row 1, column `id`: the head has no column `table`");
  one("table,id,id\npart,a,b\n", "broken-csv at `id`: row 1, column `id`: the head names the column `id` twice");
  one("table,id,\npart,a,b\n", "broken-csv at `b`: row 2, column 3: the head does not name the column of this cell");
  one("table,of,by,says\ncertificate,a,x,y\n", "broken-csv at `a`: row 2, column `of`: there is no piece or part `a`");
  one("table,of,by,says\ncertificate,,x,y\n",
      "broken-csv at `certificate`: row 2, column `table`: a certificate stands in");
  one("table,of,id\npart,b,a\n", "unknown-key at `b`: row 2, column `of`: a part does not stand in another table");
  one("table,name\nshelf,a\nshelf,b\n", "broken-csv at `shelf`: row 3, column `table`: there is a second `shelf`");
  one("table,id\npart,a,b\n", "broken-csv at `b`: row 2: there are more cells than the 2 that the head names");
  one("table,id,notes\npart,a,\"x\n",
      "broken-csv at `\"x\n`: row 2, column `notes`: a quote is opened and never closed");
}
