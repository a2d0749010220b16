#include "html/check_template.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <optional>

#include <fmt/format.h>

#include "diagnose/near.hpp"

namespace coeval {
namespace {

void report(Code code, Span place, std::string message, std::string help, Diagnostics& out) {
  Diagnostic wrong;
  wrong.code = code;
  wrong.place = place;
  wrong.message = std::move(message);
  wrong.help = std::move(help);
  out.report(std::move(wrong));
}

Span bytes(const TemplateFile& file, std::size_t begin, std::size_t size) {
  const std::size_t end = std::min(begin + size, file.text.size());
  return {file.index, static_cast<std::uint32_t>(std::min(begin, end)), static_cast<std::uint32_t>(end)};
}

std::string_view trouble_of(pugi::xml_parse_status status) {
  switch (status) {
  case pugi::status_end_element_mismatch:
    return "an end tag does not match the start tag before it";
  case pugi::status_bad_start_element:
    return "a start tag is broken";
  case pugi::status_bad_end_element:
    return "an end tag is broken";
  case pugi::status_bad_attribute:
    return "an attribute is broken";
  case pugi::status_bad_comment:
    return "a comment is not closed";
  case pugi::status_bad_cdata:
    return "a CDATA section is not closed";
  case pugi::status_bad_doctype:
    return "the document type is broken";
  case pugi::status_bad_pi:
  case pugi::status_unrecognized_tag:
    return "this is no tag";
  case pugi::status_no_document_element:
    return "there is no element";
  default:
    return "this is not well-formed";
  }
}

// XML knows five names of characters; a browser would show the other names as they are written.
bool check_entities(const TemplateFile& file, Diagnostics& out) {
  static constexpr std::array<std::string_view, 5> known{"amp", "lt", "gt", "quot", "apos"};
  bool good = true;
  for (std::size_t at = 0; at < file.text.size(); ++at) {
    if (file.text.substr(at, 4) == "<!--") {
      at = std::min(file.text.find("-->", at), file.text.size());
      continue;
    }
    if (file.text[at] != '&') continue;
    const std::string_view rest = file.text.substr(at + 1, 40);
    const std::string_view name = rest.substr(0, rest.find(';'));
    if (name.starts_with('#') || std::ranges::find(known, name) != known.end()) continue;
    good = false;
    const bool named = !name.empty() && std::ranges::all_of(name, [](char c) {
      return std::isalnum(static_cast<unsigned char>(c)) != 0;
    });
    report(Code::broken_template, bytes(file, at, named ? name.size() + 2 : 1),
           named ? fmt::format("`&{};` is no character that XML knows", name) : "`&` stands by itself",
           named ? "write the character itself, or its number: `&#160;`" : "write `&amp;`", out);
  }
  return good;
}

struct SlotWalk {
  const TemplateFile& file;
  std::span<const SlotSpec> slots;
  std::string_view owner;
  Diagnostics& out;
  std::map<std::string_view, Span> seen;

  // How many slots there are in the node, itself included.
  std::size_t walk(pugi::xml_node node) {
    std::size_t count = 0;
    if (std::string_view{node.name()} == "slot") {
      ++count;
      take(node);
    }
    for (const pugi::xml_node child : node.children())
      if (child.type() == pugi::node_element) count += walk(child);
    if (!node.attribute("data-if-filled").empty() && count == 0)
      report(Code::broken_template, span_of(file, node), "`data-if-filled` stands on an element without a slot in it",
             "put the slot inside, or take the attribute away: the element would never be shown", out);
    return count;
  }

