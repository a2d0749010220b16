#include "agreement.hpp"

#include <fstream>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "chronology/chronology.hpp"
#include "diagnose/render.hpp"
#include "entries/read.hpp"
#include "links/link.hpp"

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
  SourceSet sources;
  sources.root = "kb";
  sources.files.emplace_back("periods.toml", toml);
  Diagnostics out;
  const LinkedKb kb = link_entries(read_entries(sources, {}, out), true, out);
  INFO(toml);
  INFO(render_text(out.sorted(), sources, {}));
  REQUIRE_FALSE(out.has_errors());
  return solve_chronology(kb).contradictions().empty();
}

nlohmann::json published(const std::string& file) {
  std::ifstream stream(std::string{COEVAL_TEST_DATA} + "/" + file);
  REQUIRE(stream);
  return nlohmann::json::parse(stream);
}

} // namespace coeval::outside
