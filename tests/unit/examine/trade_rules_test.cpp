// Rules of the trade as knowledge bases. Each is common practice, no published source; the numbers are those that
// collectors quote, and the parts are invented.
#include <catch2/catch.hpp>

#include "part.hpp"

using namespace coeval;
using examining::Names;
using examining::Part;

namespace {

const std::string coat = "[accessory]\nid = \"coat\"\nname = \"Coat\"\nslot = \"body\"\n";

// One original and one reproduction, by what each states.
Part original_and_copy(const std::string& declared, const std::string& original, const std::string& copy,
                       const std::optional<SeenColour>& figure = {}) {
  return Part{coat + "[[mould]]\nid = \"cut\"\n[[mould.run]]\nid = \"first\"\n" + original +
                  "[[repro]]\nid = \"copy\"\nof = \"cut/first\"\n" + copy,
              declared, figure};
}

ClaimAnswer answer(const Part& part, const std::vector<std::string>& texts) {
  return conclude(part.table, part.after(texts), 0).answer;
}

} // namespace

TEST_CASE("a garment's hem ends 3 to 4 mm above the feet") { // common practice, no published source
  const Part part = original_and_copy(
      "[[feature]]\nid = \"hem-mm\"\nname = \"Hem above the feet\"\nkind = \"measure\"\nunit = \"mm\"\n",
      "features = { hem-mm = { value = 3.5, tolerance = 0.5 } }\n",
      "features = { hem-mm = { value = 1, tolerance = 1 } }\n");
  CHECK(answer(part, {"hem-mm=3.5±0.2"}) == ClaimAnswer::consistent);
  CHECK(answer(part, {"hem-mm=3±0"}) == ClaimAnswer::consistent); // the limits belong to it
  CHECK(answer(part, {"hem-mm=4±0"}) == ClaimAnswer::consistent);
  CHECK(answer(part, {"hem-mm=1.5±0.2"}) == ClaimAnswer::excluded);
  CHECK(part.left({"hem-mm=1.5±0.2"}) == Names{"copy"});
  CHECK(answer(part, {"hem-mm=6±0.5"}) == ClaimAnswer::excluded);
  CHECK(part.left({"hem-mm=6±0.5"}).empty());
  // Half a millimetre either way with a ruler is not enough to say.
  const Outcome rough = part.after({"hem-mm=3±0.5"});
  CHECK(rough.stands[0].undecided == 1);
  // At the doubtful end the copy is ruled out all the same, and the claim still agrees with nothing that was seen.
  CHECK(answer(part, {"hem-mm=3±0.5"}) == ClaimAnswer::undecided);
}

TEST_CASE("arm holes that grip are original, loose ones are not") { // common practice, no published source
  const Part part = original_and_copy(
      "[[feature]]\nid = \"arm-holes\"\nname = \"Arm holes\"\nkind = \"choice\"\nvalues = [\"grip\", \"loose\"]\n"
      "tool = \"finger\"\n",
      "features = { arm-holes = \"grip\" }\n", "features = { arm-holes = \"loose\" }\n");
  CHECK(answer(part, {"arm-holes=grip"}) == ClaimAnswer::consistent);
  CHECK(answer(part, {"arm-holes=loose"}) == ClaimAnswer::excluded);
  CHECK(part.after({"arm-holes=loose"}).remaining == Remaining::reproductions);
}

TEST_CASE("a garment's colour equals its figure's own plastic") { // common practice, no published source
  const std::string body = "[[feature]]\nid = \"body-colour\"\nname = \"Colour\"\nkind = \"colour\"\ntolerance = "
                           "3\ntool = \"colour-card\"\n";
  const std::string own = "features = { body-colour = \"same-as-figure\" }\n";
  const std::string other = "colour = { name = \"lemon\", lab = [88, -6, 70] }\n";
  SECTION("compared with the figure by eye") {
    const Part part = original_and_copy(body, own, other);
    CHECK(answer(part, {"body-colour=!same-as-figure"}) == ClaimAnswer::excluded);
    // That it is the figure's colour does not rule the copy out until the figure's colour is known.
    CHECK(answer(part, {"body-colour=same-as-figure"}) == ClaimAnswer::undecided);
  }
  SECTION("with the owner's figure as the reference") {
    const Part part = original_and_copy(body, own, other, SeenColour{{72, 8, 58}, 0.5});
    CHECK(answer(part, {"body-colour=lab(72.4,8.1,58.5)±1"}) == ClaimAnswer::consistent);
    CHECK(answer(part, {"body-colour=same-as-figure"}) == ClaimAnswer::consistent);
    CHECK(answer(part, {"body-colour=lab(88,-6,70)±1"}) == ClaimAnswer::excluded);
    CHECK(part.left({"body-colour=lab(88,-6,70)±1"}) == Names{"copy"});
    // A doubtful reading of the figure is not made up for by a sure one of the coat.
    const Part doubtful = original_and_copy(body, own, other, SeenColour{{72, 8, 58}, 3});
    CHECK(doubtful.after({"body-colour=lab(72.4,8.1,58.5)±1"}).stands[0].undecided == 1);
    // Another figure of the same issue, bleached: the same coat no longer matches.
    const Part bleached = original_and_copy(body, own, other, SeenColour{{84, 3, 30}, 0.5});
    CHECK(answer(bleached, {"body-colour=lab(72.4,8.1,58.5)±1"}) == ClaimAnswer::excluded);
  }
}

