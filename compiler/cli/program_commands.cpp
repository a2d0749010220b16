// What the knowledge base holds, and the program itself.
#include "cli/command_line.hpp"

namespace coeval {

void add_program_commands(CommandLine& line) {
  struct Listed {
    std::string kind;
    bool only_addresses = false;
  };
  struct Schema {
    std::string of = "kb";
  };
  const auto [list, listed] =
      line.add_with<Listed>("list", "what the knowledge base holds", [](const Settings& settings, const Listed& typed) {
        return run_list(settings, typed.kind, typed.only_addresses);
      });
  list.add_option("KIND", listed.kind, "figure, issue, accessory, mould, run, period, card …");
  list.add_flag("--addresses", listed.only_addresses, "only addresses, one a line");

  const auto [schema, wanted] =
      line.add_with<Schema>("schema", "JSON Schema of the knowledge base's files, or of a command's JSON",
                            [](const Settings&, const Schema& typed) { return run_schema(typed.of); });
  schema.add_option(
      "OF", wanted.of,
      "kb, shelf, export, check, belongs, outfit, homes, why, list, explain, identify, key, examine, ask, ledger, "
      "ceiling or comparables");

  const auto [explain, code] =
      line.add_with<std::string>("explain", "what a code of a diagnostic means, and the repair", run_explain);
  explain.add_option("CODE", code, "the code, such as unknown-key; all are listed without it");

  const auto [completions, shell] =
      line.add_with<std::string>("completions", "a completion script for a shell; completes ids too",
                                 [](const Settings&, const std::string& typed) { return run_completions(typed); });
  completions.add_option("SHELL", shell, "bash, zsh or fish")->required()->check(one_of({"bash", "zsh", "fish"}));
}

} // namespace coeval
