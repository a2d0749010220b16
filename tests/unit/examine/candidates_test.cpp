// What is stated of each candidate: the nearest statement counts, feature by feature.
#include <catch2/catch.hpp>

#include "examine/words.hpp"
#include "part.hpp"

using namespace coeval;
using examining::lantern;
using examining::Names;
using examining::Part;

namespace {

std::string stated(const Part& part, const std::string& candidate, const std::string& feature) {
  const Stated* found = part.candidates[part.find(candidate)].find(part.it.kb.find_feature(feature).value());
  return found == nullptr ? "nothing" : stated_words(part.it.kb, *found);
}

const std::string inherited = R"(
features = { vents = 4, flash = false }
[[mould]]
id = "tall"
features = { top = ["ring", "notch"], height-mm = 21.5 }
[[mould.run]]
id = "red"
features = { top = "ring", flash = [true, false] }
[[mould.run]]
id = "blue"
colour = { name = "blue", lab = [30, 5, -40] }
[[mould]]
id = "short"
features = { vents = 6, body-colour = { lab = [50, 0, 0], tolerance = 2 } }
[[mould.run]]
id = "grey"
[[mould.run]]
id = "white"
colour = { name = "white", lab = [95, 0, 2] }
[[mould.run]]
id = "cream"
colour = { name = "cream", lab = [90, 0, 9] }
features = { body-colour = { lab = [91, 1, 10] } }
[[repro]]
id = "cast"
of = "tall/red"
features = { height-mm = { value = 21, tolerance = 0.2 } }
[[repro]]
id = "copy"
of = "short"
colour = { name = "paint", lab = [60, 1, 1] }
)";

} // namespace

TEST_CASE("a run states what its mould and its accessory do, unless it says otherwise") {
  const Part part{lantern + inherited};
  REQUIRE(part.it.codes().empty());
  CHECK(part.addresses({0, 1, 2, 3, 4, 5, 6}) ==
        Names{"tall/red", "tall/blue", "short/grey", "short/white", "short/cream", "cast", "copy"});
  CHECK(stated(part, "tall/red", "vents") == "4");
  CHECK(stated(part, "tall/red", "top") == "ring");           // narrowed
  CHECK(stated(part, "tall/red", "flash") == "yes or no");    // widened
  CHECK(stated(part, "tall/blue", "top") == "ring or notch"); // the mould's
  CHECK(stated(part, "tall/blue", "flash") == "no");          // the accessory's
  CHECK(stated(part, "short/grey", "vents") == "6");
  CHECK(stated(part, "short/grey", "top") == "nothing");
  CHECK(stated(part, "tall/red", "height-mm") == "21.5 ± 0.3 mm"); // the feature's tolerance
}

TEST_CASE("a reproduction states what it copies does, unless it says otherwise") {
  const Part part{lantern + inherited};
  CHECK(stated(part, "cast", "top") == "ring");
  CHECK(stated(part, "cast", "vents") == "4");
  CHECK(stated(part, "cast", "height-mm") == "21 ± 0.2 mm");
  CHECK(stated(part, "copy", "vents") == "6");
  CHECK_FALSE(part.candidates[part.find("cast")].original());
  CHECK(part.candidates[part.find("tall/red")].original());
}

TEST_CASE("a colour in numbers counts as the colour of the plastic") {
  const Part part{lantern + inherited};
  CHECK(stated(part, "tall/blue", "body-colour") == "lab(30, 5, -40) ± 4");
  CHECK(stated(part, "short/grey", "body-colour") == "lab(50, 0, 0) ± 2");
  CHECK(stated(part, "short/white", "body-colour") == "lab(95, 0, 2) ± 4");  // nearer than the mould's
  CHECK(stated(part, "short/cream", "body-colour") == "lab(91, 1, 10) ± 4"); // its own features table
  CHECK(stated(part, "copy", "body-colour") == "lab(60, 1, 1) ± 4");
  CHECK(stated(part, "tall/red", "body-colour") == "nothing");
  CHECK(colour_name(part.it.kb, part.it.entry("lantern/tall/blue")) == "blue");
  CHECK(colour_name(part.it.kb, part.it.entry("lantern/tall/red")).empty());
}

TEST_CASE("which feature a colour stands for") {
  const auto colour = [](const std::string& features) {
    const Part part{lantern + "[[mould]]\nid = \"m\"\n", features};
    const auto found = plastic_colour(part.it.kb);
    return found ? part.it.kb.features[at(*found)].id : std::string{"none"};
  };
  const std::string shade = "[[feature]]\nid = \"shade\"\nname = \"S\"\nkind = \"colour\"\n";
  const std::string paint = "[[feature]]\nid = \"paint\"\nname = \"P\"\nkind = \"colour\"\n";
  const std::string body = "[[feature]]\nid = \"body-colour\"\nname = \"B\"\nkind = \"colour\"\n";
  CHECK(colour(shade) == "shade");
  CHECK(colour(shade + paint) == "none");
  CHECK(colour(shade + paint + body) == "body-colour");
  CHECK(colour("") == "none");
}

TEST_CASE("a value of another kind than its feature's states nothing") {
  const Part part{lantern + "[[mould]]\nid = \"m\"\nfeatures = { top = 4, vents = \"ring\", body-colour = \"red\", "
                            "flash = 1, nonsense = 1 }\n[[mould.run]]\nid = \"r\"\n"};
  CHECK(part.candidates.at(0).stated.empty());
}

TEST_CASE("the candidates of a slot are those of its accessories") {
  const Part part{lantern + "[[mould]]\nid = \"m\"\n[[mould.run]]\nid = \"r\"\n"};
  CHECK(candidates_in_slot(part.it.kb, "hand").size() == 1);
  CHECK(candidates_in_slot(part.it.kb, "head").empty());
}
