// html/render.hpp: what is the HTML of a page?
//
// A page's sections become a DOM tree, the tree becomes text, and the text goes where the template has its slot. What
// comes from the knowledge base is only ever the text of a node or the value of an attribute, so it cannot become
// markup; links lead to pages of the site or to http(s), or are dropped.
#pragma once

#include <array>
#include <functional>
#include <string>

#include "html/template.hpp"
#include "pages/page.hpp"

namespace coeval {

// A picture as it is published.
struct PublishedPicture {
  std::string path; // from the root of the site; empty where there is none: its text is shown instead
  int width = 0;    // in CSS pixels; 0: unknown
  int height = 0;
};

struct RenderOptions {
  std::string base_url;  // "https://example.org/reference/", ends in a slash; empty: no canonical links
  std::string site_name; // "Saltmere Patrol"
  std::string date;      // ISO 8601 day of the edition; empty for none
  // Of a file below the knowledge base. Called from whichever thread renders; empty: every file is published under its
  // own path.
  std::function<PublishedPicture(const std::string& file)> picture;
};

// Safe to call from several threads. The same page gives the same bytes. Throws std::logic_error for a section whose
// slot the page's kind does not have.
[[nodiscard]] std::string render_page(const Templates& templates, const Page& page, const RenderOptions& options);

// A CIELAB colour (D65) as sRGB, "#d2a64a"; what lies outside of sRGB is moved to its border.
[[nodiscard]] std::string srgb_of(const std::array<double, 3>& lab);

} // namespace coeval
