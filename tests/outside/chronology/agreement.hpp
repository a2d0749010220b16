// Can these statements all be true, as the compiler sees it?
#pragma once

#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

namespace coeval::outside {

// One [[period]]: its id, and the dates that it is given (none where empty). Statements of the period follow it.
[[nodiscard]] std::string period(std::string_view id, std::string_view dates = {});
// Says that the period lasts: its last day comes after its first, as OWL-Time asks of a proper interval.
[[nodiscard]] std::string lasts(std::string_view id);
// Says how the period above lies to another one.
[[nodiscard]] std::string lies(std::string_view relation, std::string_view other);

// Compiles a knowledge base of one file. What is wrong with it other than contradictions fails the test.
[[nodiscard]] bool all_can_be_true(const std::string& toml);

// A table of this folder.
[[nodiscard]] nlohmann::json published(const std::string& file);

} // namespace coeval::outside
