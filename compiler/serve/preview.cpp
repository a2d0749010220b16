#include "serve/preview.hpp"

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <condition_variable>
#include <exception>
#include <map>
#include <memory>
#include <mutex>
#include <thread>
#include <utility>

#include <fmt/format.h>
#include <httplib.h>

#include "serve/site.hpp"
#include "serve/watch.hpp"

namespace coeval {
namespace {

using Clock = std::chrono::steady_clock;
using std::chrono::milliseconds;

constexpr milliseconds longest_wait{25'000}; // for a change, before a page has to ask again
constexpr milliseconds between_looks{100};   // at whether to stop
constexpr std::size_t most_connections = 64; // each has a thread; a browser opens six, and keeps them

// The site as it is now. Pages that wait for the next one are woken by it.
class CurrentSite {
public:
  void show(std::shared_ptr<const PreviewSite> site) {
    {
      const std::lock_guard lock{mutex_};
      site_ = std::move(site);
    }
    changed_.notify_all();
  }
  void end() {
    {
      const std::lock_guard lock{mutex_};
      ended_ = true;
    }
    changed_.notify_all();
  }
  [[nodiscard]] std::shared_ptr<const PreviewSite> now() const {
    const std::lock_guard lock{mutex_};
    return site_;
  }
  // The version, as soon as it is another than `after`, or after a while.
  [[nodiscard]] std::string wait_for_change(const std::string& after) {
    std::unique_lock lock{mutex_};
    changed_.wait_for(lock, longest_wait, [&] { return ended_ || site_->version() != after; });
    return site_->version();
  }

private:
  mutable std::mutex mutex_;
  std::condition_variable changed_;
  std::shared_ptr<const PreviewSite> site_;
  bool ended_ = false;
};

bool is_loopback(std::string_view host) { return host == "127.0.0.1" || host == "localhost" || host == "[::1]"; }

// "127.0.0.1" of "127.0.0.1:8000".
std::string_view without_port(std::string_view host) {
  const std::size_t colon = host.rfind(':');
  const std::size_t bracket = host.rfind(']');
  if (colon == std::string_view::npos || (bracket != std::string_view::npos && colon < bracket)) return host;
  return host.substr(0, colon);
}

void refuse(httplib::Response& response, int status, const std::string& why) {
  response.status = status;
  response.set_content(why + "\n", "text/plain; charset=utf-8");
}

// Every request comes here: the library's own routes are regular expressions, and not needed.
void respond(CurrentSite& current, const httplib::Request& request, httplib::Response& response) {
  if (request.get_header_value_count("Host") != 1 || !is_loopback(without_port(request.get_header_value("Host")))) {
    refuse(response, 403, "this preview answers only to 127.0.0.1 and localhost");
    return;
  }
  if (request.method != "GET" && request.method != "HEAD") {
    response.set_header("Allow", "GET, HEAD");
    refuse(response, 405, "a preview can only be looked at");
    return;
  }
  // A service worker would answer from its cache what has changed here. Browsers ask for its script with this header.
  if (request.has_header("Service-Worker")) {
    refuse(response, 404, "a preview is not kept for later");
    return;
  }
  if (request.path == "/-/reload.js") {
    response.set_content(std::string{reload_script()}, "text/javascript; charset=utf-8");
    return;
  }
  if (request.path == "/-/changes") {
    const std::string version =
        request.method == "HEAD" ? current.now()->version() : current.wait_for_change(request.get_param_value("after"));
    response.set_content(change_module(version), "text/javascript; charset=utf-8");
    return;
  }
  const PreviewSite::Answer answer = current.now()->answer(request.path);
  if (answer.status == 302) {
    response.set_redirect(answer.moved_to);
    return;
  }
  response.status = answer.status;
  response.set_content(answer.file.bytes, answer.file.type);
}

void prepare(httplib::Server& server, CurrentSite& current) {
  server.new_task_queue = [] { return new httplib::ThreadPool(most_connections); }; // the library deletes it
  // Without the library's SO_REUSEPORT, with which two previews would share a port and answer by turns.
  server.set_socket_options([](int socket) {
    const int yes = 1;
    ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
  });
  server.set_keep_alive_timeout(1); // seconds; the end of the preview waits for it
  server.set_payload_max_length(1 << 16);
  server.set_tcp_nodelay(true);
  server.set_default_headers({{"Cache-Control", "no-store"},
                              {"X-Content-Type-Options", "nosniff"},
                              {"Cross-Origin-Resource-Policy", "same-origin"}});
  server.set_pre_routing_handler([&current](const httplib::Request& request, httplib::Response& response) {
    respond(current, request, response);
    return httplib::Server::HandlerResponse::Handled;
  });
}

// The server at work, in a thread of its own, until this goes.
class Listening {
public:
  Listening(httplib::Server& server, CurrentSite& current)
      : server_(server), current_(current), thread_{[this] {
          server_.listen_after_bind();
          ended_ = true;
        }} {}
  Listening(const Listening&) = delete;
  Listening& operator=(const Listening&) = delete;
  ~Listening() {
    current_.end();
    while (!ended_) { // the library overlooks a stop that comes before it has begun to listen
      server_.stop();
      std::this_thread::sleep_for(milliseconds{5});
    }
  }
  [[nodiscard]] bool ended() const { return ended_; }

private:
  httplib::Server& server_;
  CurrentSite& current_;
  std::atomic<bool> ended_ = false;
  std::jthread thread_;
};

std::string why_not_bound(int port, int error) {
  if (port == 0) return "no port could be had on this machine";
  if (error == EADDRINUSE)
    return fmt::format("port {} is taken by another program; choose another with --port, or leave it out", port);
  if (error == EACCES)
    return fmt::format("port {} is for the superuser only; choose one from 1024 on with --port, or leave it out", port);
  return fmt::format("port {} could not be had: error {} of the operating system; choose another with --port", port,
                     error);
}

std::size_t count_differences(const PreviewSite& one, const PreviewSite& other) {
  const auto missing_or_different = [](const PreviewSite& from, const PreviewSite& in, bool also_different) {
    return static_cast<std::size_t>(std::ranges::count_if(from.files(), [&](const auto& file) {
      const auto at = in.files().find(file.first);
      return at == in.files().end() || (also_different && at->second != file.second);
    }));
  };
  return missing_or_different(one, other, true) + missing_or_different(other, one, false);
}

// Builds, and tells the versions of what was built apart, from those of an earlier preview on the same port too.
class Builder {
public:
  Builder(const PreviewHooks& hooks, CurrentSite& current) : hooks_(hooks), current_(current) {}

  // Throws what the build throws.
  void build_first() { current_.show(make(hooks_.build())); }

  void build_again() {
    const auto start = Clock::now();
    try {
      auto site = make(hooks_.build());
      const std::size_t changed = count_differences(*current_.now(), *site);
      if (changed > 0) current_.show(std::move(site));
      const auto took = std::chrono::duration_cast<milliseconds>(Clock::now() - start).count();
      tell(changed == 0
               ? fmt::format("built again in {} ms, nothing changed", took)
               : fmt::format("built again in {} ms, {} file{} changed", took, changed, changed == 1 ? "" : "s"));
    } catch (const std::exception& error) {
      tell(fmt::format("the site could not be built again, so it stays as it was: {}", error.what()));
    }
  }

private:
  std::shared_ptr<const PreviewSite> make(std::map<std::string, std::string> files) {
    return std::make_shared<const PreviewSite>(std::move(files), fmt::format("{}-{}", started_, ++count_));
  }
  void tell(const std::string& line) const {
    if (hooks_.tell) hooks_.tell(line);
  }

  const PreviewHooks& hooks_;
  CurrentSite& current_;
  std::int64_t started_ = std::chrono::system_clock::now().time_since_epoch().count();
  std::size_t count_ = 0;
};

} // namespace

std::optional<std::string> serve_preview(const PreviewHooks& hooks, const PreviewAddress& address,
                                         const std::atomic<bool>& stop) {
  const std::string in_url = address.host == "::1" ? "[::1]" : address.host;
  if (!is_loopback(in_url))
    return fmt::format("a preview is for this machine only, so `{}` will not do; the host may be 127.0.0.1, ::1 or "
                       "localhost",
                       address.host);

  CurrentSite current; // outlives the server, whose threads wait on it
  httplib::Server server;
  prepare(server, current);
  errno = 0;
  const int port = address.port == 0                                 ? server.bind_to_any_port(address.host)
                   : server.bind_to_port(address.host, address.port) ? address.port
                                                                     : -1;
  if (port <= 0) return why_not_bound(address.port, errno);

  FolderWatch watch{hooks.watched}; // before the first build, so that no change is missed
  Builder builder{hooks, current};
  try {
    builder.build_first();
  } catch (const std::exception& error) {
    return fmt::format("the site could not be built: {}", error.what());
  }

  const Listening listening{server, current};
  if (hooks.ready) hooks.ready(fmt::format("http://{}:{}/", in_url, port));
  while (!stop) {
    if (listening.ended()) return fmt::format("the preview could no longer be served on port {}; start it again", port);
    if (watch.wait(between_looks)) builder.build_again();
  }
  return {};
}

} // namespace coeval
