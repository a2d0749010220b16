// import/json_document.hpp: is a text JSON of a size and depth that we take?
//
// Private to this room. RFC 8259, and stricter: a member that comes twice in an object is refused, because programs
// differ in which of the two they believe. Whoever sent the text may be hostile: what is deeper or wider than any
// export of ours is refused before it takes memory or time.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

namespace coeval {

inline constexpr std::size_t most_json_depth = 16;     // an export has 8
inline constexpr std::size_t most_json_members = 1000; // of one object; so that looking one up stays cheap

struct JsonFault {
  std::string pointer; // RFC 6901
  std::string message;
};

struct JsonResult {
  nlohmann::ordered_json value;
  std::optional<JsonFault> fault; // then there is no value
};

// `passed_over`: members of objects at depth 3, counted from 1, that are checked but not kept.
[[nodiscard]] JsonResult read_json(std::string_view text, std::initializer_list<std::string_view> passed_over);

// A member's name as a part of a JSON pointer, with the slash before it.
[[nodiscard]] std::string pointer_part(std::string_view name);

} // namespace coeval
