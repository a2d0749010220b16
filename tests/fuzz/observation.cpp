// libFuzzer target: whatever is written as an observation, is it read or refused with something to say, and does what
// was read leave a sound outcome?
#include <cstdint>
#include <cstdlib>
#include <string>

#include "../in_memory_kb.hpp"
#include "examine/examine.hpp"

using namespace coeval;

namespace {

// One feature of each kind, and candidates that state all, some and none of them.
struct World {
  in_memory::Kb it{R"(
[[feature]]
id = "top"
name = "Top"
kind = "choice"
values = ["ring", "plain", "notch"]
[[feature]]
id = "vents"
name = "Vents"
kind = "count"
[[feature]]
id = "flash"
name = "Flash"
kind = "present"
[[feature]]
id = "height-mm"
name = "Height"
kind = "measure"
unit = "mm"
tolerance = 0.3
[[feature]]
id = "weight-g"
name = "Weight"
kind = "measure"
unit = "g"
tolerance = 0.1
[[feature]]
id = "stamp"
name = "Stamp"
kind = "text"
[[feature]]
id = "body-colour"
name = "Colour"
kind = "colour"
tolerance = 4
[accessory]
id = "lantern"
name = "Lantern"
slot = "hand"
[[mould]]
id = "m"
[[mould.run]]
id = "all"
features = { top = ["ring", "plain"], vents = 4, flash = true, height-mm = 21.5, weight-g = 1.4, stamp = "KT", body-colour = { lab = [70, 5, 44] } }
[[mould.run]]
id = "some"
features = { top = "notch", height-mm = [20, 25], body-colour = "same-as-figure" }
[[mould.run]]
id = "none"
)"};
  std::vector<Candidate> candidates = candidates_of(it.kb, {});
  FeatureTable table = tabulate(it.kb, candidates);
};

void require(bool holds) {
  if (!holds) std::abort();
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const World world;
  const std::string text(reinterpret_cast<const char*>(data), size);
  (void)read_colour(text);
  const auto read = read_observation(world.it.kb, text, SeenColour{{50, 0, 0}, 1});
  if (const auto* misread = std::get_if<Misread>(&read)) {
    require(!misread->message.empty() && !misread->help.empty() && misread->message.size() < 1000);
    require(misread->message.find('\x1b') == std::string::npos && misread->message.find('\n') == std::string::npos);
    return 0;
  }
  const Observation& seen = std::get<Observation>(read);
  if (seen.measured) require(seen.measured->low <= seen.measured->high);
  const Outcome outcome = examine(world.table, {seen}, {.claimed = 0});
  require(outcome.stands[2].excludes == 0); // it states nothing
  for (std::size_t candidate = 0; candidate < 3; ++candidate) {
    const Stand& stand = outcome.stands[candidate];
    require((stand.excludes & stand.agrees) == 0 && (stand.excludes & stand.undecided) == 0);
  }
  return 0;
}
