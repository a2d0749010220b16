#include "html/template.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "html/check_template.hpp"
#include "html/parts.hpp"

namespace coeval {
namespace {

constexpr std::array<std::string_view, 4> made_by_us{"sitemap.xml", "feed.xml", "site.webmanifest", "index.html"};

std::string page_file(const PageKindSpec& spec) { return fmt::format("pages/{}.html", spec.name); }

class Reader {
public:
  Reader(std::map<std::string, std::string> files, std::string root_name, Document document, Diagnostics& out)
      : bytes_(std::move(files)), document_(document), out_(out) {
    sources_.root = std::move(root_name);
    for (const auto& [path, text] : bytes_)
      if (path.ends_with(".html")) sources_.files.emplace_back(path, text);
  }

  TemplateResult read() {
    auto templates = std::make_shared<Templates>();
    std::map<std::string, std::string> published;
    for (const auto& [path, text] : bytes_)
      if (!path.ends_with(".html") && !path.ends_with(".md")) published.emplace(path, text);
    read_layout(*templates, published);
    read_pages(*templates);
    read_parts(*templates);
    refuse_others(published);
    templates->files.assign(published.begin(), published.end());
    const bool good = !found_.has_errors();
    out_.merge(std::move(found_));
    return {std::move(sources_), good ? std::move(templates) : nullptr};
  }

private:
  std::optional<TemplateFile> find(const std::string& path, std::string_view what) {
    for (std::size_t i = 0; i < sources_.files.size(); ++i)
      if (sources_.files[i].path() == path)
        return TemplateFile{FileIndex{static_cast<std::uint32_t>(i)}, sources_.files[i].text()};
    Diagnostic missing;
    missing.code = Code::template_part_missing;
    missing.path = path;
    missing.message = "the template has no such file";
    missing.help = fmt::format(
        "write it: it holds {}; the README beside the template that comes with the program lists the slots", what);
    found_.report(std::move(missing));
    return {};
  }

  void report(Code code, Span place, std::string message, std::string help) {
    Diagnostic wrong;
    wrong.code = code;
    wrong.place = place;
    wrong.message = std::move(message);
    wrong.help = std::move(help);
    found_.report(std::move(wrong));
  }

  void read_layout(Templates& templates, std::map<std::string, std::string>& published) {
    const auto file = find(std::string{file_of(document_)}, "the document around every page");
    if (!file) return;
    pugi::xml_document tree = parse_template(*file, found_);
    if (!tree.document_element()) return;
    check_slots(*file, tree, document_slots(), std::string{file_of(document_)}, found_);
    check_policy(*file, tree, true, found_);
    check_order(*file, tree);
    join(*file, tree, "link", "href", "styles/site.css", published);
    join(*file, tree, "script", "src", "scripts/site.js", published);
    templates.layout = cut(tree, document_slots());
    if (document_ == Document::site) templates.one_file = cut_one_file(tree);
  }

  // The policy holds for what comes after it alone.
  void check_order(const TemplateFile& file, pugi::xml_node tree) {
    const auto first = tree.find_node([](pugi::xml_node node) {
      const std::string_view name = node.name();
      return name == "link" || name == "script" ||
             (name == "slot" && std::string_view{node.attribute("name").value()} == "head");
    });
    if (first && std::string_view{first.name()} != "slot")
      report(Code::template_blocked, span_of(file, first),
             "this stands before the slot `head`, which holds the content policy", "move the slot `head` up");
  }

  // Makes one file of those that the layout names, and leaves one element for it, where the first stood.
  void join(const TemplateFile& file, pugi::xml_node tree, const char* element, const char* attribute,
            const std::string& joined, std::map<std::string, std::string>& published) {
    std::vector<pugi::xml_node> nodes;
    collect(tree, element, nodes);
    std::string bytes;
    bool first = true;
    for (pugi::xml_node node : nodes) {
      const std::string path = node.attribute(attribute).value();
      const bool styles = std::string_view{element} == "link";
      if (styles && std::string_view{node.attribute("rel").value()} != "stylesheet") continue;
      const auto found = bytes_.find(path);
      if (found == bytes_.end()) {
        report(Code::template_part_missing, span_of(file, node), fmt::format("the template has no file `{}`", path),
               "write it, or take the link away");
        continue;
      }
      const std::string media = node.attribute("media").value();
      bytes += media.empty() ? found->second : fmt::format("@media {} {{\n{}}}\n", media, found->second);
      published.erase(path);
      node.remove_attribute("media");
      node.attribute(attribute) = joined.c_str();
      if (!first) node.parent().remove_child(node);
      first = false;
    }
    if (!first) published[joined] = bytes;
  }

  static void collect(pugi::xml_node tree, std::string_view element, std::vector<pugi::xml_node>& nodes) {
    for (const pugi::xml_node child : tree.children()) {
      if (std::string_view{child.name()} == element) nodes.push_back(child);
      collect(child, element, nodes);
    }
  }

  void read_pages(Templates& templates) {
    for (const PageKindSpec& spec : page_kinds()) {
      Skeleton& skeleton = templates.pages.emplace_back();
      const std::string path = page_file(spec);
      const auto file = find(path, fmt::format("the arrangement of the slots of a page of the kind `{}`", spec.name));
      if (!file) continue;
      pugi::xml_document tree = parse_template(*file, found_);
      if (!tree.document_element()) continue;
      check_slots(*file, tree, spec.slots, path, found_);
      check_policy(*file, tree, false, found_);
      skeleton = cut(tree, spec.slots);
    }
  }

