#include "commands/templates.hpp"

#include "files/folder.hpp"

namespace coeval {

LoadedTemplates load_templates(const std::string& folder) {
  LoadedTemplates loaded;
  Diagnostics out;
  std::map<std::string, std::string> files;
  if (folder.empty()) {
    files = builtin_template();
  } else {
    files = read_folder(folder, out);
    if (out.has_errors()) {
      loaded.diagnostics = out.sorted();
      loaded.world_failed = true;
      return loaded;
    }
  }
  TemplateResult result = read_templates(std::move(files), folder.empty() ? "site-template" : folder, out);
  loaded.templates = std::move(result.templates);
  loaded.sources = std::move(result.sources);
  loaded.diagnostics = out.sorted();
  return loaded;
}

} // namespace coeval
