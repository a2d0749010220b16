// html/sha256.hpp: how does a content policy name the bytes that it allows?
//
// Private to this room.
#pragma once

#include <array>
#include <string>
#include <string_view>

namespace coeval {

// FIPS 180-4.
[[nodiscard]] std::array<unsigned char, 32> sha256(std::string_view bytes);

// RFC 4648, section 4: the usual alphabet, padded.
[[nodiscard]] std::string base64(std::string_view bytes);

// "'sha256-…'", as a content policy lists the text of an element (Content Security Policy Level 3, 2.3.1).
[[nodiscard]] std::string policy_hash(std::string_view text);

} // namespace coeval
