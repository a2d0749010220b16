#include "html/one_file.hpp"

#include <algorithm>
#include <stdexcept>

#include <fmt/format.h>

#include "html/data_uri.hpp"
#include "html/document.hpp"
#include "html/relocate.hpp"
#include "html/sha256.hpp"
#include "html/target.hpp"
#include "html/thin_pages.hpp"

namespace coeval {
namespace {

// The text of an element that HTML reads raw, as a parser hands it on, so that its hash is right: line breaks are line
// feeds, and nothing in it ends the element. In both languages "\/" is "/" wherever "</" can stand.
std::string raw_text(std::string_view text, std::string_view element) {
  const auto ends_it = [&](std::size_t at) {
    const std::string_view name = text.substr(at).substr(0, element.size() + 2).substr(2);
    return std::ranges::equal(name, element, [](char a, char b) { return (a | 0x20) == b; });
  };
  std::string raw;
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (text[at] == '\r') {
      if (at + 1 == text.size() || text[at + 1] != '\n') raw += '\n';
    } else if (text.substr(at).starts_with("<!--") || (text.substr(at).starts_with("</") && ends_it(at))) {
      raw += "<\\";
    } else {
      raw += text[at];
    }
  }
  return raw;
}

std::string site_file(const Templates& templates, std::string_view path) {
  const auto found = std::ranges::find(templates.files, path, &std::pair<std::string, std::string>::first);
  return found == templates.files.end() ? std::string{} : found->second;
}

std::string escaped(std::string_view value) {
  std::string text;
  serialise_text(value, text);
  return text;
}

class OneFile {
public:
  OneFile(const Templates& templates, const std::vector<Page>& pages, const std::string& index,
          const RenderOptions& options, const std::function<std::string(const std::string&)>& picture_bytes)
      : templates_(templates), pages_(thin_pages(pages, options.base_url)), index_(index), options_(options),
        picture_bytes_(picture_bytes), styles_(raw_text(site_file(templates, "styles/site.css"), "style")),
        script_(raw_text(site_file(templates, "scripts/site.js"), "script")) {
    if (pages_.empty() || pages_.front().kind != PageKind::home)
      throw std::logic_error{"the first page of the single-file edition is not the home page"};
    const auto picture = options.picture;
    options_.picture = [this, picture](const std::string& file) {
      PublishedPicture facts = picture ? picture(file) : PublishedPicture{file, 0, 0};
      if (!facts.path.empty()) take_picture(file, facts.path);
      if (!images_.contains(facts.path)) facts.path.clear();
      return facts;
    };
    const LinkTarget base = target_of(options.base_url, {}, {});
    if (base.kind == LinkTarget::Kind::outside) around_.base_url = escaped(base.href);
    around_.image = [this](std::string_view path) { return image(path); };
  }

  OneFile(const OneFile&) = delete;
  OneFile& operator=(const OneFile&) = delete;

  std::string render() {
    std::vector<std::pair<const Page*, std::string>> articles;
    for (const Page& page : pages_) {
      if (page.kind == PageKind::not_found) continue;
      articles.emplace_back(&page, article(page));
      around_.pages.emplace(page.path, ids_in(articles.back().second));
    }
    std::string before;
    std::string after;
    frame(before, after);
    around_.shared = ids_in(before);
    around_.shared.merge(ids_in(after));

    std::string text = "<!DOCTYPE html>" + relocate(before, {}, around_);
    for (auto& [page, html] : articles) {
      text += fmt::format("\n<article class=\"page\" id=\"{}\">", page->path);
      text += relocate(html, page->path, around_);
      text += "</article>";
      html = {};
    }
    text += relocate(after, {}, around_);
    text += '\n';
    return text;
  }

private:
  void take_picture(const std::string& file, const std::string& path) {
    if (images_.contains(path)) return;
    const std::string bytes = picture_bytes_ ? picture_bytes_(file) : std::string{};
    if (!bytes.empty()) images_.emplace(path, escaped(data_uri(file, bytes)));
  }

