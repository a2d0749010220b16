// Which known name was probably meant?
#include <catch2/catch.hpp>

#include "diagnose/near.hpp"

using namespace coeval;

TEST_CASE("an edit is an insertion, a deletion, a replacement or a swap of neighbours") {
  CHECK(edit_distance("", "") == 0);
  CHECK(edit_distance("used", "used") == 0);
  CHECK(edit_distance("uesd", "used") == 1);
  CHECK(edit_distance("use", "used") == 1);
  CHECK(edit_distance("usedd", "used") == 1);
  CHECK(edit_distance("useb", "used") == 1);
  CHECK(edit_distance("", "used") == 4);
  CHECK(edit_distance("ca", "abc") == 3); // no edit inside a swap: the optimal string alignment
  CHECK(edit_distance(std::string(100'000, 'a'), std::string(100'000, 'b')) == 200); // hostile lengths stay cheap
}

TEST_CASE("near names are few, near and in order") {
  const std::vector<std::string_view> known{"slot", "name", "id", "used", "notes", "slots"};
  CHECK(near_names("solt", known) == std::vector<std::string_view>{"slot"});
  CHECK(near_names("slos", known) == std::vector<std::string_view>{"slot", "slots"});
  CHECK(near_names("zebra", known).empty());
  CHECK(near_names("xy", known).empty()); // never all of its letters
  CHECK(near_names("slots", known, 1) == std::vector<std::string_view>{"slots"});
}

TEST_CASE("names are listed as in a sentence") {
  const std::vector<std::string_view> three{"a", "b", "c"};
  CHECK(list_names(three) == "`a`, `b` or `c`");
  CHECK(list_names(std::span{three}.first(2), "and") == "`a` and `b`");
  CHECK(did_you_mean(std::span{three}.first(1)) == "did you mean `a`?");
  CHECK(did_you_mean({}).empty());
}
