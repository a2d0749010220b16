#include "serve/site.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>

namespace coeval {
namespace {

constexpr std::string_view html = "text/html; charset=utf-8";

// Registered with IANA, but for the icon.
constexpr std::array<std::pair<std::string_view, std::string_view>, 28> types{{
    {"html", html},
    {"htm", html},
    {"css", "text/css; charset=utf-8"},
    {"js", "text/javascript; charset=utf-8"},
    {"mjs", "text/javascript; charset=utf-8"},
    {"json", "application/json"},
    {"jsonld", "application/ld+json"},
    {"geojson", "application/geo+json"},
    {"webmanifest", "application/manifest+json"},
    {"svg", "image/svg+xml"},
    {"png", "image/png"},
    {"jpg", "image/jpeg"},
    {"jpeg", "image/jpeg"},
    {"webp", "image/webp"},
    {"avif", "image/avif"},
    {"gif", "image/gif"},
    {"ico", "image/x-icon"},
    {"txt", "text/plain; charset=utf-8"},
    {"md", "text/markdown; charset=utf-8"},
    {"csv", "text/csv; charset=utf-8"},
    {"xml", "application/xml"},
    {"graphml", "application/xml"},
    {"atom", "application/atom+xml"},
    {"pdf", "application/pdf"},
    {"sqlite", "application/vnd.sqlite3"},
    {"woff2", "font/woff2"},
    {"wasm", "application/wasm"},
    {"zip", "application/zip"},
}};

// Where the body of a page ends: before its last </body>, else at its very end.
std::size_t end_of_body(std::string_view page) {
  constexpr std::string_view closing = "</body";
  const auto same = [](char a, char b) { return a == (b >= 'A' && b <= 'Z' ? b - 'A' + 'a' : b); };
  for (std::size_t at = page.rfind("</"); at != std::string_view::npos && page.size() - at >= closing.size();
       at = at == 0 ? std::string_view::npos : page.rfind("</", at - 1))
    if (std::equal(closing.begin(), closing.end(), page.begin() + static_cast<std::ptrdiff_t>(at), same)) return at;
  return page.size();
}

} // namespace

std::string_view content_type(std::string_view path) {
  const std::size_t dot = path.rfind('.');
  const std::size_t slash = path.rfind('/');
  if (dot == std::string_view::npos || (slash != std::string_view::npos && dot < slash))
    return "application/octet-stream";
  const std::string_view ending = path.substr(dot + 1);
  const auto* const found = std::ranges::find(types, ending, &std::pair<std::string_view, std::string_view>::first);
  return found == types.end() ? "application/octet-stream" : found->second;
}

ServedFile PreviewSite::served(const std::string& path, const std::string& bytes) const {
  ServedFile file{bytes, std::string{content_type(path)}};
  if (file.type == html)
    file.bytes.insert(end_of_body(bytes),
                      fmt::format("<script src=\"/-/reload.js?after={}\" defer></script>", version_));
  return file;
}

PreviewSite::Answer PreviewSite::answer(std::string_view path) const {
  if (path.starts_with('/')) path.remove_prefix(1);
  std::string wanted{path};
  if (wanted.empty() || wanted.ends_with('/')) wanted += "index.html";
  if (const auto at = files_.find(wanted); at != files_.end()) return {200, served(at->first, at->second), {}};
  if (files_.contains(wanted + "/index.html")) return {302, {}, "/" + wanted + "/"};
  if (const auto at = files_.find("404.html"); at != files_.end()) return {404, served(at->first, at->second), {}};
  // Even this page waits for the one that is wanted to appear.
  const std::string none = "<!doctype html>\n<html lang=\"en\">\n<meta charset=\"utf-8\">\n<title>Not found</title>\n"
                           "<body>\n<h1>Not found</h1>\n<p>The site has no such page.</p>\n</body>\n</html>\n";
  return {404, served("404.html", none), {}};
}

// A module is imported, not fetched: `script-src 'self'` is then all that a page's policy has to allow.
std::string_view reload_script() {
  return R"js(// Part of the preview, not of the site: reloads this page once there is something newer.
(() => {
  const after = new URL(document.currentScript.src).searchParams.get("after");
  let asked = 0; // a module is loaded once for each address
  let asking = false;
  const ask = async () => {
    if (asking) return;
    asking = true;
    while (!document.hidden) { // a hidden page asks when it is looked at again, and leaves the connection to others
      try {
        const changes = await import(`/-/changes?after=${after}&asked=${asked++}`);
        if (changes.version !== after) {
          location.reload();
          return;
        }
      } catch { // the preview has ended; it may be started again
        await new Promise((resolve) => setTimeout(resolve, 1000));
      }
    }
    asking = false;
  };
  document.addEventListener("visibilitychange", ask);
  ask();
})();
)js";
}

std::string change_module(std::string_view version) { return fmt::format("export const version = \"{}\";\n", version); }

} // namespace coeval