  std::string image(std::string_view path) {
    if (const auto known = images_.find(path); known != images_.end()) return known->second;
    return escaped(data_uri(path, site_file(templates_, path)));
  }

  Composition compose(const Page& page) const {
    return {.templates = templates_, .page = page, .options = options_, .root = {}, .only_narrow = true};
  }

  std::string article(const Page& page) {
    Composition composition = compose(page);
    const std::string main = render_main(composition, printer_);
    signs_ |= composition.signs;
    hatched_ = hatched_ || composition.hatched;
    std::string html;
    write_skeleton(
        templates_.one_file.article, {}, page.path,
        [&](std::size_t slot) { return fills_document_slot(composition, document_slots()[slot].name); },
        [&](std::size_t slot, std::string& out) {
          const std::string_view name = document_slots()[slot].name;
          if (name == "main")
            out += main;
          else
            printer_.print([&](Node into) { fill_document_slot(composition, name, into); }, out);
        },
        html);
    return html;
  }

  // What stands before the articles and after them.
  void frame(std::string& before, std::string& after) {
    Composition composition = compose(pages_.front());
    composition.signs = signs_;
    composition.hatched = hatched_;
    std::string text;
    write_skeleton(
        templates_.one_file.document, {}, {},
        [&](std::size_t slot) { return fills_document_slot(composition, one_file_slots[slot]); },
        [&](std::size_t slot, std::string& out) {
          const std::string_view name = one_file_slots[slot];
          if (name == "main") {
            before = std::move(out);
            out.clear();
          } else {
            printer_.print([&](Node into) { fill(composition, name, into); }, out);
          }
        },
        text);
    after = std::move(text);
  }

  void fill(Composition& composition, std::string_view slot, Node into) const {
    if (slot == "head")
      add_head(composition, into);
    else if (slot == "tail")
      add_tail(composition, into);
    else
      fill_document_slot(composition, slot, into);
  }

  static void add_raw(Node into, const char* element, const std::string& text) {
    if (!text.empty()) add(into, element).append_child(pugi::node_pcdata).set_value(text.data(), text.size());
  }

  void add_head(const Composition& page, Node head) const {
    const auto allowed = [](const std::string& text) { return text.empty() ? "'none'" : policy_hash(text); };
    Node meta = add(head, "meta");
    set(meta, "http-equiv", "Content-Security-Policy");
    set(meta, "content",
        fmt::format("default-src 'none'; script-src {}; style-src {}; img-src data:; base-uri 'none'; "
                    "form-action 'none'",
                    allowed(script_), allowed(styles_)));
    add_characters(add(head, "title"), options_.site_name.empty() ? page.page.title : options_.site_name);
    add_meta(head, "description", page.page.summary);
    add_raw(head, "style", styles_);
  }

  // The script comes last: all that it works on stands before it.
  void add_tail(Composition& page, Node into) const {
    add_shapes(page, into);
    Node index = add(into, "script");
    set(index, "type", "application/json");
    set(index, "id", "reader-index");
    const std::string json = json_in_script(index_);
    index.append_child(pugi::node_pcdata).set_value(json.data(), json.size());
    add_raw(into, "script", script_);
  }

  const Templates& templates_;
  const std::vector<Page> pages_;
  const std::string& index_;
  RenderOptions options_;
  const std::function<std::string(const std::string&)>& picture_bytes_;
  const std::string styles_;
  const std::string script_;
  Printer printer_;
  std::map<std::string, std::string, std::less<>> images_; // path in the site → data URI
  Surroundings around_;
  std::bitset<verdict_count> signs_;
  bool hatched_ = false;
};

} // namespace

std::string render_one_file(const Templates& templates, const std::vector<Page>& pages,
                            const std::string& reader_index_json, const RenderOptions& options,
                            const std::function<std::string(const std::string& file)>& picture_bytes) {
  return OneFile{templates, pages, reader_index_json, options, picture_bytes}.render();
}

} // namespace coeval
