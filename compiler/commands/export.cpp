#include "commands/export.hpp"

#include <filesystem>

#include <fmt/format.h>

#include "publish/file.hpp"
#include "publish/folder.hpp"

namespace coeval {
namespace {

// Nothing where the words do not say which, and then standard error does.
std::optional<ExportAs> kind_wanted(const ExportSettings& wanted) {
  for (std::size_t i = 0; i < export_kinds; ++i)
    if (name(static_cast<ExportAs>(i)) == wanted.as) return static_cast<ExportAs>(i);
  std::error_code error;
  if (wanted.to != "-") {
    if (std::filesystem::is_directory(wanted.to, error)) return ExportAs::csv;
    if (const auto kind = export_kind_of(wanted.to)) return kind;
  }
  print_error(fmt::format("coeval: `{}` does not say what to write; say it with --as KIND, or let the name end in "
                          ".sqlite, .json, .graphml, .dot or .jsonld; CSV is a table for each kind, so name a folder\n",
                          printable(wanted.to)));
  return {};
}

int write_tables(const Session& session, const Settings& settings, const ExportInput& input, const std::string& to) {
  Diagnostics out;
  auto folder = OutputFolder::open(to, out);
  std::optional<PublishCounts> counts;
  if (folder) {
    for (const auto& [path, bytes] : export_tables(input)) folder->write(path, bytes, out);
    counts = folder->finish(out);
  }
  if (const auto said = out.sorted(); !said.empty()) print_error(render_text(said, session.sources(), settings.err));
  if (!counts) return exit_world;
  print(fmt::format("{}: {} tables written, {} unchanged, {} removed\n", printable(to), counts->written,
                    counts->unchanged, counts->removed));
  return exit_yes;
}

} // namespace

int run_export(const Settings& settings, const ExportSettings& wanted) {
  const auto as = kind_wanted(wanted);
  if (!as) return exit_usage;
  const auto base_url = checked_base_url(wanted.base_url);
  if (!base_url) {
    print_error(fmt::format("coeval: `{}` is no address of a site: --base-url https://example.org/reference/\n",
                            printable(wanted.base_url)));
    return exit_usage;
  }
  if (*as == ExportAs::csv && wanted.to == "-") {
    print_error("coeval: CSV is a table for each kind of entry; name a folder with --to DIR\n");
    return exit_usage;
  }
  const Session session{settings};
  if (session.exit) return *session.exit;
  const ExportInput input{session.kb(), session.dates(), session.sources(), *base_url};
  if (*as == ExportAs::csv) return write_tables(session, settings, input, wanted.to);
  const GraphOf graph = wanted.graph == "chronology" ? GraphOf::chronology : GraphOf::links;
  const std::string bytes = export_document(input, *as, graph);
  if (wanted.to == "-") {
    print(bytes);
    return exit_yes;
  }
  Diagnostics out;
  const Replacing replacing{.anything = wanted.replace,
                            .ours = [&](std::string_view beginning) { return begins_as_export(*as, beginning); },
                            .beginning = export_beginning};
  if (!write_whole_file(wanted.to, bytes, replacing, out)) {
    print_error(render_text(out.sorted(), session.sources(), settings.err));
    return exit_world;
  }
  print(fmt::format("{}: written as {}\n", printable(wanted.to), name(*as)));
  return exit_yes;
}

} // namespace coeval
