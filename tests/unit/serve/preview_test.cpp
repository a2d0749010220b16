// Does a browser on this machine, and nobody else, see the site, and hear of a change?
#include <catch2/catch.hpp>

#include <csignal>
#include <future>
#include <thread>

#include <sys/wait.h>
#include <unistd.h>

#include <httplib.h>

#include "scratch.hpp"
#include "serve/preview.hpp"

using namespace coeval;
using namespace coeval::previewing;
using namespace std::chrono_literals;

namespace {

using Clock = std::chrono::steady_clock;
using Files = std::map<std::string, std::string>;

// A preview of one page that shows the content of kb/line.toml, while this lives.
class Preview {
public:
  explicit Preview(const Scratch& scratch, PreviewAddress address = {}) {
    hooks_.watched = {scratch / "kb"};
    hooks_.build = [&scratch]() -> Files {
      std::ifstream in{scratch / "kb/line.toml"};
      const std::string text{std::istreambuf_iterator<char>{in}, {}};
      if (text == "broken") throw std::runtime_error("the line is broken");
      return {{"index.html", "<body>" + text + "</body>"},
              {"figures/index.html", "<body>figures</body>"},
              {"style.css", "p { margin: 0 }"}};
    };
    std::promise<std::string> ready;
    hooks_.ready = [&ready](const std::string& url) { ready.set_value(url); };
    hooks_.tell = [this](const std::string& line) {
      const std::lock_guard lock{mutex_};
      told_.push_back(line);
    };
    thread_ = std::thread{[this, address] { trouble_ = serve_preview(hooks_, address, stop_); }};
    auto url = ready.get_future();
    if (url.wait_for(10s) == std::future_status::ready) url_ = url.get();
    port_ = url_.empty() ? 0 : std::stoi(url_.substr(url_.rfind(':') + 1));
  }
  Preview(const Preview&) = delete;
  Preview& operator=(const Preview&) = delete;
  ~Preview() { end(); }
  std::optional<std::string> end() {
    stop_ = true;
    if (thread_.joinable()) thread_.join();
    return trouble_;
  }
  [[nodiscard]] const std::string& url() const { return url_; }
  [[nodiscard]] int port() const { return port_; }
  [[nodiscard]] std::vector<std::string> told() const {
    const std::lock_guard lock{mutex_};
    return told_;
  }
  [[nodiscard]] httplib::Client client() const {
    httplib::Client client{"127.0.0.1", port_};
    client.set_read_timeout(30);
    return client;
  }
  // Until the preview has told so many lines.
  [[nodiscard]] bool has_told(std::size_t lines) const {
    for (const auto until = Clock::now() + 10s; Clock::now() < until; std::this_thread::sleep_for(10ms))
      if (told().size() >= lines) return true;
    return false;
  }

private:
  PreviewHooks hooks_;
  std::atomic<bool> stop_ = false;
  std::optional<std::string> trouble_;
  mutable std::mutex mutex_;
  std::vector<std::string> told_;
  std::string url_;
  int port_ = 0;
  std::thread thread_;
};

// The version in the address of the script of a page.
std::string version_in(const std::string& page) {
  const std::string before = "/-/reload.js?after=";
  const std::size_t at = page.find(before);
  REQUIRE(at != std::string::npos);
  return page.substr(at + before.size(), page.find('"', at) - at - before.size());
}

} // namespace

TEST_CASE("a site can be visited at the address that is told") {
  const Scratch scratch;
  scratch.write("kb/line.toml", "first");
  Preview preview{scratch};
  CHECK(preview.url() == "http://127.0.0.1:" + std::to_string(preview.port()) + "/");
  auto client = preview.client();
  const auto home = client.Get("/");
  REQUIRE(home);
  CHECK(home->status == 200);
  CHECK(home->get_header_value("Content-Type") == "text/html; charset=utf-8");
  CHECK(home->get_header_value("Cache-Control") == "no-store");
  CHECK(home->get_header_value("X-Content-Type-Options") == "nosniff");
  CHECK(home->body ==
        "<body>first<script src=\"/-/reload.js?after=" + version_in(home->body) + "\" defer></script></body>");
  CHECK(client.Get("/style.css")->body == "p { margin: 0 }");
  CHECK(client.Get("/style.css")->get_header_value("Content-Type") == "text/css; charset=utf-8");
  CHECK(client.Get("/%73tyle.css?x=1")->body == "p { margin: 0 }");
  CHECK(client.Get("/no")->status == 404);
  CHECK(client.Get("/../../etc/passwd")->status == 404);
  CHECK(client.Get("/%2e%2e/%2e%2e/etc/passwd")->status == 404);
  CHECK(client.Get("/figures")->status == 302);
  CHECK(client.Get("/figures")->get_header_value("Location") == "/figures/");
  CHECK(client.Get("/-/reload.js")->get_header_value("Content-Type") == "text/javascript; charset=utf-8");
  CHECK(client.Get("/-/reload.js")->body.find("/-/changes?after=") != std::string::npos);
  const auto head = client.Head("/");
  REQUIRE(head);
  CHECK(head->status == 200);
  CHECK(head->body.empty());
  CHECK(head->get_header_value("Content-Length") == std::to_string(home->body.size()));
  CHECK_FALSE(preview.end());
}

