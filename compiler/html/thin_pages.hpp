// html/thin_pages.hpp: what can a document of all pages say once that a site says on every page?
//
// Private to this room. In a site each proof stands in full wherever it is needed. In one file the sources of a
// statement stand once, on a page of statements that is added, and every proof that uses it leads there; and of a
// verdict that rules something out, only the grounds that do so keep their proofs. The home page says so.
#pragma once

#include <string>
#include <vector>

#include "pages/page.hpp"

namespace coeval {

// `pages`: the home page first. `base_url`: where everything stands in full; empty for none.
[[nodiscard]] std::vector<Page> thin_pages(std::vector<Page> pages, const std::string& base_url);

} // namespace coeval
