// html/check_template.hpp: is a file of a template well-formed, and does it hold the slots that it must?
//
// Private to this room.
#pragma once

#include <span>
#include <string_view>

#include <pugixml.hpp>

#include "diagnose/diagnostic.hpp"
#include "pages/page.hpp"

namespace coeval {

// A file of a template, with where its bytes stand for messages.
struct TemplateFile {
  FileIndex index{};
  std::string_view text;
};

// Parses; reports what is not well-formed. An empty document then.
[[nodiscard]] pugi::xml_document parse_template(const TemplateFile& file, Diagnostics& out);

// Where an element's name stands.
[[nodiscard]] Span span_of(const TemplateFile& file, pugi::xml_node element);

// Reports slots in `tree` that are missing, unknown or there twice. `owner` names what holds them: "pages/figure.html",
// "part `verdict`".
void check_slots(const TemplateFile& file, pugi::xml_node tree, std::span<const SlotSpec> slots, std::string_view owner,
                 Diagnostics& out);

// Reports what the policy of every page would block: scripts, handlers and styles in the markup, and what comes from
// another host. Scripts with a `src` are allowed in the document around the pages alone.
void check_policy(const TemplateFile& file, pugi::xml_node tree, bool is_document, Diagnostics& out);

} // namespace coeval
