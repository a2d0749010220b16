// calendar/ascii.hpp: which letters and digits is a date written with? Those of ASCII, whatever the locale.
#pragma once

namespace coeval {

constexpr bool digit(char c) { return c >= '0' && c <= '9'; }
constexpr bool letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
constexpr char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }
constexpr char capital(char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; }

} // namespace coeval
