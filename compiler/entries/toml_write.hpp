// entries/toml_write.hpp: how are a text and a key written in TOML 1.0?
//
// Whatever they hold, the result is one value or one key and nothing more.
#pragma once

#include <string>
#include <string_view>

namespace coeval {

// In quotes; over several lines where it has several.
[[nodiscard]] std::string toml_string(std::string_view text);
// As it stands where TOML takes it so, else in quotes.
[[nodiscard]] std::string toml_key(std::string_view key);

} // namespace coeval
