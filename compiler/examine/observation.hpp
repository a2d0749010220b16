// examine/observation.hpp: what was seen, felt or measured on the part at hand?
//
//   top=ring              a choice, or what a mark reads
//   top=ring,notch        one of them; the looker cannot say which (a mark's text is never split)
//   top=!plain            not that one; top=!plain,knob: neither
//   flash=yes  flash=no   there or not
//   vents=4               counted
//   height-mm=21.4±0.05   measured, with how far the reading may be off; +- is the same. Without it: half of the last
//                         digit written. mm, cm and in are understood for a length, g and oz for a weight
//   body-colour=lab(70.8,5.2,44.9)±1.5   CIELAB, D65, with how far the reading may be off as a CIEDE2000 difference
//   body-colour=same-as-figure           compared with the figure's plastic by eye; also !same-as-figure
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "examine/colour.hpp"
#include "examine/measure.hpp"
#include "links/kb.hpp"

namespace coeval {

struct SeenColour {
  Lab lab;
  double uncertainty = 0; // as a CIEDE2000 difference
};

using SeenAtom = std::variant<bool, double, std::string>; // as an entry's FeatureAtom, with a text of its own

struct Observation {
  FeatureIndex feature{};
  std::string text; // as given
  // Choice, present, count, text: the part shows one of these or, `negated`, none of them.
  std::vector<SeenAtom> atoms;
  bool negated = false;
  std::optional<Interval> measured; // in the feature's unit: all values that the reading allows
  std::optional<SeenColour> colour;
  bool as_figure = false; // compared with the figure's plastic; then `colour` is the figure's, where that is known
};

// What could not be read, why, and what would do.
struct Misread {
  std::string message;
  std::string help;
};

// `figure_colour` is the plastic of the owner's figure, where it was read.
[[nodiscard]] std::variant<Observation, Misread> read_observation(const LinkedKb& kb, std::string_view text,
                                                                  const std::optional<SeenColour>& figure_colour = {});
// "L,a,b", "lab(L,a,b)", either followed by ± and a CIEDE2000 difference.
[[nodiscard]] std::variant<SeenColour, Misread> read_colour(std::string_view text);

} // namespace coeval
