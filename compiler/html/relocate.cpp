#include "html/relocate.hpp"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

namespace coeval {
namespace {

// Attributes whose value is an id of the same page, or several with spaces between.
constexpr std::array<std::string_view, 12> references{
    "for",       "headers",      "list",        "form",          "aria-labelledby",       "aria-describedby",
    "aria-owns", "aria-details", "aria-flowto", "aria-controls", "aria-activedescendant", "aria-errormessage",
};
// Said of every link that leaves the document.
constexpr std::string_view leads_out = " rel=\"external noopener noreferrer nofollow\"";

struct Attribute {
  std::string_view name;
  std::string_view value; // escaped, as written
};

struct StartTag {
  std::string_view element;
  std::vector<Attribute> attributes;
  std::string_view value(std::string_view name) const {
    const auto found = std::ranges::find(attributes, name, &Attribute::name);
    return found == attributes.end() ? std::string_view{} : found->value;
  }
};

// "a href="x" class="y"": what stands between the brackets.
StartTag start_tag(std::string_view inside) {
  StartTag tag;
  std::size_t at = std::min(inside.find(' '), inside.size());
  tag.element = inside.substr(0, at);
  while (at < inside.size()) {
    const std::size_t name = at + 1;
    const std::size_t equals = std::min(inside.find("=\"", name), inside.size());
    const std::size_t value = std::min(equals + 2, inside.size());
    const std::size_t end = std::min(inside.find('"', value), inside.size());
    tag.attributes.push_back({inside.substr(name, equals - name), inside.substr(value, end - value)});
    at = std::min(end + 1, inside.size());
  }
  return tag;
}

// Calls `text` for what is no tag, `start` for the inside of start tags and `end` for the names of end tags.
template <class Text, class Start, class End>
void walk(std::string_view html, const Text& text, const Start& start, const End& end) {
  for (std::size_t at = 0; at < html.size();) {
    const std::size_t open = std::min(html.find('<', at), html.size());
    if (open > at) text(html.substr(at, open - at));
    if (open == html.size()) return;
    const std::size_t close = std::min(html.find('>', open), html.size());
    const std::string_view inside = html.substr(open + 1, close - open - 1);
    at = std::min(close + 1, html.size());
    if (inside.starts_with('/')) {
      end(inside.substr(1));
      continue;
    }
    if (inside.starts_with('!')) {
      text(html.substr(open, at - open));
      continue;
    }
    start(inside);
    // What a script or a style sheet holds is no markup.
    for (const std::string_view raw : {"script", "style"})
      if (inside == raw || (inside.starts_with(raw) && inside[raw.size()] == ' ')) {
        const std::size_t last = std::min(html.find("</" + std::string{raw}, at), html.size());
        if (last > at) text(html.substr(at, last - at));
        at = last;
      }
  }
}

class Relocation {
public:
  Relocation(std::string_view page, const Surroundings& surroundings) : page_(page), around_(surroundings) {
    const auto found = around_.pages.find(page);
    if (found != around_.pages.end()) own_ = &found->second;
  }

  std::string move(std::string_view html) {
    out_.reserve(html.size() + html.size() / 4);
    bool link_is_gone = false;
    walk(
        html, [&](std::string_view text) { out_ += text; },
        [&](std::string_view inside) {
          const StartTag tag = start_tag(inside);
          if (tag.element == "a" && !tag.value("href").empty()) {
            const std::string to = target(tag.value("href"));
            link_is_gone = to.empty();
            if (!link_is_gone) write(tag, to);
          } else {
            write(tag, {});
          }
        },
        [&](std::string_view element) {
          if (element == "a" && std::exchange(link_is_gone, false)) return;
          out_.append("</").append(element).append(1, '>');
        });
    return std::move(out_);
  }

private:
  std::string own_id(std::string_view id) const {
    if (page_.empty() || (own_ != nullptr && !own_->contains(id) && around_.shared.contains(id)))
      return std::string{id};
    return std::string{page_}.append(1, ':').append(id);
  }

  // Empty where it leads to nothing that can be reached.
  std::string target(std::string_view href) const {
    if (href.starts_with("https://") || href.starts_with("http://")) return std::string{href};
    const std::size_t hash = std::min(href.find('#'), href.size());
    const std::string_view path = href.substr(0, hash);
    const std::string_view anchor = href.substr(std::min(hash + 1, href.size()));
    if (path.empty()) {
      if (own_ != nullptr && !own_->contains(anchor) && !around_.shared.contains(anchor))
        return "#" + std::string{page_};
      return "#" + own_id(anchor);
    }
    const auto found = around_.pages.find(path);
    if (found == around_.pages.end()) return around_.base_url.empty() ? "" : around_.base_url + std::string{href};
    std::string to = "#" + std::string{path};
    if (found->second.contains(anchor)) to.append(1, ':').append(anchor);
    return to;
  }

  std::string own_ids(std::string_view ids) const {
    std::string all;
    for (std::size_t at = 0; at < ids.size();) {
      const std::size_t end = std::min(ids.find(' ', at), ids.size());
      if (end > at) all.append(all.empty() ? "" : " ").append(own_id(ids.substr(at, end - at)));
      at = end + 1;
    }
    return all;
  }

  void write(const StartTag& tag, const std::string& to) {
    out_.append(1, '<').append(tag.element);
    for (const Attribute& attribute : tag.attributes) {
      out_.append(1, ' ').append(attribute.name).append("=\"");
      if (attribute.name == "id")
        out_ += own_id(attribute.value);
      else if (attribute.name == "href" && !to.empty())
        out_ += to;
      else if (attribute.name == "src")
        out_ += around_.image(attribute.value);
      else if (std::ranges::find(references, attribute.name) != references.end())
        out_ += own_ids(attribute.value);
      else
        out_ += attribute.value;
      out_ += '"';
    }
    if (to.starts_with("http") && tag.value("rel").empty()) out_ += leads_out;
    out_ += '>';
  }

  std::string_view page_;
  const Surroundings& around_;
  const Ids* own_ = nullptr;
  std::string out_;
};

} // namespace

Ids ids_in(std::string_view html) {
  Ids ids;
  walk(
      html, [](std::string_view) {},
      [&](std::string_view inside) {
        for (const Attribute& attribute : start_tag(inside).attributes)
          if (attribute.name == "id") ids.emplace(attribute.value);
      },
      [](std::string_view) {});
  return ids;
}

std::string relocate(std::string_view html, std::string_view page, const Surroundings& surroundings) {
  return Relocation{page, surroundings}.move(html);
}

} // namespace coeval
