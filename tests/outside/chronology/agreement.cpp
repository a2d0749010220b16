#include "agreement.hpp"

#include <fstream>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "in_memory_kb.hpp"

namespace coeval::outside {

std::string period(std::string_view id, std::string_view dates) {
  std::string toml = fmt::format("\n[[period]]\nid = \"{0}\"\nname = \"{0}\"\n", id);
  if (!dates.empty()) toml += fmt::format("dates = \"{}\"\n", dates);
  return toml;
}

std::string lasts(std::string_view id) {
  return fmt::format("\n[[period.timing]]\nthis = \"end\"\nafter = \"period/{}.start\"\n", id);
}

std::string lies(std::string_view relation, std::string_view other) {
  return fmt::format("\n[[period.timing]]\nrelation = \"{}\"\nspan = \"period/{}\"\n", relation, other);
}

bool all_can_be_true(const std::string& toml) {
  const in_memory::Kb kb{toml};
  INFO(toml);
  INFO(kb.troubles());
  REQUIRE_FALSE(kb.out.has_errors());
  return kb.dates.contradictions().empty();
}

nlohmann::json published(const std::string& file) {
  std::ifstream stream(std::string{COEVAL_TEST_DATA} + "/" + file);
  REQUIRE(stream);
  return nlohmann::json::parse(stream);
}

} // namespace coeval::outside