TEST_CASE("a page hears of a change at once, and only when there is one") {
  const Scratch scratch;
  scratch.write("kb/line.toml", "first");
  Preview preview{scratch};
  auto client = preview.client();
  const std::string version = version_in(client.Get("/")->body);
  // A page that is out of date hears at once.
  CHECK(client.Get("/-/changes?after=older")->body == "export const version = \"" + version + "\";\n");

  auto heard = std::async(std::launch::async, [&] { return preview.client().Get("/-/changes?after=" + version); });
  CHECK(heard.wait_for(400ms) == std::future_status::timeout);
  scratch.write("kb/line.toml", "first"); // the same again
  REQUIRE(preview.has_told(1));
  CHECK(preview.told()[0].ends_with("nothing changed"));
  CHECK(heard.wait_for(100ms) == std::future_status::timeout);
  scratch.write("kb/line.toml", "second");
  const auto answer = heard.get();
  REQUIRE(answer);
  CHECK(answer->get_header_value("Content-Type") == "text/javascript; charset=utf-8");
  const auto page = client.Get("/");
  CHECK(page->body.starts_with("<body>second<script"));
  CHECK(version_in(page->body) != version);
  CHECK(answer->body == "export const version = \"" + version_in(page->body) + "\";\n");
  REQUIRE(preview.has_told(2));
  CHECK(preview.told()[1].ends_with(" ms, 1 file changed"));
}

TEST_CASE("a build that fails leaves the site as it was, and the next one is shown") {
  const Scratch scratch;
  scratch.write("kb/line.toml", "first");
  Preview preview{scratch};
  auto client = preview.client();
  const std::string before = client.Get("/")->body;
  scratch.write("kb/line.toml", "broken");
  REQUIRE(preview.has_told(1));
  CHECK(preview.told()[0] == "the site could not be built again, so it stays as it was: the line is broken");
  CHECK(client.Get("/")->body == before);
  scratch.write("kb/line.toml", "mended");
  REQUIRE(preview.has_told(2));
  CHECK(client.Get("/")->body.starts_with("<body>mended<script"));
}

TEST_CASE("a request in the name of another host gets nothing, and changes nothing are asked for") {
  const Scratch scratch;
  scratch.write("kb/line.toml", "secret");
  Preview preview{scratch};
  auto client = preview.client();
  const std::string port = ":" + std::to_string(preview.port());
  for (const std::string& host :
       {std::string{"saltmere.example"}, "saltmere.example" + port, std::string{}, "127.0.0.1.saltmere.example" + port,
        std::string{"127.0.0.1@saltmere.example"}, std::string{"localhost.saltmere.example"}, "0.0.0.0" + port,
        "[::2]" + port, "192.168.1.1" + port}) {
    INFO(host);
    for (const std::string path : {"/", "/style.css", "/-/reload.js", "/-/changes?after=x"}) {
      const auto answer = client.Get(path, httplib::Headers{{"Host", host}});
      REQUIRE(answer);
      CHECK(answer->status == 403);
      CHECK(answer->body == "this preview answers only to 127.0.0.1 and localhost\n");
    }
  }
  for (const std::string& host :
       {"127.0.0.1" + port, "localhost" + port, std::string{"localhost"}, "[::1]" + port, std::string{"127.0.0.1"}}) {
    INFO(host);
    CHECK(client.Get("/", httplib::Headers{{"Host", host}})->status == 200);
  }
  CHECK(client.Post("/", "x", "text/plain")->status == 405);
  CHECK(client.Put("/index.html", "x", "text/plain")->status == 405);
  CHECK(client.Delete("/index.html")->status == 405);
  CHECK(client.Options("/")->status == 405);
  CHECK(client.Post("/", "x", "text/plain")->get_header_value("Allow") == "GET, HEAD");
}

