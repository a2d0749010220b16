// An address belongs to one entry, is found again, and stays where it is when the table is moved.
#include "links/address_table.hpp"

#include <string>

#include <catch2/catch.hpp>

using namespace coeval;

TEST_CASE("an address is found by its text, and of two entries the first keeps it") {
  AddressTable table{4};
  CHECK_FALSE(table.give(EntryIndex{0}, {}, "maren"));
  CHECK_FALSE(table.give(EntryIndex{2}, table[EntryIndex{0}], "first"));
  CHECK(table.give(EntryIndex{3}, table[EntryIndex{0}], "first") == EntryIndex{2});
  CHECK(table[EntryIndex{2}] == "maren/first");
  CHECK(table[EntryIndex{1}].empty());
  CHECK(table[EntryIndex{3}].empty());
  CHECK(table.count() == 2);
  CHECK(table.find("maren") == EntryIndex{0});
  CHECK(table.find("maren/first") == EntryIndex{2});
  CHECK_FALSE(table.find("first"));
  CHECK_FALSE(table.find("maren/"));
  CHECK_FALSE(table.find(""));
}

TEST_CASE("addresses come in the order of their bytes") {
  AddressTable table{3};
  (void)table.give(EntryIndex{0}, "a", "x");
  (void)table.give(EntryIndex{1}, {}, "a-b");
  (void)table.give(EntryIndex{2}, {}, "a");
  CHECK(table.in_order() == std::vector{EntryIndex{2}, EntryIndex{1}, EntryIndex{0}}); // '-' comes before '/'
}

TEST_CASE("who refers to an address may go on doing so when the table is moved and grows") {
  constexpr std::uint32_t count = 5000;
  AddressTable first{count};
  for (std::uint32_t i = 0; i < count / 2; ++i) (void)first.give(EntryIndex{i}, "family", std::to_string(i));
  const std::string_view seven = first[EntryIndex{7}];
  AddressTable table{std::move(first)};
  for (std::uint32_t i = count / 2; i < count; ++i) (void)table.give(EntryIndex{i}, "family", std::to_string(i));
  CHECK(seven == "family/7");
  CHECK(seven.data() == table[EntryIndex{7}].data());
  for (std::uint32_t i = 0; i < count; ++i) REQUIRE(table.find("family/" + std::to_string(i)) == EntryIndex{i});
}
