#include "html/render.hpp"

#include <algorithm>
#include <stdexcept>

#include <fmt/format.h>

#include "html/document.hpp"
#include "html/target.hpp"
#include "html/text.hpp"

namespace coeval {
namespace {

// Everything comes from the site itself, and no script or style stands in the markup.
constexpr std::string_view policy =
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'";

void add_head(Composition& page, Node head) {
  Node meta = add(head, "meta");
  set(meta, "http-equiv", "Content-Security-Policy");
  set(meta, "content", policy);
  const std::string& site = page.options.site_name;
  const bool named = !site.empty() && page.page.kind != PageKind::home && page.page.title != site;
  add_characters(add(head, "title"), named ? fmt::format("{} – {}", page.page.title, site) : page.page.title);
  add_meta(head, "description", page.page.summary);
  if (!page.options.base_url.empty() && page.page.kind != PageKind::not_found) {
    const std::string path = page.page.path == "index.html" ? std::string{} : page.page.path;
    const LinkTarget target = target_of(page.options.base_url + path, {}, {});
    if (target.kind == LinkTarget::Kind::outside) {
      Node link = add(head, "link");
      set(link, "rel", "canonical");
      set(link, "href", target.href);
    }
  }
  if (page.page.kind == PageKind::not_found || page.page.kind == PageKind::shelf) add_meta(head, "robots", "noindex");
  if (!page.page.json_ld.empty()) {
    Node script = add(head, "script");
    set(script, "type", "application/ld+json");
    const std::string json = json_in_script(page.page.json_ld);
    script.append_child(pugi::node_pcdata).set_value(json.data(), json.size());
  }
}

void add_section(Composition& page, Node into, const Section& section) {
  const int level = page.level;
  if (section.title.empty()) {
    Node place = section.anchor.empty() ? into : add(into, "div", "section");
    set_id(page, place, section.anchor);
    add_blocks(page, place, section.blocks);
    return;
  }
  Node node = add_part(page, Part::section, into, [&](std::string_view slot, Node place) {
    if (slot == "title") {
      add_heading(page, place, section.title);
    } else if (slot == "body") {
      page.level = level + 1;
      add_blocks(page, place, section.blocks);
      page.level = level;
    }
  });
  set_id(page, node, section.anchor);
}

// A page that is shown in place of any missing one, at any depth, can only count its paths from the site's address.
std::string root_of(const Page& page, const RenderOptions& options) {
  if (page.kind == PageKind::not_found && !options.base_url.empty()) return options.base_url;
  return way_to_root(page.path);
}

void add_crumbs(Composition& page, Node into) {
  for (const Piece& crumb : page.page.crumbs) add_text(page, add(into, "li"), {crumb});
}

} // namespace

std::string json_in_script(std::string_view json) {
  std::string safe;
  std::string scratch;
  for (const char c : safe_text(json, scratch)) {
    if (c == '<' || c == '>' || c == '&')
      safe += fmt::format("\\u{:04x}", static_cast<int>(c));
    else
      safe += c;
  }
  return safe;
}

void add_meta(Node head, const char* name, std::string_view content) {
  if (content.empty()) return;
  Node meta = add(head, "meta");
  set(meta, "name", name);
  set(meta, "content", content);
}

std::string render_main(Composition& page, Printer& printer) {
  const auto kind = static_cast<std::size_t>(page.page.kind);
  const std::vector<SlotSpec>& slots = page_kinds()[kind].slots;
  for (const Section& section : page.page.sections)
    if (std::ranges::find(slots, section.slot, &SlotSpec::name) == slots.end())
      throw std::logic_error(fmt::format("{}: no template has a slot `{}`", page.page.path, section.slot));
  const auto is_for = [&](const Section& section, std::size_t slot) { return section.slot == slots[slot].name; };
  std::string main;
  write_skeleton(
      page.templates.pages[kind], page.root, page.page.path,
      [&](std::size_t slot) {
        return std::ranges::any_of(page.page.sections, [&](const Section& section) { return is_for(section, slot); });
      },
      [&](std::size_t slot, std::string& out) {
        for (const Section& section : page.page.sections)
          if (is_for(section, slot)) printer.print([&](Node into) { add_section(page, into, section); }, out);
      },
      main);
  return main;
}

bool fills_document_slot(const Composition& page, std::string_view slot) {
  if (slot == "site-name") return !page.options.site_name.empty();
  if (slot == "crumbs") return !page.page.crumbs.empty();
  if (slot == "eyebrow") return !page.page.eyebrow.empty();
  if (slot == "summary") return !page.page.summary.empty();
  if (slot == "edition") return !page.options.date.empty();
  return true;
}

void fill_document_slot(Composition& page, std::string_view slot, Node into) {
  if (slot == "site-name") add_plain(into, page.options.site_name);
  if (slot == "crumbs") add_crumbs(page, into);
  if (slot == "eyebrow") add_plain(into, page.page.eyebrow);
  if (slot == "title") add_plain(into, page.page.title);
  if (slot == "summary") add_plain(into, page.page.summary);
  if (slot == "edition") add_plain(into, page.options.date);
  if (slot == "signs") add_shapes(page, into);
}

std::string render_page(const Templates& templates, const Page& page, const RenderOptions& options) {
  Composition composition{.templates = templates, .page = page, .options = options, .root = root_of(page, options)};
  Printer printer;
  const std::string main = render_main(composition, printer);

  std::string text = "<!DOCTYPE html>\n";
  text.reserve(main.size() + 8192);
  write_skeleton(
      templates.layout, composition.root, page.path,
      [&](std::size_t slot) { return fills_document_slot(composition, document_slots()[slot].name); },
      [&](std::size_t slot, std::string& out) {
        const std::string_view name = document_slots()[slot].name;
        if (name == "main")
          out += main;
        else if (name == "head")
          printer.print([&](Node into) { add_head(composition, into); }, out);
        else
          printer.print([&](Node into) { fill_document_slot(composition, name, into); }, out);
      },
      text);
  text += '\n';
  return text;
}

} // namespace coeval
