// What can be written as an observation, and what is said of the rest.
#include <catch2/catch.hpp>

#include "part.hpp"

using namespace coeval;
using examining::lantern;
using examining::Part;

namespace {

const Part& part() {
  static const Part it{lantern + "[[mould]]\nid = \"m\"\nfeatures = { top = \"ring\" }\n[[mould.run]]\nid = \"r\"\n"};
  return it;
}

Misread misread(const std::string& text) {
  const auto read = read_observation(part().it.kb, text);
  INFO(text);
  REQUIRE(std::holds_alternative<Misread>(read));
  return std::get<Misread>(read);
}

void reads_as(const std::string& text, double low, double high) {
  INFO(text);
  const Observation seen = part().seen(text);
  REQUIRE(seen.measured);
  CHECK(seen.measured->low == Approx(low).margin(1e-9));
  CHECK(seen.measured->high == Approx(high).margin(1e-9));
}

} // namespace

TEST_CASE("words, counts and presence are read, alone, as sets and turned round") {
  CHECK(part().seen("top=ring").atoms == std::vector<SeenAtom>{"ring"});
  CHECK(part().seen(" top = ring , notch ").atoms == std::vector<SeenAtom>{"ring", "notch"});
  CHECK(part().seen("top=!plain").negated);
  CHECK(part().seen("top=!plain,!ring").atoms.size() == 2);
  CHECK(part().seen("vents=3,4").atoms == std::vector<SeenAtom>{3.0, 4.0});
  CHECK(part().seen("vents=0").atoms == std::vector<SeenAtom>{0.0});
  CHECK(part().seen("flash=yes").atoms == std::vector<SeenAtom>{true});
  CHECK(part().seen("flash=false").atoms == std::vector<SeenAtom>{false});
  CHECK(part().seen("stamp=KT, in a circle").atoms == std::vector<SeenAtom>{"KT, in a circle"});
}

TEST_CASE("measurements are read with their uncertainty, in the units of collectors") {
  reads_as("height-mm=21.4±0.05", 21.35, 21.45);
  reads_as("height-mm=21.4+-0.05", 21.35, 21.45);
  reads_as("height-mm=21.4 +/- 0.05 mm", 21.35, 21.45);
  reads_as("height-mm=21.4mm±0.05mm", 21.35, 21.45);
  reads_as("height-mm=2.14cm±0.01cm", 21.3, 21.5);
  reads_as("height-mm=1in±0.01in", 25.146, 25.654);
  reads_as("height-mm=1in±0.1mm", 25.3, 25.5);
  reads_as("weight-g=1oz±0.1g", 28.249523125, 28.449523125);
  reads_as("height-mm=21.4±0", 21.4, 21.4);
  // Without an uncertainty: half of the last digit written.
  reads_as("height-mm=21.4", 21.35, 21.45);
  reads_as("height-mm=21.40", 21.395, 21.405);
  reads_as("height-mm=21", 20.5, 21.5);
  reads_as("height-mm=2.1cm", 20.5, 21.5);
}

TEST_CASE("colours are read with their uncertainty") {
  const Observation seen = part().seen("body-colour=lab(70.8, 5.2, -44.9) ± 1.5");
  REQUIRE(seen.colour);
  CHECK(seen.colour->lab == Lab{70.8, 5.2, -44.9});
  CHECK(seen.colour->uncertainty == 1.5);
  CHECK(part().seen("body-colour=same-as-figure").as_figure);
  CHECK(part().seen("body-colour=!same-as-figure").negated);
  const auto figure = read_colour("70.8,5.2,44.9");
  REQUIRE(std::holds_alternative<SeenColour>(figure));
  CHECK(std::get<SeenColour>(figure).uncertainty == 0);
}

