// html/data_uri.hpp: how does a picture stand inside an address?
//
// Private to this room.
#pragma once

#include <string>
#include <string_view>

namespace coeval {

// A data: URL (RFC 2397; WHATWG Fetch, "data: URLs"). The type is told from the file's name; an SVG stays text where
// that is shorter, with its indentation taken out.
[[nodiscard]] std::string data_uri(std::string_view file, std::string_view bytes);

} // namespace coeval
