#include <algorithm>

#include <fmt/format.h>

#include "commands/shelf_commands.hpp"
#include "entries/csv_tables.hpp"
#include "entries/read.hpp"
#include "entries/rows.hpp"
#include "files/load.hpp"
#include "publish/file.hpp"
#include "report/shelf_changes.hpp"

namespace coeval {
namespace {

bool is_toml_path(std::string_view path) { return path.ends_with(".toml"); }

int refuse(const Settings& settings, const Diagnostics& out, const SourceSet& sources, int code) {
  std::vector<Diagnostic> list = out.sorted();
  name_cells(list, sources);
  if (settings.format == Format::json)
    print(render_json(list, sources));
  else
    print_error(render_text(list, sources, settings.err));
  return code;
}

// Whether a file of this name with this text would be read as these rows.
bool reads_as(const std::string& path, const std::string& text, const std::vector<EntryRow>& rows) {
  SourceSet again;
  again.files.emplace_back(path, text);
  Diagnostics wrong;
  return rows_of(read_entries(again, {}, wrong, Language::shelf)) == rows && !wrong.has_errors();
}

bool has_comments(const SourceSet& sources, const EntrySet& entries) {
  const auto signs = [](std::string_view text) { return std::ranges::count(text, '#'); };
  auto left = signs(sources.files.front().text());
  for (const Entry& entry : entries.entries)
    for (const Field& field : entry.fields) {
      // Between the items of a list there may be comments too.
      if (const auto* words = std::get_if<Words>(&field.value))
        for (const Word& word : *words) left -= signs(sources.text(word.place));
      else
        left -= signs(sources.text(field.place));
    }
  return left > 0;
}

} // namespace

int run_convert(const Settings& settings, const ConvertSettings& typed) {
  const bool to_table = is_toml_path(typed.from) && is_csv_path(typed.to);
  if (!to_table && !(is_csv_path(typed.from) && is_toml_path(typed.to))) {
    print_error("coeval: a shelf is converted from FILE.toml to FILE.csv, or from FILE.csv to FILE.toml\n");
    return exit_usage;
  }
  Diagnostics out;
  const auto sources = load_file(typed.from, out);
  if (!sources) return refuse(settings, out, {}, exit_world);
  if (out.has_errors()) return refuse(settings, out, *sources, exit_no);
  const EntrySet entries = read_entries(*sources, {}, out, Language::shelf);
  if (out.has_errors()) return refuse(settings, out, *sources, exit_no);
  const std::vector<EntryRow> rows = rows_of(entries);
  const std::string text = to_table ? csv_of(rows) : toml_of(rows).text;
  if (!reads_as(typed.to, text, rows)) {
    print_error(
        fmt::format("coeval: {} was not written, for it would not say the same as {}; give things that share an id "
                    "ids of their own: `coeval audit --shelf {}` reports them\n",
                    printable(typed.to), printable(typed.from), printable(typed.from)));
    return exit_no;
  }
  // A shelf is its owner's alone.
  if (!write_whole_file(typed.to, text, {.anything = typed.replace, .ours = {}}, out, 0600))
    return refuse(settings, out, *sources, exit_world);
  const ConvertReport report{typed.from, typed.to, rows.size(), to_table && has_comments(*sources, entries)};
  print(settings.format == Format::json ? convert_json(report) : convert_text(report, settings.out));
  return exit_yes;
}

} // namespace coeval
