// Are parts found again as they were kept, and none of them where a byte is wrong? Every byte is tried.
#include <catch2/catch.hpp>

#include "inputs/parts.hpp"

using namespace coeval;

namespace {

std::string kept() {
  PartsAfter parts;
  parts.add(hash_of("b"), "part of b");
  parts.add(hash_of("a"), std::string{"\0 and more", 10});
  parts.add(hash_of("c"), "");
  return std::move(parts).finished();
}

} // namespace

TEST_CASE("parts are found by their keys") {
  const std::string bytes = kept();
  const PartsBefore parts{bytes};
  CHECK(parts.find(hash_of("a")) == std::string_view{"\0 and more", 10});
  CHECK(parts.find(hash_of("b")) == "part of b");
  CHECK(parts.find(hash_of("c")) == "");
  CHECK_FALSE(parts.find(hash_of("d")));
  const std::string none = PartsAfter{}.finished();
  CHECK_FALSE(PartsBefore{none}.find(hash_of("a")));
}

TEST_CASE("with any one byte wrong or missing, no part is found") {
  const std::string bytes = kept();
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    CAPTURE(i);
    std::string wrong = bytes;
    wrong[i] = static_cast<char>(wrong[i] ^ 1);
    CHECK_FALSE(PartsBefore{wrong}.find(hash_of("b")));
    CHECK_FALSE(PartsBefore{std::string_view{bytes}.substr(0, i)}.find(hash_of("b")));
  }
}
