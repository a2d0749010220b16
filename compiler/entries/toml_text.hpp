// entries/toml_text.hpp: what is wrong with a text before, or instead of, reading its tables?
//
// Private to this room. toml++ takes a key of any number of parts, a.b.c, for as many tables inside each other, and
// frees them by recursion: a file of one hostile key would exhaust the stack. Such a text is refused before it gets
// there.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace coeval {

// The most parts of a key; what the schema knows has fewer than ten.
inline constexpr std::size_t most_key_parts = 32;

// The byte at which the first key with more parts than that has one too many.
[[nodiscard]] std::optional<std::size_t> first_deep_key(std::string_view text);

// What toml++ says of `text`, refused at `byte`, in words for somebody who knows TOML and not toml++.
[[nodiscard]] std::string in_plain_words(std::string_view description, std::string_view text, std::size_t byte);

} // namespace coeval
