#include <catch2/catch.hpp>

#include "pages/changes.hpp"

namespace {

using namespace coeval;

TEST_CASE("heads and items of a list of changes are read in their order, lines that go on joined") {
  const auto days =
      parse_changes("# Changes\n\nWhat changed.\n\n- not an item yet\n\n"
                    "## 2026-11-25\n\n- First edition of the demo:\n  42 figures,\n\t7 plants.\n- Second.\n"
                    "\n## 2026-10-01 (draft)\n- Older.\n");
  REQUIRE(days.size() == 2);
  CHECK(days[0].title == "2026-11-25");
  CHECK(days[0].date == "2026-11-25");
  CHECK(days[0].items == std::vector<std::string>{"First edition of the demo: 42 figures, 7 plants.", "Second."});
  CHECK(days[1].title == "2026-10-01 (draft)");
  CHECK(days[1].date == "2026-10-01");
  CHECK(days[1].items == std::vector<std::string>{"Older."});
}

TEST_CASE("a title is a date only where it begins with a day that exists") {
  const auto days = parse_changes("## Next\n- a\n## 2025-02-29\n- b\n## 2024-02-29\n- c\n## 2024-13-01\n## 2024-1-1\n"
                                  "## 2024-01-015\n");
  REQUIRE(days.size() == 6);
  CHECK(days[0].date.empty());
  CHECK(days[1].date.empty());
  CHECK(days[1].title == "2025-02-29");
  CHECK(days[2].date == "2024-02-29");
  CHECK(days[3].date.empty());
  CHECK(days[4].date.empty());
  CHECK(days[5].date.empty());
}

TEST_CASE("what is neither head nor item is left out, and markup stays text") {
  const auto days = parse_changes("## 2026-01-02\r\nloose words\r\n  indented, but after no item\r\n- <b>one</b>\r\n"
                                  "loose again\r\n  and indented\r\n### deeper\r\n-\r\n- \r\n");
  REQUIRE(days.size() == 1);
  CHECK(days[0].title == "2026-01-02");
  CHECK(days[0].items == std::vector<std::string>{"<b>one</b>", ""});
}

TEST_CASE("no text, no changes") {
  CHECK(parse_changes("").empty());
  CHECK(parse_changes("\n\n- item without a head\n").empty());
}

} // namespace
