#include "commands/templates.hpp"

#include <fstream>
#include <sstream>

#include <fmt/format.h>

#include "files/folder.hpp"
#include "publish/hash.hpp"

namespace coeval {
namespace {

// Two builds of one version may write different pages, so the program is told by its own bytes. Empty where they cannot
// be read: then nothing is ever taken to be there already.
std::string mark_of(const std::map<std::string, std::string>& files) {
  std::ostringstream program;
  program << std::ifstream{"/proc/self/exe", std::ios::binary}.rdbuf();
  const std::string bytes = std::move(program).str();
  if (bytes.empty()) return {};
  std::string all = fmt::format("{:016x}", hash_of(bytes).low);
  for (const auto& [path, text] : files) all += fmt::format("\n{:016x} {}", hash_of(text).low, path);
  const ContentHash hash = hash_of(all);
  return fmt::format("{:016x}{:016x}", hash.high, hash.low);
}

} // namespace

LoadedTemplates load_templates(const std::string& folder, Document document) {
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
  loaded.mark = mark_of(files);
  TemplateResult result = read_templates(std::move(files), folder.empty() ? "site-template" : folder, out, document);
  loaded.templates = std::move(result.templates);
  loaded.sources = std::move(result.sources);
  loaded.diagnostics = out.sorted();
  return loaded;
}

} // namespace coeval
