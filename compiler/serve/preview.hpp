// serve/preview.hpp: how does somebody who is writing see the site change in a browser?
//
// Serves a site from memory, on this machine only, and makes open pages reload when what they were built from changes.
//
// - Requests are answered only on a loopback address, and only where their Host header names one: a page elsewhere that
//   lets its own name point to 127.0.0.1 gets nothing. Only GET and HEAD.
// - `/-/` is ours: `/-/reload.js` is put before `</body>` of every HTML page, as a file of its own so that a policy of
//   `script-src 'self'` allows it; it waits at `/-/changes`.
// - A service worker of the site is refused: it would show the old pages.
// - A folder's page is its index.html; what does not exist is answered with the site's 404.html where there is one.
// - A build that throws leaves the site as it was. One that gives the same bytes reloads nothing.
#pragma once

#include <atomic>
#include <filesystem>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace coeval {

struct PreviewHooks {
  // Path ("figures/index.html") → bytes of the whole site, or of a page that shows the diagnostics when the knowledge
  // base is broken. Always called from the thread that called serve_preview, as are `ready` and `tell`.
  std::function<std::map<std::string, std::string>()> build;
  // Folders whose files the build depends on, with everything below them: the knowledge base and the template.
  std::vector<std::filesystem::path> watched;
  // Called once, when the site can be visited: "http://127.0.0.1:40123/".
  std::function<void(const std::string& url)> ready;
  // Told after every later build, in one line without its end: "built again in 74 ms, 3 files changed". May be empty.
  std::function<void(const std::string& line)> tell;
};

struct PreviewAddress {
  std::string host = "127.0.0.1"; // or "::1" or "localhost"; nothing else is accepted
  int port = 0;                   // 0: any that is free
};

// Serves until `stop` is set. Nothing after a clean stop; else why it could not serve, in one line with the repair:
// "port 8000 is taken by another program; choose another with --port, or leave it out".
[[nodiscard]] std::optional<std::string> serve_preview(const PreviewHooks& hooks, const PreviewAddress& address,
                                                       const std::atomic<bool>& stop);

// True once SIGINT or SIGTERM has come; takes the two over from the first call on. Hand it to serve_preview.
[[nodiscard]] const std::atomic<bool>& stop_on_signals();

} // namespace coeval
