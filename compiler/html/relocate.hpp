// html/relocate.hpp: what must change in the HTML of a page that becomes part of a larger document?
//
// Private to this room. Ids are unique within a page and paths are right in a folder; in a document of many pages both
// must say which page they mean. What is read is what this room wrote: values in double quotes, no "<" or ">" in them.
#pragma once

#include <functional>
#include <map>
#include <set>
#include <string>
#include <string_view>

namespace coeval {

using Ids = std::set<std::string, std::less<>>;

// The ids in a piece of HTML.
[[nodiscard]] Ids ids_in(std::string_view html);

struct Surroundings {
  std::map<std::string, Ids, std::less<>> pages; // path → the ids on it
  Ids shared;                                    // ids of the document that belong to no page, and stay as they are
  std::string base_url;                          // of files that are not in the document; empty: links to them go
  std::function<std::string(std::string_view path)> image; // what an image is loaded from instead
};

// `page`: the path of the page that the piece stands on; empty for what surrounds all pages. Paths in `html` are from
// the root of the site. The id `x` becomes "PAGE:x", with all that refers to it; a link to another page leads to its
// article, or to the place in it where there is such an id.
[[nodiscard]] std::string relocate(std::string_view html, std::string_view page, const Surroundings& surroundings);

} // namespace coeval
