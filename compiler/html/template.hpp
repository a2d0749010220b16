// html/template.hpp: what does the designer's folder say, and does it hold every slot?
//
// A template is a folder of well-formed HTML, style sheets, scripts and icons:
//   layout.html       the document around every page; its slots are `document_slots`
//   private.html      the same around the pages of a collector's shelf, which are never published
//   pages/KIND.html   one for each of `page_kinds`, with that kind's slots
//   parts.html        a <template id> for each of `part_specs`: a verdict, a step of a proof, a picture …
//   everything else   is published as it is, except that the style sheets that layout.html links become one file,
//                     styles/site.css, in their order there, and the scripts one, scripts/site.js
//
// A slot is HTML's own <slot name="…">; what it holds is shown where nothing fills it. An element with `data-if-filled`
// is left out where none of the slots in it is filled. Paths in `href` and `src` are from the root of the site.
#pragma once

#include <map>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "diagnose/diagnostic.hpp"
#include "pages/page.hpp"
#include "source/text.hpp"

namespace coeval {

// What the document around every page must hold.
[[nodiscard]] std::span<const SlotSpec> document_slots();

// A piece of a page that a designer can change.
struct PartSpec {
  std::string_view id;
  std::string_view doc;
  std::vector<SlotSpec> slots;
};
// The order is that of `Part` (parts.hpp).
[[nodiscard]] const std::vector<PartSpec>& part_specs();

// Read and checked; immutable, and so shared by threads.
struct Templates;

enum class Document : std::uint8_t { site, shelf };
[[nodiscard]] std::string_view file_of(Document document); // "layout.html", "private.html"

struct TemplateResult {
  SourceSet sources;                          // of the diagnostics' spans
  std::shared_ptr<const Templates> templates; // null where there was an error
};
// `files`: path below the folder → bytes. `root_name`: the folder as the user wrote it. Reports a file that is missing
// or of no kind, what is not well-formed, a slot or part that is missing, unknown or there twice, and what the page's
// policy would block: scripts and styles in the markup, and anything from another host.
[[nodiscard]] TemplateResult read_templates(std::map<std::string, std::string> files, std::string root_name,
                                            Diagnostics& out, Document document = Document::site);

// The folder site-template/ as it was when the program was built.
[[nodiscard]] const std::map<std::string, std::string>& builtin_template();

// Style sheets, scripts and icons: path in the site → bytes, sorted by path.
[[nodiscard]] std::vector<std::pair<std::string, std::string>> template_files(const Templates& templates);

} // namespace coeval
