#include <catch2/catch.hpp>

#include "pages/tell.hpp"

namespace {

using namespace coeval;

TEST_CASE("a name stands under its first letter, whatever its case or accent") {
  CHECK(letter_of("Boathook") == "B");
  CHECK(letter_of("boathook") == "B");
  CHECK(letter_of("Étaples") == "E");
  CHECK(letter_of("ångström") == "A");
  CHECK(letter_of("Ærø") == "A");
  CHECK(letter_of("ÿ") == "Y");
  CHECK(letter_of("×") == "#");
  CHECK(letter_of("12 vents") == "#");
  CHECK(letter_of("漢") == "#");
  CHECK(letter_of("\xC3") == "#");
  CHECK(letter_of("").size() == 1);
}

TEST_CASE("names are sorted without regard to case and accent") {
  CHECK(sorting_key("Capitão") == "capitao");
  CHECK(sorting_key("Inês") < sorting_key("Inez"));
  CHECK(sorting_key("étape") < sorting_key("Fog horn"));
  CHECK(sorting_key("Zinc") > sorting_key("azul"));
  CHECK(sorting_key("\xC3") == "\xC3");
}

} // namespace