TEST_CASE("a grain may face in or out, so that it decides, and which way it faces does not") {
  // common practice, no published source
  const Part part = original_and_copy(
      "[[feature]]\nid = \"grain\"\nname = \"Grain\"\nkind = \"present\"\n"
      "[[feature]]\nid = \"grain-faces\"\nname = \"Grain faces\"\nkind = \"choice\"\nvalues = [\"in\", \"out\"]\n",
      "features = { grain = true, grain-faces = [\"in\", \"out\"] }\n", "features = { grain = false }\n");
  for (const std::string faces : {"grain-faces=in", "grain-faces=out"}) {
    CHECK(part.left({faces}) == Names{"cut/first", "copy"});
    CHECK(answer(part, {faces}) == ClaimAnswer::undecided);
  }
  CHECK(answer(part, {"grain=yes"}) == ClaimAnswer::consistent);
  CHECK(answer(part, {"grain=no"}) == ClaimAnswer::excluded);
  // So the grain is what to look at, and its direction is never proposed.
  CHECK(part.next(part.after({})) == Names{"grain"});
}

TEST_CASE("a fingernail drawn across it makes a faint sound") { // common practice, no published source
  const Part part = original_and_copy(
      "[[feature]]\nid = \"nail\"\nname = \"Fingernail across\"\nkind = \"choice\"\nvalues = [\"faint\", \"none\", "
      "\"scratchy\"]\ntool = \"ear\"\n[[feature]]\nid = \"seam\"\nname = \"Seam\"\nkind = \"present\"\nby = "
      "\"photograph\"\n",
      "features = { nail = \"faint\", seam = true }\n",
      "features = { nail = [\"none\", \"scratchy\"], seam = true }\n");
  CHECK(answer(part, {"nail=faint"}) == ClaimAnswer::consistent);
  CHECK(answer(part, {"nail=scratchy"}) == ClaimAnswer::excluded);
  CHECK(answer(part, {"nail=!faint"}) == ClaimAnswer::excluded);
  // A photograph has no sound: from afar the question stays open.
  CHECK(answer(part, {"seam=yes"}) == ClaimAnswer::undecided);
  CHECK(part.next(part.after({"seam=yes"}, {.seller_first = true})) == Names{"nail"});
}

TEST_CASE("a cast shrinks, so height and weight catch it and a photograph does not") {
  // common practice, no published source
  const Part part{
      examining::lantern +
      "[[mould]]\nid = \"ring\"\nfeatures = { top = \"ring\", vents = 4, height-mm = 22.4, weight-g = { value = "
      "1.6, tolerance = 0.05 } }\n[[mould.run]]\nid = \"brass\"\n"
      "[[repro]]\nid = \"cast\"\nof = \"ring/brass\"\nfeatures = { height-mm = { value = 21.6, tolerance = 0.3 }, "
      "weight-g = { value = 1.4, tolerance = 0.05 } }\n"};
  const Outcome photographed = part.after({"top=ring", "vents=4"}, {.claimed = 0, .seller_first = true});
  CHECK(conclude(part.table, photographed, 0).answer == ClaimAnswer::undecided);
  CHECK(part.next(photographed) == Names{"height-mm", "weight-g"}); // the height takes less time
  CHECK(answer(part, {"top=ring", "vents=4", "height-mm=21.6±0.1"}) == ClaimAnswer::excluded);
  CHECK(answer(part, {"top=ring", "vents=4", "weight-g=1.41±0.02"}) == ClaimAnswer::excluded);
  CHECK(answer(part, {"top=ring", "vents=4", "height-mm=22.3±0.1"}) == ClaimAnswer::consistent);
}
