// What is examined in a test: a knowledge base in memory and the candidates of its one accessory.
#pragma once

#include <algorithm>
#include <stdexcept>
#include <string>
#include <vector>

#include "examine/alike.hpp"
#include "examine/examine.hpp"
#include "in_memory_kb.hpp"

namespace examining {

inline const std::string features = R"(
[[feature]]
id = "top"
name = "Top"
kind = "choice"
values = ["ring", "plain", "notch"]
by = "photograph"
[[feature]]
id = "vents"
name = "Vents"
kind = "count"
by = "photograph"
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
by = "measurement"
effort = 2
[[feature]]
id = "weight-g"
name = "Weight"
kind = "measure"
unit = "g"
by = "measurement"
effort = 3
[[feature]]
id = "stamp"
name = "Stamp"
kind = "text"
[[feature]]
id = "body-colour"
name = "Colour of the plastic"
kind = "colour"
tolerance = 4
[[feature]]
id = "melts"
name = "Melts under a needle"
kind = "present"
tool = "needle"
[[feature]]
id = "dissolves"
name = "Dissolves"
kind = "present"
destructive = true
)";

inline const std::string lantern = "[accessory]\nid = \"lantern\"\nname = \"Lantern\"\nslot = \"hand\"\n";

class Part {
public:
  explicit Part(const std::string& accessory, const std::string& declared = features,
                const std::optional<coeval::SeenColour>& figure = {})
      : it(std::vector{coeval::SourceFile{"a.toml", accessory}, coeval::SourceFile{"b.toml", declared}}),
        candidates(coeval::candidates_of(it.kb, {})), table(coeval::tabulate(it.kb, candidates, figure)),
        figure_(figure) {}

  in_memory::Kb it;
  std::vector<coeval::Candidate> candidates;
  coeval::FeatureTable table;

  [[nodiscard]] std::string address(std::size_t candidate) const {
    const std::string_view full = coeval::address_of(it.kb, candidates[candidate]);
    return std::string{full.substr(full.find('/') + 1)};
  }
  [[nodiscard]] std::vector<std::string> addresses(const std::vector<std::size_t>& list) const {
    std::vector<std::string> names;
    for (const std::size_t candidate : list) names.push_back(address(candidate));
    return names;
  }
  [[nodiscard]] std::size_t find(const std::string& name) const {
    for (std::size_t i = 0; i < candidates.size(); ++i)
      if (address(i) == name) return i;
    throw std::out_of_range("the test's knowledge base has no " + name);
  }

  [[nodiscard]] coeval::Observation seen(const std::string& text) const {
    auto read = coeval::read_observation(it.kb, text, figure_);
    if (const auto* misread = std::get_if<coeval::Misread>(&read)) throw std::invalid_argument(misread->message);
    return std::get<coeval::Observation>(std::move(read));
  }
  [[nodiscard]] coeval::Outcome after(const std::vector<std::string>& texts, coeval::Question question = {}) const {
    std::vector<coeval::Observation> list;
    for (const std::string& text : texts) list.push_back(seen(text));
    return coeval::examine(table, list, question);
  }
  // The addresses that are left.
  [[nodiscard]] std::vector<std::string> left(const std::vector<std::string>& texts) const {
    return addresses(after(texts).left);
  }
  [[nodiscard]] std::vector<std::string> next(const coeval::Outcome& outcome) const {
    std::vector<std::string> ids;
    for (const coeval::Look& look : outcome.next)
      ids.push_back(table.feature(static_cast<std::size_t>(look.feature)).id);
    return ids;
  }

private:
  std::optional<coeval::SeenColour> figure_;
};

using Names = std::vector<std::string>;

} // namespace examining
