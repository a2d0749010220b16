#include <fmt/format.h>

#include "commands/command.hpp"

namespace coeval {

int run_check(const Settings& settings) {
  const auto root = find_kb(settings);
  if (!root) return exit_usage;
  const Compiled compiled = compile(*root, Depth::in_full);
  switch (settings.format) {
  case Format::json:
    print(render_json(compiled.diagnostics, compiled.sources));
    break;
  case Format::sarif:
    print(render_sarif(compiled.diagnostics, compiled.sources));
    break;
  case Format::text:
    print(render_text(compiled.diagnostics, compiled.sources, settings.out));
    if (!compiled.has_errors) {
      const LinkedKb& kb = *compiled.kb;
      const auto count = [](std::size_t number, std::string_view one, std::string_view several) {
        return fmt::format("{} {}", number, number == 1 ? one : several);
      };
      print(fmt::format("{}: {}, {}, {}, {}, {}, {}, {}: no errors\n", printable(compiled.sources.root),
                        count(compiled.sources.files.size(), "file", "files"),
                        count(kb.figures.size(), "figure", "figures"), count(kb.issues.size(), "issue", "issues"),
                        count(kb.accessories.size(), "accessory", "accessories"),
                        count(kb.moulds.size(), "mould", "moulds"), count(kb.runs.size(), "run", "runs"),
                        count(kb.sources.size(), "source", "sources")));
    }
    break;
  }
  if (compiled.world_failed) return exit_world;
  return compiled.has_errors ? exit_no : exit_yes;
}

} // namespace coeval
