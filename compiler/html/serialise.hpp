// html/serialise.hpp: how is a tree written as HTML?
//
// Private to this room. By the rules of the HTML Living Standard, "Serializing HTML fragments": void elements have no
// end tag, every other element has one, and the text of script and style is raw. Line breaks are put before elements
// that stand on lines of their own, where no reader can see them.
#pragma once

#include <string>
#include <string_view>

#include <pugixml.hpp>

namespace coeval {

// Everything in the node. Comments and processing instructions are left out.
void serialise_children(pugi::xml_node node, std::string& out);

// Pieces of it, for templates, which are cut where their slots are.
void serialise_start_tag(pugi::xml_node element, std::string& out);
void serialise_end_tag(pugi::xml_node element, std::string& out);
void serialise_text(std::string_view text, std::string& out);
void serialise_attribute(std::string_view name, std::string_view value, std::string& out);
[[nodiscard]] bool is_void_element(std::string_view name);

} // namespace coeval
