// import/toml_text.hpp: how is a value of JSON written in TOML 1.0?
//
// Private to this room. Whatever the text holds, the result is one value and nothing more.
#pragma once

#include <optional>
#include <string>

#include <nlohmann/json.hpp>

#include "entries/toml_write.hpp"

namespace coeval {

// Of a text, number, true or false; nothing for any other.
[[nodiscard]] std::optional<std::string> toml_scalar(const nlohmann::ordered_json& value);

} // namespace coeval
