// html/one_file.hpp: how does the whole reference fit into one file?
//
// All pages stand one after the other in one document: <article id="figures/keeper-maren.html"> …; the anchor `hand` of
// that page is the id "figures/keeper-maren.html:hand", and links between pages are links inside the document. It asks
// for nothing: style sheets, scripts, pictures and the index are inside, and its content policy allows them by their
// hashes and nothing else. Without scripts all of it is shown in order; with them, one page at a time.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "html/render.hpp"

namespace coeval {

// `pages`: the home page first; one for missing pages is passed over. `reader_index_json` as in pages/reader_index.hpp.
// `picture_bytes` of a file below the knowledge base; empty where there is none: its text is shown instead.
// A link to a file that is not a page leads to `options.base_url`, or is no link where that is empty.
[[nodiscard]] std::string render_one_file(const Templates& templates, const std::vector<Page>& pages,
                                          const std::string& reader_index_json, const RenderOptions& options,
                                          const std::function<std::string(const std::string& file)>& picture_bytes);

} // namespace coeval
