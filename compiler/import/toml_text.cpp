#include "import/toml_text.hpp"

#include <fmt/format.h>

namespace coeval {
namespace {

// Every number of a knowledge base is a double; TOML wants its floats with a point or an exponent.
std::string float_text(double value) {
  std::string text = fmt::format("{}", value);
  if (text.find_first_of(".e") == std::string::npos) text += ".0";
  return text;
}

} // namespace

std::optional<std::string> toml_scalar(const nlohmann::ordered_json& value) {
  if (value.is_string()) return toml_string(value.get_ref<const std::string&>());
  if (value.is_boolean()) return value.get<bool>() ? "true" : "false";
  if (value.is_number_unsigned() && value.get<std::uint64_t>() > std::uint64_t{INT64_MAX})
    return float_text(value.get<double>());
  if (value.is_number_integer()) return std::to_string(value.get<std::int64_t>());
  if (value.is_number_float()) return float_text(value.get<double>());
  return {};
}

} // namespace coeval
