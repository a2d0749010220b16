// Files for other programs, and from them.
#include "cli/command_line.hpp"
#include "commands/export.hpp"

namespace coeval {

void add_exchange_commands(CommandLine& line) {
  const auto [exporting, wanted] =
      line.add_with<ExportSettings>("export", "write the knowledge base as a file for other programs", run_export);
  line.add_kb(exporting);
  exporting.add_option("--to", wanted.to, "a file, a folder for CSV, or - for standard output")
      ->type_name("FILE")
      ->required();
  exporting
      .add_option("--as", wanted.as, "sqlite, json, csv, graphml, dot or json-ld; by the file's ending unless said")
      ->type_name("KIND")
      ->check(one_of({"sqlite", "json", "csv", "graphml", "dot", "json-ld"}));
  exporting.add_option("--graph", wanted.graph, "for graphml and dot: the links of entries, or the chronology")
      ->type_name("GRAPH")
      ->check(one_of({"links", "chronology"}));
  exporting.add_option("--base-url", wanted.base_url, "for json-ld: the site that its names are of")->type_name("URL");
  exporting.add_flag("--replace", wanted.replace, "also a file that is not from an earlier export of this kind");

  struct Import {
    std::string file;
    std::string to;
  };
  const auto [importing, typed] = line.add_with<Import>(
      "import", "write the TOML of a JSON export to a new folder",
      [](const Settings& settings, const Import& import) { return run_import(settings, import.file, import.to); });
  importing.add_option("FILE", typed.file, "what `coeval export --as json` wrote")->required();
  importing.add_option("--to", typed.to, "a folder that is new or empty")->type_name("DIR")->required();
}

} // namespace coeval
