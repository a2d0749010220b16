// entries/countries.hpp: is this the code of a country, now or in the past?
#pragma once

#include <span>
#include <string_view>

namespace coeval {

// ISO 3166-1 alpha-2 codes and ISO 3166-3 alpha-4 codes of withdrawn names, lower case, sorted.
[[nodiscard]] std::span<const std::string_view> country_codes();

} // namespace coeval
