// html/target.hpp: where does a link lead, and may it?
//
// Private to this room.
#pragma once

#include <string>
#include <string_view>

namespace coeval {

struct LinkTarget {
  enum class Kind { none, site, outside };
  Kind kind = Kind::none;
  std::string href; // as it is written into an attribute, before markup is escaped
};

// The way from a page up to the root of the site: "../" for every folder that it lies in.
[[nodiscard]] std::string way_to_root(std::string_view page);

// `to` is a path from the root of the site, with or without "#anchor", "#anchor" alone, or an http(s) address; all
// else, among it every other scheme and every way out of the site, is Kind::none. `root` is put before paths; what
// leads to `page` itself stays on it. In addresses, bytes that RFC 3986 does not allow are percent-encoded.
[[nodiscard]] LinkTarget target_of(std::string_view to, std::string_view page, std::string_view root);

} // namespace coeval