TEST_CASE("what cannot be read is answered with what would do") {
  CHECK(misread("tpo=ring").message == "there is no feature `tpo`");
  CHECK(misread("tpo=ring").help == "did you mean `top`?");
  CHECK(misread("colour-of-the-sea=blue").help == "`coeval list feature` shows what can be looked at");
  CHECK(misread("top").help == "write FEATURE=VALUE, such as top=ring");
  CHECK(misread("top=rong").message == "`rong` is no value of `top`");
  CHECK(misread("top=rong").help == "did you mean `ring`?");
  CHECK(
      misread("top=handle").help ==
      "it is `ring`, `plain` or `notch`; several after commas where you cannot say which, or !ring for anything else");
  CHECK(misread("top=").message == "`top=` names no value");
  CHECK(misread("flash=perhaps").help == "write flash=yes or flash=no");
  CHECK(misread("vents=four").help == "write vents=4, vents=3,4 where you cannot say which, or vents=!4");
  CHECK(misread("vents=-1").message == "`vents` is counted, and `-1` is no count");
  CHECK(misread("vents=2.5").message == "`vents` is counted, and `2.5` is no count");
  CHECK(misread("stamp=").message == "`stamp=` says nothing of what it reads");
}

TEST_CASE("wrong units and uncertainties are refused") {
  const std::string would_do = "write height-mm=21.4±0.05, in mm, or with cm or in behind it";
  CHECK(misread("height-mm=21.4g").message == "`height-mm` is measured in mm, not in g");
  CHECK(misread("height-mm=21.4g").help == would_do);
  CHECK(misread("height-mm=21.4±0.05oz").message == "`height-mm` is measured in mm, not in oz");
  CHECK(misread("weight-g=3mm").help == "write weight-g=21.4±0.05, in g, or with oz behind it");
  CHECK(misread("height-mm=21.4±-0.05").message == "a reading cannot be off by less than 0, as in `21.4±-0.05`");
  CHECK(misread("height-mm=21.4±").message == "`21.4±` does not say how far the reading may be off");
  CHECK(misread("height-mm=-3").message == "`height-mm` cannot be below 0");
  CHECK(misread("height-mm=tall").message == "`tall` is no measurement");
  CHECK(misread("height-mm=21,4").message == "`21,4` has a comma; decimals take a point");
  CHECK(misread("height-mm=21.4 furlongs").message == "`furlongs` is no unit for `height-mm`");
  CHECK(misread("height-mm=!21").message == "`height-mm` is measured, and a measurement cannot be turned round with !");
  CHECK(misread("height-mm=1e5").message == "`e5` is no unit for `height-mm`");
  CHECK(misread("height-mm=nan").message == "`nan` is no measurement");
}

TEST_CASE("colours that are none are refused") {
  CHECK(misread("body-colour=red").message == "`red` is no colour in numbers");
  CHECK(misread("body-colour=lab(1,2,3)").message == "`lab(1,2,3)` does not say how far the reading may be off");
  CHECK(misread("body-colour=lab(1,2)±1").message == "`lab(1,2)±1` has not the three numbers of CIELAB");
  CHECK(misread("body-colour=lab(1,2,3±1").message == "`lab(1,2,3±1` has no closing bracket");
  CHECK(misread("body-colour=lab(101,2,3)±1").message == "lightness goes from 0 to 100, and `lab(101,2,3)±1` says 101");
  CHECK(misread("body-colour=lab(50,2,300)±1").message ==
        "a* and b* of a plastic lie between -200 and 200, unlike those of `lab(50,2,300)±1`");
  CHECK(misread("body-colour=lab(50,2,3)±-1").message ==
        "a reading cannot be off by less than 0, as in `lab(50,2,3)±-1`");
  CHECK(misread("body-colour=lab(50,2,3)±1 or so").message == "`lab(50,2,3)±1 or so` goes on after the colour");
  CHECK(misread("body-colour=!lab(50,2,3)±1").message == "of colours, only !same-as-figure can be turned round with !");
}

TEST_CASE("hostile text is shown cut and harmless") {
  const Misread long_one = misread("top=" + std::string(5000, 'x'));
  CHECK(long_one.message.size() < 200);
  CHECK(misread("top=\x1b[31m").message.find('\x1b') == std::string::npos);
}
