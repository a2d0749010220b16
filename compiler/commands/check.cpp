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
      print(fmt::format(
          "{}: {} files, {} figures, {} issues, {} accessories, {} moulds, {} runs, {} sources: no errors\n",
          compiled.sources.root, compiled.sources.files.size(), kb.figures.size(), kb.issues.size(),
          kb.accessories.size(), kb.moulds.size(), kb.runs.size(), kb.sources.size()));
    }
    break;
  }
  if (compiled.world_failed) return exit_world;
  return compiled.has_errors ? exit_no : exit_yes;
}

} // namespace coeval
