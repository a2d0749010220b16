// pages/page_content.hpp: does a page say the same as it did before?
//
// Everything that a page holds as one text, so that two pages have the same text exactly if they hold the same. It is
// no format: nobody reads it, and it changes with page.hpp.
#pragma once

#include <string>
#include <vector>

#include "pages/page.hpp"

namespace coeval {

struct PageContent {
  std::string text;
  std::vector<std::string> pictures; // the files of the knowledge base that the page shows, in order
};

[[nodiscard]] PageContent content_of(const Page& page);

} // namespace coeval