  void read_parts(Templates& templates) {
    const auto file = find("parts.html", "a <template> for each part of a page");
    if (!file) return;
    pugi::xml_document tree = parse_template(*file, found_);
    if (!tree.document_element()) return;
    check_policy(*file, tree, false, found_);
    std::vector<pugi::xml_node> nodes;
    collect(tree, "template", nodes);
    const std::vector<PartSpec>& specs = part_specs();
    std::vector<std::string_view> ids;
    for (const PartSpec& spec : specs) ids.push_back(spec.id);
    for (const pugi::xml_node node : nodes) {
      const std::string_view id = node.attribute("id").value();
      const auto spec = std::ranges::find(ids, id) - ids.begin();
      if (spec == std::ssize(ids)) {
        const auto near = near_names(id, ids);
        report(Code::template_part_unknown, span_of(*file, node),
               id.empty() ? "this template has no id" : fmt::format("there is no part `{}`", id),
               near.empty() ? "the parts are " + list_names(ids, "and") : did_you_mean(near));
        continue;
      }
      const PartSpec& part = specs[static_cast<std::size_t>(spec)];
      std::vector<PartNode>& kept = templates.parts[static_cast<std::size_t>(spec)];
      if (!kept.empty())
        report(Code::template_part_unknown, span_of(*file, node), fmt::format("the part `{}` is there twice", id),
               "keep one");
      check_slots(*file, node, part.slots, fmt::format("the part `{}`", id), found_);
      kept = part_of(node);
      check_part(*file, node, part, kept);
    }
    for (std::size_t i = 0; i < specs.size(); ++i)
      if (templates.parts[i].empty())
        report(Code::template_part_missing, span_of(*file, tree.document_element()),
               fmt::format("there is no part `{}`", specs[i].id),
               fmt::format("add <template id=\"{}\"> with {}", specs[i].id, specs[i].doc));
  }

  // A part gets attributes on its one element; a sign becomes a symbol.
  void check_part(const TemplateFile& file, pugi::xml_node node, const PartSpec& spec,
                  const std::vector<PartNode>& nodes) {
    const bool single = nodes.size() == 1 && !nodes.front().element.empty();
    const bool sign = spec.id.starts_with("sign-");
    const bool drawn = single && nodes.front().element == "svg" &&
                       std::ranges::find(nodes.front().attributes, "viewBox", &PartNode::Attribute::name) !=
                           nodes.front().attributes.end();
    if (!single || (sign && !drawn))
      report(Code::broken_template, span_of(file, node),
             sign ? fmt::format("the part `{}` is not one svg with a viewBox", spec.id)
                  : fmt::format("the part `{}` is not one element", spec.id),
             sign ? "draw the sign as <svg viewBox=\"0 0 16 16\">…</svg>" : "put everything into one element");
  }

  void refuse_others(const std::map<std::string, std::string>& published) {
    std::vector<std::string> known{"layout.html", "private.html", "parts.html"};
    for (const PageKindSpec& spec : page_kinds()) known.push_back(page_file(spec));
    const std::vector<std::string_view> names(known.begin(), known.end());
    for (const SourceFile& file : sources_.files) {
      if (std::ranges::find(known, file.path()) != known.end()) continue;
      const auto near = near_names(file.path(), names);
      refuse(file.path(), "no page is made from this file",
             near.empty() ? "a template holds layout.html, parts.html and pages/KIND.html" : did_you_mean(near));
    }
    for (const auto& [path, text] : published) {
      const bool plain = std::ranges::all_of(path, [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '.' || c == '/';
      });
      if (!plain)
        refuse(path, "a file of this name is not published", "use small letters, digits, hyphens and dots");
      else if (path.starts_with("data/") || std::ranges::find(made_by_us, path) != made_by_us.end())
        refuse(path, "the site has a file of this name", "rename it, or leave it out");
    }
  }

  void refuse(const std::string& path, std::string message, std::string help) {
    Diagnostic wrong;
    wrong.code = Code::template_part_unknown;
    wrong.path = path;
    wrong.message = std::move(message);
    wrong.help = std::move(help);
    found_.report(std::move(wrong));
  }

  static Skeleton cut(pugi::xml_node tree, std::span<const SlotSpec> slots) {
    std::vector<std::string_view> names;
    for (const SlotSpec& slot : slots) names.push_back(slot.name);
    return cut_at_slots(tree, names);
  }

  std::map<std::string, std::string> bytes_;
  SourceSet sources_;
  Diagnostics found_;
  Document document_;
  Diagnostics& out_;
};

} // namespace

std::string_view file_of(Document document) { return document == Document::site ? "layout.html" : "private.html"; }

TemplateResult read_templates(std::map<std::string, std::string> files, std::string root_name, Diagnostics& out,
                              Document document) {
  return Reader{std::move(files), std::move(root_name), document, out}.read();
}

std::vector<std::pair<std::string, std::string>> template_files(const Templates& templates) { return templates.files; }

} // namespace coeval
