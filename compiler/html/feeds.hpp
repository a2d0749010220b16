// html/feeds.hpp: how do search engines, feed readers and phones find out what the site holds?
//
// All three are written as DOM and are the same bytes for the same input; no clock is read.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace coeval {

// The sitemap protocol (sitemaps.org, 0.9). It needs whole addresses: empty where `base_url` is.
struct SitemapEntry {
  std::string path;
  std::string modified; // ISO 8601 day; empty for none
};
[[nodiscard]] std::string sitemap_xml(const std::vector<SitemapEntry>& entries, const std::string& base_url);

// Atom (RFC 4287). Without a base URL, ids are urn:uuid: names made from the feed's title and the entry's id, and links
// are relative.
struct FeedEntry {
  std::string id;    // stable, [a-z0-9.-]+
  std::string title; // plain text, as are the others
  std::string date;  // ISO 8601 day
  std::string path;  // of the page that tells it
  std::string text;
};
struct Feed {
  std::string title;
  std::string base_url;
  std::string path = "feed.xml";
  std::string author;
  std::string date; // of the feed where it has no entry; else the latest entry's
  std::vector<FeedEntry> entries;
};
[[nodiscard]] std::string atom_xml(const Feed& feed);

// The web app manifest (W3C), so that a phone can keep the site.
struct Manifest {
  std::string name;
  std::string short_name;
  std::string description;
  std::vector<std::pair<std::string, std::string>> icons; // path, sizes: "any" for SVG
};
[[nodiscard]] std::string webmanifest(const Manifest& manifest);

} // namespace coeval
