#include "html/feeds.hpp"

#include <cstdint>

#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <pugixml.hpp>

#include "html/serialise.hpp"
#include "html/target.hpp"
#include "html/text.hpp"

namespace coeval {
namespace {

void add_element(pugi::xml_node into, const char* element, std::string_view text) {
  std::string scratch;
  const std::string_view safe = safe_text(text, scratch);
  into.append_child(element).append_child(pugi::node_pcdata).set_value(safe.data(), safe.size());
}

void add_link(pugi::xml_node into, const char* relation, const std::string& href) {
  pugi::xml_node link = into.append_child("link");
  link.append_attribute("rel") = relation;
  link.append_attribute("href") = href.c_str();
}

// Feeds and sitemaps are XML, where every element has its end: pugixml's own writer knows how.
std::string xml(const pugi::xml_document& document) {
  struct Writer : pugi::xml_writer {
    std::string text;
    void write(const void* data, std::size_t size) override { text.append(static_cast<const char*>(data), size); }
  } writer;
  document.save(writer, "", pugi::format_raw | pugi::format_no_declaration, pugi::encoding_utf8);
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + writer.text + "\n";
}

// FNV-1a, 64 bits.
std::uint64_t hash_of(std::string_view text, std::uint64_t hash) {
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3U;
  return hash;
}

// RFC 9562, version 8: a UUID whose bits we choose, here from a name, so that it stays the same.
std::string uuid_of(std::string_view name) {
  const std::uint64_t high = hash_of(name, 0xcbf29ce484222325U);
  const std::uint64_t low = hash_of(name, high);
  return fmt::format("urn:uuid:{:08x}-{:04x}-8{:03x}-{:04x}-{:012x}", high >> 32U, (high >> 16U) & 0xffffU,
                     high & 0xfffU, 0x8000U | ((low >> 48U) & 0x3fffU), low & 0xffffffffffffU);
}

std::string midnight(const std::string& day) { return (day.empty() ? std::string{"1970-01-01"} : day) + "T00:00:00Z"; }

std::string address(const std::string& base_url, const std::string& path) {
  const std::string whole = base_url + (path == "index.html" ? std::string{} : path);
  const LinkTarget target = target_of(whole, {}, {});
  return target.kind == LinkTarget::Kind::outside ? target.href : path;
}

} // namespace

std::string sitemap_xml(const std::vector<SitemapEntry>& entries, const std::string& base_url) {
  if (base_url.empty()) return {};
  pugi::xml_document document;
  pugi::xml_node all = document.append_child("urlset");
  all.append_attribute("xmlns") = "http://www.sitemaps.org/schemas/sitemap/0.9";
  for (const SitemapEntry& entry : entries) {
    pugi::xml_node url = all.append_child("url");
    add_element(url, "loc", address(base_url, entry.path));
    if (!entry.modified.empty()) add_element(url, "lastmod", entry.modified);
  }
  return xml(document);
}

std::string atom_xml(const Feed& feed) {
  pugi::xml_document document;
  pugi::xml_node all = document.append_child("feed");
  all.append_attribute("xmlns") = "http://www.w3.org/2005/Atom";
  std::string updated = feed.date;
  for (const FeedEntry& entry : feed.entries) updated = std::max(updated, entry.date);
  const bool whole = !feed.base_url.empty();
  add_element(all, "title", feed.title);
  add_element(all, "id", whole ? address(feed.base_url, feed.path) : uuid_of(feed.title));
  add_element(all, "updated", midnight(updated));
  add_element(all.append_child("author"), "name", feed.author.empty() ? feed.title : feed.author);
  if (whole) add_link(all, "self", address(feed.base_url, feed.path));
  add_link(all, "alternate", whole ? address(feed.base_url, "index.html") : "index.html");
  for (const FeedEntry& entry : feed.entries) {
    pugi::xml_node item = all.append_child("entry");
    add_element(item, "title", entry.title);
    add_element(item, "id",
                whole ? address(feed.base_url, entry.path) + "#" + entry.id : uuid_of(feed.title + "\n" + entry.id));
    add_element(item, "updated", midnight(entry.date));
    add_link(item, "alternate", whole ? address(feed.base_url, entry.path) : entry.path);
    add_element(item, "content", entry.text);
  }
  return xml(document);
}

std::string webmanifest(const Manifest& manifest) {
  const auto clean = [](const std::string& text) {
    std::string scratch;
    return std::string{safe_text(text, scratch)};
  };
  nlohmann::ordered_json json;
  json["name"] = clean(manifest.name);
  json["short_name"] = clean(manifest.short_name.empty() ? manifest.name : manifest.short_name);
  if (!manifest.description.empty()) json["description"] = clean(manifest.description);
  json["start_url"] = "index.html";
  json["scope"] = "./";
  json["display"] = "minimal-ui";
  json["icons"] = nlohmann::ordered_json::array();
  for (const auto& [path, sizes] : manifest.icons) json["icons"].push_back({{"src", path}, {"sizes", sizes}});
  return json.dump(2) + "\n";
}

} // namespace coeval