  void take(pugi::xml_node node) {
    const Span place = span_of(file, node);
    const std::string_view name = node.attribute("name").value();
    if (std::ranges::find(slots, name, &SlotSpec::name) == slots.end()) {
      std::vector<std::string_view> known;
      for (const SlotSpec& slot : slots) known.push_back(slot.name);
      const auto near = near_names(name, known);
      std::string help = did_you_mean(near);
      if (near.empty())
        help = known.empty() ? fmt::format("{} has no slots", owner)
                             : fmt::format("{} has the slots {}", owner, list_names(known, "and"));
      report(Code::template_slot_unknown, place,
             name.empty() ? "this slot has no name" : fmt::format("there is no slot `{}` in {}", name, owner), help,
             out);
      return;
    }
    const auto [first, fresh] = seen.emplace(name, place);
    if (fresh) return;
    Diagnostic twice;
    twice.code = Code::template_slot_unknown;
    twice.place = place;
    twice.message = fmt::format("the slot `{}` is there twice", name);
    twice.help = "keep one: what fills it would stand on the page twice";
    twice.labels.push_back({first->second, "first here"});
    out.report(std::move(twice));
  }
};

bool from_elsewhere(std::string_view address) {
  return address.starts_with("//") || (address.find(':') != std::string_view::npos && !address.starts_with("data:"));
}

std::optional<std::string> blocked(pugi::xml_node node, bool is_document) {
  const std::string_view element = node.name();
  if (element == "style") return "a `<style>` element is blocked by the policy of every page";
  if (element == "script" && (!is_document || node.attribute("src").empty()))
    return is_document ? "a script in the markup is blocked by the policy of every page"
                       : "a `<script>` has its place in layout.html alone";
  for (const std::string_view foreign : {"iframe", "object", "embed", "base", "form"})
    if (element == foreign) return fmt::format("a `<{}>` element is blocked by the policy of every page", element);
  for (const pugi::xml_attribute attribute : node.attributes()) {
    const std::string_view name = attribute.name();
    const std::string_view value = attribute.value();
    if (name == "style" || name.starts_with("on"))
      return fmt::format("the attribute `{}` is blocked by the policy of every page", name);
    const bool fetched = name == "src" || name == "srcset" || (name == "href" && element != "a");
    if (fetched && from_elsewhere(value)) return fmt::format("`{}` would be fetched from elsewhere", value);
    if (name == "href" && element == "a" && from_elsewhere(value) && !value.starts_with("https://") &&
        !value.starts_with("http://"))
      return fmt::format("`{}` is no http or https address", value);
  }
  return {};
}

} // namespace

pugi::xml_document parse_template(const TemplateFile& file, Diagnostics& out) {
  pugi::xml_document tree;
  if (const auto bad = first_bad_byte(file.text)) {
    report(Code::broken_template, bytes(file, *bad, 1), "this byte is not UTF-8", "save the file as UTF-8", out);
    return tree;
  }
  if (!check_entities(file, out)) return tree;
  const pugi::xml_parse_result result = tree.load_buffer(
      file.text.data(), file.text.size(), pugi::parse_default | pugi::parse_ws_pcdata, pugi::encoding_utf8);
  if (!result) {
    report(Code::broken_template, bytes(file, static_cast<std::size_t>(result.offset), 1),
           std::string{trouble_of(result.status)},
           "templates are HTML that is XML too: every element is closed, every attribute has its value in quotes", out);
    tree.reset();
  }
  return tree;
}

Span span_of(const TemplateFile& file, pugi::xml_node element) {
  const auto offset = element.offset_debug();
  return offset < 0 ? bytes(file, 0, 0)
                    : bytes(file, static_cast<std::size_t>(offset), std::string_view{element.name()}.size());
}

void check_slots(const TemplateFile& file, pugi::xml_node tree, std::span<const SlotSpec> slots, std::string_view owner,
                 Diagnostics& out) {
  SlotWalk walk{file, slots, owner, out, {}};
  walk.walk(tree);
  const pugi::xml_node first = tree.find_child([](pugi::xml_node child) { return child.type() == pugi::node_element; });
  const pugi::xml_node holder = tree.type() == pugi::node_document ? first : tree;
  for (const SlotSpec& slot : slots)
    if (!walk.seen.contains(slot.name))
      report(Code::template_slot_missing, span_of(file, holder), fmt::format("{} has no slot `{}`", owner, slot.name),
             fmt::format("add <slot name=\"{}\"></slot> where this goes: {}", slot.name, slot.doc), out);
}

void check_policy(const TemplateFile& file, pugi::xml_node tree, bool is_document, Diagnostics& out) {
  for (const pugi::xml_node child : tree.children()) {
    if (child.type() != pugi::node_element) continue;
    if (const auto why = blocked(child, is_document))
      report(Code::template_blocked, span_of(file, child), *why,
             "put scripts below scripts/, styles below styles/ and pictures below icons/, and link them in layout.html",
             out);
    check_policy(file, child, is_document, out);
  }
}

} // namespace coeval
