// import/toml_text.hpp: how is a value written in TOML 1.0?
//
// Private to this room. Whatever the text holds, the result is one value and nothing more.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

namespace coeval {

// In quotes; over several lines where it has several.
[[nodiscard]] std::string toml_string(std::string_view text);
// Of a text, number, true or false; nothing for any other.
[[nodiscard]] std::optional<std::string> toml_scalar(const nlohmann::ordered_json& value);
// As it stands where TOML takes it so, else in quotes.
[[nodiscard]] std::string toml_key(std::string_view key);

} // namespace coeval
