#include "html/serialise.hpp"

#include <algorithm>
#include <array>

namespace coeval {
namespace {

// HTML Living Standard, 13.1.2 "Elements".
constexpr std::array<std::string_view, 13> void_elements{"area",  "base", "br",   "col",    "embed", "hr", "img",
                                                         "input", "link", "meta", "source", "track", "wbr"};
constexpr std::array<std::string_view, 2> raw_elements{"script", "style"};
constexpr std::array<std::string_view, 31> line_elements{
    "article", "aside",  "caption", "dd",    "details", "div",   "dl",   "dt",   "figcaption", "figure", "footer",
    "h1",      "h2",     "h3",      "h4",    "header",  "li",    "link", "main", "meta",       "nav",    "ol",
    "p",       "script", "section", "table", "tbody",   "thead", "tr",   "ul",   "title"};

template <std::size_t Size> bool is_one_of(std::string_view name, const std::array<std::string_view, Size>& names) {
  return std::ranges::find(names, name) != names.end();
}

// Copies stretches that need no escape at once: nearly all of every text.
void escape(std::string_view text, std::string_view special, std::string& out) {
  for (std::size_t begin = 0; begin <= text.size();) {
    const std::size_t end = std::min(text.find_first_of(special, begin), text.size());
    out.append(text, begin, end - begin);
    if (end == text.size()) return;
    switch (text[end]) {
    case '&':
      out += "&amp;";
      break;
    case '<':
      out += "&lt;";
      break;
    case '>':
      out += "&gt;";
      break;
    default:
      out += "&quot;";
    }
    begin = end + 1;
  }
}

} // namespace

bool is_void_element(std::string_view name) { return is_one_of(name, void_elements); }

void serialise_text(std::string_view text, std::string& out) { escape(text, "&<>", out); }

void serialise_attribute(std::string_view name, std::string_view value, std::string& out) {
  out.append(1, ' ').append(name).append("=\"");
  escape(value, "&<>\"", out);
  out += '"';
}

void serialise_start_tag(pugi::xml_node element, std::string& out) {
  const std::string_view name = element.name();
  if (is_one_of(name, line_elements) && !out.empty() && out.back() != '\n') out += '\n';
  out.append(1, '<').append(name);
  for (const pugi::xml_attribute attribute : element.attributes())
    serialise_attribute(attribute.name(), attribute.value(), out);
  out += '>';
}

void serialise_end_tag(pugi::xml_node element, std::string& out) {
  const std::string_view name = element.name();
  if (!is_void_element(name)) out.append("</").append(name).append(1, '>');
}

void serialise_children(pugi::xml_node node, std::string& out) {
  for (const pugi::xml_node child : node.children()) serialise(child, out);
}

void serialise(pugi::xml_node node, std::string& out) {
  switch (node.type()) {
  case pugi::node_element:
    serialise_start_tag(node, out);
    serialise_children(node, out);
    serialise_end_tag(node, out);
    break;
  case pugi::node_pcdata:
  case pugi::node_cdata:
    if (is_one_of(std::string_view{node.parent().name()}, raw_elements))
      out += node.value();
    else
      serialise_text(node.value(), out);
    break;
  case pugi::node_document:
    serialise_children(node, out);
    break;
  default:
    break;
  }
}

} // namespace coeval
