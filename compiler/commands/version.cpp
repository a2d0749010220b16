#include "commands/version.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "files/revision.hpp"

namespace coeval {

NamedVersion::NamedVersion(const Settings& settings, const std::string& text) {
  read(settings, text);
  if (!exit) stop_at_errors(settings);
}

void NamedVersion::read(const Settings& settings, const std::string& text) {
  std::error_code error;
  if (!text.empty() && std::filesystem::is_directory(text, error)) {
    name_ = text;
    compiled_ = compile(text, Depth::to_answer);
    return;
  }
  const auto root = find_kb(settings);
  if (!root) {
    if (!text.empty())
      print_error(fmt::format("coeval: `{}` is no folder here, and without a knowledge base no revision of it\n",
                              printable(text)));
    exit = exit_usage;
    return;
  }
  if (text.empty()) {
    name_ = root->string();
    compiled_ = compile(*root, Depth::to_answer);
    return;
  }
  Diagnostics out;
  auto revision = load_revision(*root, text, out);
  if (!revision) {
    print_error(render_text(out.sorted(), {}, settings.err));
    exit = exit_world;
    return;
  }
  name_ = text;
  commit_ = revision->commit;
  day_ = revision->day;
  compiled_ = compile(std::move(revision->loaded), std::move(out), Depth::to_answer);
}

std::string NamedVersion::public_name() const {
  if (!commit_.empty()) return "revision " + commit_.substr(0, 12);
  const std::filesystem::path folder = std::filesystem::path{name_}.lexically_normal();
  return (folder.has_filename() ? folder : folder.parent_path()).filename().string();
}

void NamedVersion::stop_at_errors(const Settings& settings) {
  std::vector<Diagnostic> errors;
  for (const Diagnostic& diagnostic : compiled_.diagnostics)
    if (row(diagnostic.code).severity == Severity::error && diagnostic.code != Code::contradiction)
      errors.push_back(diagnostic);
  if (errors.empty()) return;
  exit = compiled_.world_failed ? exit_world : exit_usage;
  if (settings.format == Format::json)
    print(render_json(errors, compiled_.sources)); // instead of the answer
  else
    print_error(render_text(errors, compiled_.sources, settings.err));
  print_error(fmt::format("coeval: nothing is compared: `{}` must be without errors first\n", printable(name_)));
}

} // namespace coeval