TEST_CASE("a service worker, which would show old pages, is refused") {
  const Scratch scratch;
  scratch.write("kb/line.toml", "x");
  Preview preview{scratch};
  auto client = preview.client();
  CHECK(client.Get("/style.css", httplib::Headers{{"Service-Worker", "script"}})->status == 404);
  CHECK(client.Get("/style.css")->status == 200);
}

TEST_CASE("it listens on the loopback address only") {
  const Scratch scratch;
  scratch.write("kb/line.toml", "x");
  Preview preview{scratch};
  // 127.0.0.2 is this machine too, but nobody was told of it.
  httplib::Client other{"127.0.0.2", preview.port()};
  CHECK_FALSE(other.Get("/"));
}

TEST_CASE("a host that is not this machine is refused, in words") {
  PreviewHooks hooks;
  const std::atomic<bool> stop = false;
  for (const std::string host : {"0.0.0.0", "", "::", "192.168.1.1", "saltmere.example", "[::1]x"}) {
    INFO(host);
    const auto trouble = serve_preview(hooks, {host, 0}, stop);
    REQUIRE(trouble);
    CHECK(trouble->starts_with("a preview is for this machine only, so `" + host + "` will not do"));
  }
}

TEST_CASE("a port that is taken is said") {
  const Scratch scratch;
  scratch.write("kb/line.toml", "x");
  Preview preview{scratch};
  PreviewHooks hooks;
  const std::atomic<bool> stop = false;
  CHECK(serve_preview(hooks, {"127.0.0.1", preview.port()}, stop) ==
        "port " + std::to_string(preview.port()) +
            " is taken by another program; choose another with --port, or leave it out");
}

TEST_CASE("a port can be chosen, and had again at once") {
  const Scratch scratch;
  scratch.write("kb/line.toml", "x");
  int port = 0;
  std::string version;
  {
    Preview preview{scratch};
    port = preview.port();
    version = version_in(preview.client().Get("/")->body);
  }
  Preview again{scratch, {"127.0.0.1", port}};
  CHECK(again.port() == port);
  // Pages of the earlier preview are told to reload.
  CHECK(version_in(again.client().Get("/")->body) != version);
}

TEST_CASE("a first build that fails is said") {
  const Scratch scratch;
  PreviewHooks hooks;
  hooks.build = []() -> Files { throw std::runtime_error("no template"); };
  const std::atomic<bool> stop = false;
  CHECK(serve_preview(hooks, {}, stop) == "the site could not be built: no template");
}

TEST_CASE("it stops soon, though pages wait for changes and connections are open") {
  const Scratch scratch;
  scratch.write("kb/line.toml", "x");
  Preview preview{scratch};
  auto client = preview.client();
  client.set_keep_alive(true);
  const std::string version = version_in(client.Get("/")->body);
  std::vector<std::future<httplib::Result>> waiting;
  for (int i = 0; i < 10; ++i)
    waiting.push_back(
        std::async(std::launch::async, [&] { return preview.client().Get("/-/changes?after=" + version); }));
  std::this_thread::sleep_for(200ms);
  // Those who wait do not keep others from looking.
  CHECK(client.Get("/")->status == 200);
  const auto start = Clock::now();
  CHECK_FALSE(preview.end());
  CHECK(Clock::now() - start < 5s);
  for (auto& one : waiting) {
    const auto answer = one.get();
    if (answer) CHECK(answer->body == "export const version = \"" + version + "\";\n");
  }
}

TEST_CASE("SIGINT and SIGTERM end a preview cleanly") {
  const int signal = GENERATE(SIGINT, SIGTERM);
  const Scratch scratch;
  scratch.write("kb/line.toml", "x");
  int ready[2];
  REQUIRE(::pipe(ready) == 0);
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    PreviewHooks hooks;
    hooks.build = []() -> Files { return {{"index.html", "x"}}; };
    hooks.watched = {scratch / "kb"};
    hooks.ready = [&](const std::string&) {
      if (::write(ready[1], "r", 1) != 1) ::_exit(3);
    };
    ::_exit(serve_preview(hooks, {}, stop_on_signals()) ? 1 : 0);
  }
  char byte = 0;
  REQUIRE(::read(ready[0], &byte, 1) == 1);
  REQUIRE(::kill(child, signal) == 0);
  int status = 0;
  REQUIRE(::waitpid(child, &status, 0) == child);
  REQUIRE(WIFEXITED(status));
  CHECK(WEXITSTATUS(status) == 0);
  ::close(ready[0]);
  ::close(ready[1]);
}
