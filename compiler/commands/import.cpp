// Writes the TOML of a JSON export to a new folder, once the compiler has found nothing wrong with it.
#include "import/import.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "commands/export.hpp"
#include "files/load.hpp"
#include "files/open_file.hpp"
#include "publish/file.hpp"

namespace coeval {
namespace {

// The text of the JSON file; nothing where it cannot be read, and then `out` says so.
std::optional<std::string> read_json_file(const std::string& name, Diagnostics& out) {
  std::error_code error;
  const std::filesystem::path path = std::filesystem::canonical(name, error);
  OpenFile::Content content;
  if (error)
    content.error = error.value();
  else
    content = OpenFile{path}.read(most_import_bytes);
  Diagnostic diagnostic;
  diagnostic.path = name;
  if (content.error != 0) {
    diagnostic.code = Code::unreadable_file;
    diagnostic.message = "this file could not be read";
    diagnostic.help = "name a file that is there and that you may read";
  } else if (content.text.size() > most_import_bytes) {
    diagnostic.code = Code::file_too_large;
    diagnostic.message = fmt::format("this file is larger than {}, so it was not read", size_words(most_import_bytes));
    diagnostic.help = "export a smaller knowledge base";
  } else {
    return std::move(content.text);
  }
  out.report(std::move(diagnostic));
  return {};
}

// What is written must be found again by the compiler.
void check_sizes(const Imported& imported, Diagnostics& out) {
  const LoadLimits limits;
  Diagnostic diagnostic;
  diagnostic.path = imported.name;
  for (const SourceFile& file : imported.sources.files) {
    if (file.text().size() <= limits.file_bytes) continue;
    diagnostic.code = Code::file_too_large;
    diagnostic.message = fmt::format("`{}` would be larger than {}", file.path(), size_words(limits.file_bytes));
    diagnostic.help = "one figure or accessory holds too much; part it";
    out.report(diagnostic);
  }
  if (imported.sources.files.size() <= limits.files) return;
  diagnostic.code = Code::too_many_files;
  diagnostic.message = fmt::format("this would make {} files, and a knowledge base may have {}",
                                   imported.sources.files.size(), limits.files);
  diagnostic.help = "part it into several knowledge bases";
  out.report(std::move(diagnostic));
}

int refuse(std::vector<Diagnostic> list, const Settings& settings) {
  std::erase_if(list, [](const Diagnostic& diagnostic) { return row(diagnostic.code).severity != Severity::error; });
  print_error(render_text(list, {}, settings.err));
  print_error("coeval: nothing was written\n");
  const bool world = std::ranges::any_of(list, [](const Diagnostic& diagnostic) {
    return diagnostic.code == Code::unreadable_file || diagnostic.code == Code::file_too_large;
  });
  return world ? exit_world : exit_no;
}

} // namespace

int run_import(const Settings& settings, const std::string& file, const std::string& to) {
  Diagnostics out;
  const auto json = read_json_file(file, out);
  if (!json) return refuse(out.sorted(), settings);
  Imported imported = import_json(*json, file, out);
  check_sizes(imported, out);
  const std::vector<std::string> pictures(imported.sources.assets.begin(), imported.sources.assets.end());
  const bool readable = !out.has_errors() || !imported.sources.files.empty();
  std::vector<NewFile> files;
  for (const SourceFile& source : imported.sources.files) files.push_back({source.path(), std::string{source.text()}});
  if (readable) {
    const Compiled compiled = compile(std::move(imported.sources));
    for (Diagnostic& diagnostic : told_of_json(imported, compiled.diagnostics)) out.report(std::move(diagnostic));
  }
  if (out.has_errors()) return refuse(out.sorted(), settings);
  Diagnostics writing;
  if (!write_new_folder(to, files, writing)) {
    print_error(render_text(writing.sorted(), {}, settings.err));
    return exit_world;
  }
  print(fmt::format("{}: {} {} written\n", printable(to), files.size(), files.size() == 1 ? "file" : "files"));
  constexpr std::size_t most_shown = 12;
  if (!pictures.empty()) print("pictures are not part of the JSON; copy these to where they were:\n");
  for (std::size_t i = 0; i < pictures.size() && i < most_shown; ++i)
    print(fmt::format("  {}\n", printable(fmt::format("{}/{}", to, pictures[i]))));
  if (pictures.size() > most_shown) print(fmt::format("  and {} more\n", pictures.size() - most_shown));
  return exit_yes;
}

} // namespace coeval
