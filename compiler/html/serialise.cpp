#include "html/serialise.hpp"

#include <algorithm>
#include <array>

namespace coeval {
namespace {

// What the serialiser must know of an element.
enum Trait : unsigned char { none = 0, empty = 1, raw = 2, own_line = 4 };

struct Element {
  std::string_view name;
  unsigned char traits = none;
};
// HTML Living Standard, 13.1.2 "Elements", for the first two traits.
constexpr std::array elements{
    Element{"area", empty},
    Element{"base", empty},
    Element{"br", empty},
    Element{"col", empty},
    Element{"embed", empty},
    Element{"hr", empty},
    Element{"img", empty},
    Element{"input", empty},
    Element{"link", empty | own_line},
    Element{"meta", empty | own_line},
    Element{"source", empty},
    Element{"track", empty},
    Element{"wbr", empty},
    Element{"script", raw | own_line},
    Element{"style", raw},
    Element{"article", own_line},
    Element{"aside", own_line},
    Element{"caption", own_line},
    Element{"dd", own_line},
    Element{"details", own_line},
    Element{"div", own_line},
    Element{"dl", own_line},
    Element{"dt", own_line},
    Element{"figcaption", own_line},
    Element{"figure", own_line},
    Element{"footer", own_line},
    Element{"h1", own_line},
    Element{"h2", own_line},
    Element{"h3", own_line},
    Element{"h4", own_line},
    Element{"header", own_line},
    Element{"li", own_line},
    Element{"main", own_line},
    Element{"nav", own_line},
    Element{"ol", own_line},
    Element{"p", own_line},
    Element{"section", own_line},
    Element{"table", own_line},
    Element{"tbody", own_line},
    Element{"thead", own_line},
    Element{"tr", own_line},
    Element{"ul", own_line},
    Element{"title", own_line},
};

// Asked for every tag of every page, so it is one look into a table.
constexpr std::size_t table_size = 256;
constexpr std::size_t place_of(std::string_view name) {
  return (name.size() * 5 + static_cast<unsigned char>(name.front()) * 7U +
          static_cast<unsigned char>(name.back()) * 29U) %
         table_size;
}
constexpr auto table = [] {
  std::array<Element, table_size> places{};
  for (const Element& element : elements) {
    std::size_t place = place_of(element.name);
    while (!places[place].name.empty()) place = (place + 1) % table_size;
    places[place] = element;
  }
  return places;
}();

unsigned char traits_of(std::string_view name) {
  if (name.empty()) return none;
  for (std::size_t place = place_of(name); !table[place].name.empty(); place = (place + 1) % table_size)
    if (table[place].name == name) return table[place].traits;
  return none;
}

using Bytes = std::array<bool, 256>;
constexpr Bytes bytes_of(std::string_view special) {
  Bytes bytes{};
  for (const char c : special) bytes[static_cast<unsigned char>(c)] = true;
  return bytes;
}
constexpr Bytes special_in_text = bytes_of("&<>");
constexpr Bytes special_in_attribute = bytes_of("&<>\"");

// Copies stretches that need no escape at once: nearly all of every text.
void escape(std::string_view text, const Bytes& special, std::string& out) {
  std::size_t begin = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (!special[static_cast<unsigned char>(text[i])]) continue;
    out.append(text, begin, i - begin);
    begin = i + 1;
    switch (text[i]) {
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
  }
  out.append(text, begin, text.size() - begin);
}

void start_tag(pugi::xml_node element, std::string_view name, unsigned char traits, std::string& out) {
  if ((traits & own_line) != 0 && !out.empty() && out.back() != '\n') out += '\n';
  out.append(1, '<').append(name);
  for (pugi::xml_attribute attribute = element.first_attribute(); attribute; attribute = attribute.next_attribute())
    serialise_attribute(attribute.name(), attribute.value(), out);
  out += '>';
}

void end_tag(std::string_view name, unsigned char traits, std::string& out) {
  if ((traits & empty) == 0) out.append("</").append(name).append(1, '>');
}

void children(pugi::xml_node node, bool is_raw, std::string& out) {
  for (pugi::xml_node child = node.first_child(); child; child = child.next_sibling()) {
    switch (child.type()) {
    case pugi::node_element: {
      const std::string_view name = child.name();
      const unsigned char traits = traits_of(name);
      start_tag(child, name, traits, out);
      children(child, (traits & raw) != 0, out);
      end_tag(name, traits, out);
      break;
    }
    case pugi::node_pcdata:
    case pugi::node_cdata:
      if (is_raw)
        out += child.value();
      else
        serialise_text(child.value(), out);
      break;
    default:
      break;
    }
  }
}

} // namespace

bool is_void_element(std::string_view name) { return (traits_of(name) & empty) != 0; }

void serialise_text(std::string_view text, std::string& out) { escape(text, special_in_text, out); }

void serialise_attribute(std::string_view name, std::string_view value, std::string& out) {
  out.append(1, ' ').append(name).append("=\"");
  escape(value, special_in_attribute, out);
  out += '"';
}

void serialise_start_tag(pugi::xml_node element, std::string& out) {
  start_tag(element, element.name(), traits_of(element.name()), out);
}

void serialise_end_tag(pugi::xml_node element, std::string& out) {
  end_tag(element.name(), traits_of(element.name()), out);
}

void serialise_children(pugi::xml_node node, std::string& out) {
  children(node, (traits_of(node.name()) & raw) != 0, out);
}

} // namespace coeval
