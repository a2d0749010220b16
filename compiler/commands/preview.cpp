#include <mutex>

#include <fmt/format.h>

#include "commands/command.hpp"
#include "commands/templates.hpp"
#include "edition.hpp"
#include "serve/preview.hpp"

namespace coeval {
namespace {

using Files = std::map<std::string, std::string>;

std::string escaped(std::string_view text) {
  std::string safe;
  for (const char c : text) {
    switch (c) {
    case '&':
      safe += "&amp;";
      break;
    case '<':
      safe += "&lt;";
      break;
    case '>':
      safe += "&gt;";
      break;
    default:
      safe += c;
    }
  }
  return safe;
}

// What is wrong, as the page: the same words as on the terminal. It stands for every address while the site cannot be
// built.
Files trouble(const std::string& what, const std::vector<Diagnostic>& list, const SourceSet& sources) {
  const std::string text = render_text(list, sources, TextStyle{.colour = false, .width = 100});
  const std::string page =
      fmt::format("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><title>{0}</title>"
                  "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">"
                  "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; script-src 'self'; "
                  "connect-src 'self'\">"
                  "</head><body><main><h1>{0}</h1>"
                  "<p>This page goes away by itself when it is mended.</p><pre>{1}</pre></main></body></html>\n",
                  escaped(what), escaped(text));
  return {{"index.html", page}, {"404.html", page}};
}

Files build(const std::filesystem::path& root, const PreviewSettings& preview) {
  const LoadedTemplates loaded = load_templates(preview.templates);
  if (!loaded.templates) return trouble("The template is broken", loaded.diagnostics, loaded.sources);
  const Compiled compiled = compile(root, Depth::to_publish);
  if (compiled.has_errors) return trouble("The knowledge base has mistakes", compiled.diagnostics, compiled.sources);
  Files files;
  std::mutex guard;
  Diagnostics out;
  make_edition(
      compiled, *loaded.templates, {.one_file = false},
      [&](const EditionFile& file) {
        const std::scoped_lock lock{guard};
        files.emplace(file.path, file.bytes);
      },
      [](std::size_t, std::size_t) {}, out);
  return files;
}

} // namespace

int run_preview(const Settings& settings, const PreviewSettings& preview) {
  const auto root = find_kb(settings);
  if (!root) return exit_usage;
  PreviewHooks hooks;
  hooks.build = [&] { return build(*root, preview); };
  hooks.watched.push_back(*root);
  if (!preview.templates.empty()) hooks.watched.emplace_back(preview.templates);
  hooks.ready = [](const std::string& url) {
    print(fmt::format("the site is at {} and follows what is written; Ctrl-C ends it\n", url));
    std::fflush(stdout);
  };
  hooks.tell = [&](const std::string& line) { print_error(line + "\n"); };
  const auto failed = serve_preview(hooks, {.port = preview.port}, stop_on_signals());
  if (!failed) return exit_yes;
  print_error(fmt::format("coeval: {}\n", *failed));
  return exit_world;
}

} // namespace coeval
