// commands/templates.hpp: which template does the user want?
#pragma once

#include <memory>
#include <string>

#include "commands/command.hpp"
#include "html/template.hpp"

namespace coeval {

// The template in a folder, or the built-in one for an empty name; with it, what is wrong with it. `templates` is null
// where something is.
struct LoadedTemplates {
  std::shared_ptr<const Templates> templates;
  SourceSet sources;
  std::vector<Diagnostic> diagnostics; // sorted
  bool world_failed = false;           // a file or folder could not be read
  std::string mark;                    // tells this template, and this build of the program, from others
};
[[nodiscard]] LoadedTemplates load_templates(const std::string& folder, Document document = Document::site);

} // namespace coeval
