// Do the bits that a look tells agree with Quinlan's weather table?
//
// T. M. Mitchell, "Machine Learning" (1997), Table 3.2, from J. R. Quinlan, "Induction of decision trees", Machine
// Learning 1 (1986) 81-106 (that it was printed there first is from memory). Fourteen days by four features; whether
// tennis was played is the question. Printed are an entropy of 0.940 and gains of 0.246, 0.151, 0.048 and 0.029 bits,
// the first two from rounded intermediate values; to four decimals they are 0.2467, 0.1518, 0.0481 and 0.0292,
// recomputed outside.
//
// Here a day on which tennis was played is an original, one on which it was not a reproduction.
#include <catch2/catch.hpp>

#include <array>
#include <map>
#include <string>

#include "examine/examine.hpp"
#include "in_memory_kb.hpp"

using namespace coeval;

namespace {

struct Row {
  std::string outlook, temperature, humidity, wind;
  bool play;
};
const std::array<Row, 14> days{{{"sunny", "hot", "high", "weak", false},
                                {"sunny", "hot", "high", "strong", false},
                                {"overcast", "hot", "high", "weak", true},
                                {"rain", "mild", "high", "weak", true},
                                {"rain", "cool", "normal", "weak", true},
                                {"rain", "cool", "normal", "strong", false},
                                {"overcast", "cool", "normal", "strong", true},
                                {"sunny", "mild", "high", "weak", false},
                                {"sunny", "cool", "normal", "weak", true},
                                {"rain", "mild", "normal", "weak", true},
                                {"sunny", "mild", "normal", "strong", true},
                                {"overcast", "mild", "high", "strong", true},
                                {"overcast", "hot", "normal", "weak", true},
                                {"rain", "mild", "high", "strong", false}}};

class Weather {
public:
  Weather() : it(text()), candidates(candidates_of(it.kb, {})), table(tabulate(it.kb, candidates)) {}

  in_memory::Kb it;
  std::vector<Candidate> candidates;
  FeatureTable table;

  [[nodiscard]] double gain(const std::string& feature, const std::vector<std::size_t>& left) const {
    return bits_told(table.columns[at(it.kb.find_feature(feature).value())], left,
                     Classes::original_or_not(candidates));
  }
  [[nodiscard]] std::vector<std::size_t> all() const {
    std::vector<std::size_t> list(candidates.size());
    for (std::size_t i = 0; i < list.size(); ++i) list[i] = i;
    return list;
  }
  [[nodiscard]] std::vector<std::size_t> with_outlook(const std::string& outlook) const {
    const auto read = read_observation(it.kb, "outlook=" + outlook);
    return examine(table, {std::get<Observation>(read)}).left;
  }

private:
  static std::string text() {
    std::string kb = "[accessory]\nid = \"day\"\nname = \"Day\"\nslot = \"hand\"\n[[mould]]\nid = \"m\"\n";
    std::string unplayed;
    for (std::size_t i = 0; i < days.size(); ++i) {
      const Row& day = days[i];
      const std::string head = "id = \"d" + std::to_string(i + 1) + "\"\n";
      const std::string stated = "features = { outlook = \"" + day.outlook + "\", temperature = \"" + day.temperature +
                                 "\", humidity = \"" + day.humidity + "\", wind = \"" + day.wind + "\" }\n";
      if (day.play)
        kb += "[[mould.run]]\n" + head + stated;
      else
        unplayed += "[[repro]]\n" + head + "of = \"m\"\n" + stated;
    }
    const std::map<std::string, std::string> values{{"outlook", R"("sunny", "overcast", "rain")"},
                                                    {"temperature", R"("hot", "mild", "cool")"},
                                                    {"humidity", R"("high", "normal")"},
                                                    {"wind", R"("weak", "strong")"}};
    for (const auto& [id, words] : values)
      unplayed +=
          "[[feature]]\nid = \"" + id + "\"\nname = \"" + id + "\"\nkind = \"choice\"\nvalues = [" + words + "]\n";
    return kb + unplayed;
  }
};

} // namespace

TEST_CASE("the gains of the weather table") {
  const Weather weather;
  REQUIRE(weather.candidates.size() == 14);
  CHECK(entropy({9, 5}) == Approx(0.940286).margin(5e-7));
  CHECK(weather.gain("outlook", weather.all()) == Approx(0.24675).margin(5e-7));
  CHECK(weather.gain("humidity", weather.all()) == Approx(0.151836).margin(5e-7));
  CHECK(weather.gain("wind", weather.all()) == Approx(0.048127).margin(5e-7));
  CHECK(weather.gain("temperature", weather.all()) == Approx(0.029223).margin(5e-7));
}

TEST_CASE("the gains below the first branches") {
  const Weather weather;
  const auto sunny = weather.with_outlook("sunny");
  REQUIRE(sunny.size() == 5);
  CHECK(weather.gain("humidity", sunny) == Approx(0.970951).margin(5e-7));
  CHECK(weather.gain("temperature", sunny) == Approx(0.570951).margin(5e-7));
  CHECK(weather.gain("wind", sunny) == Approx(0.019973).margin(5e-7));
  CHECK(weather.gain("outlook", sunny) == 0);
  const auto rain = weather.with_outlook("rain");
  REQUIRE(rain.size() == 5);
  CHECK(weather.gain("wind", rain) == Approx(0.970951).margin(5e-7));
  CHECK(weather.gain("temperature", rain) == Approx(0.019973).margin(5e-7));
  CHECK(weather.gain("humidity", rain) == Approx(0.019973).margin(5e-7));
}

TEST_CASE("the published tree decides every day") {
  // outlook = sunny: humidity decides; overcast: yes; rain: wind decides.
  const Weather weather;
  const auto remaining = [&](const std::vector<std::string>& texts) {
    std::vector<Observation> seen;
    for (const std::string& text : texts) seen.push_back(std::get<Observation>(read_observation(weather.it.kb, text)));
    return examine(weather.table, seen).remaining;
  };
  CHECK(remaining({"outlook=sunny", "humidity=high"}) == Remaining::reproductions);
  CHECK(remaining({"outlook=sunny", "humidity=normal"}) == Remaining::originals);
  CHECK(remaining({"outlook=overcast"}) == Remaining::originals);
  CHECK(remaining({"outlook=rain", "wind=strong"}) == Remaining::reproductions);
  CHECK(remaining({"outlook=rain", "wind=weak"}) == Remaining::originals);
  CHECK(remaining({"outlook=sunny"}) == Remaining::mixed);
}
