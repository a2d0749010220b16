// main.cpp: what does the user want? Only the command line: parse, call, return an exit code.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <exception>

#include <sys/ioctl.h>
#include <unistd.h>

#include <CLI/CLI.hpp>

#include "commands/command.hpp"
#include "commands/looks.hpp"
#include "diagnose/near.hpp"

namespace {

using namespace coeval;

int terminal_width(int file) {
  winsize size{};
  if (isatty(file) != 0 && ioctl(file, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) return size.ws_col;
  return TextStyle{}.width;
}

// Colour only on a terminal, and never where NO_COLOR is set to anything (https://no-color.org) or the terminal is
// dumb.
bool wants_colour(int file) {
  const char* no_color = std::getenv("NO_COLOR");
  const char* term = std::getenv("TERM");
  const bool dumb = term == nullptr || std::string_view{term} == "dumb";
  return isatty(file) != 0 && (no_color == nullptr || *no_color == '\0') && !dumb;
}

constexpr const char* examples = R"(examples:
  coeval check                                     is the knowledge base sound?
  coeval belongs signal-lantern/plain-top/grey keeper-maren/painted-buttons
                                                   does this part belong with this figure?
  coeval outfit keeper-maren/painted-buttons       which runs does each slot take?
  coeval homes ring-top/brass                      which issues could this part have come with?
  coeval why signal-lantern/ring-top.end           how early and how late, and how is that known?
  coeval identify signal-lantern --seen top=ring height-mm=21.9±0.05
                                                   which run or reproduction is this?
  coeval publish --to site                         the whole reference, as pages to read and to carry

exit codes:
  0 yes, or nothing wrong   1 no, or errors in the knowledge base   2 not understood   3 open
  4 a file or disk failed   70 a mistake of this program's

The answer is what the entered evidence supports. It is not an appraisal or a certificate.)";

struct CommandLine {
  Settings settings;
  std::string format = "text";
  std::string basis = "conjectured";
  std::string part, issue, point, kind, code, shell;
  std::string of = "kb";
  LookSettings looks;
  bool every_ground = false;
  bool only_addresses = false;
  PublishSettings publish;
  PreviewSettings preview;
};

Basis basis_named(const std::string& text) {
  for (const Basis basis : all_bases)
    if (name(basis) == text) return basis;
  return Basis::conjectured;
}

std::string in_backticks(const std::string& text) { return "`" + text + "`"; }

CLI::Validator one_of(std::vector<std::string> words) {
  const auto look = [words = std::move(words)](std::string& text) -> std::string {
    if (std::ranges::find(words, text) != words.end()) return {};
    const std::vector<std::string_view> names(words.begin(), words.end());
    return in_backticks(text) + " is none of " + list_names(names, "and");
  };
  return CLI::Validator{look, "", "one of"};
}

// What the parser did not understand, in this program's words.
std::string misunderstood(const CLI::App& app, const CLI::ParseError& error) {
  const auto& commands = app.get_subcommands();
  const std::vector<std::string> left = app.remaining(true);
  const bool option = !left.empty() && left.front().starts_with("-");
  std::vector<std::string_view> known;
  const auto meant = [](const std::vector<std::string_view>& near) {
    return near.empty() ? std::string{} : "; " + did_you_mean(near);
  };
  if (commands.empty() && !left.empty() && !option) {
    std::vector<std::string> names;
    for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; }))
      names.push_back(command->get_name());
    known.assign(names.begin(), names.end());
    const auto near = near_names(left.front(), known);
    return "there is no command " + in_backticks(left.front()) + meant(near);
  }
  if (commands.empty() && left.empty() && error.get_name() == "RequiredError") return "a command is missing";
  const std::string command = commands.empty() ? "coeval" : commands.front()->get_name();
  if (option) {
    std::vector<std::string> names;
    for (const CLI::App* place : {&app, commands.empty() ? &app : commands.front()})
      for (const CLI::Option* known_option : place->get_options())
        for (const std::string& name : known_option->get_lnames()) names.push_back("--" + name);
    known.assign(names.begin(), names.end());
    const auto near = near_names(left.front(), known);
    return in_backticks(command) + " has no option " + in_backticks(left.front()) + meant(near);
  }
  if (!left.empty()) return in_backticks(left.front()) + " is one word too many for " + in_backticks(command);
  const std::string what = error.what();
  if (error.get_name() == "RequiredError")
    return in_backticks(command) + " needs " + what.substr(0, what.find(" is required"));
  if (error.get_name() == "ArgumentMismatch") return in_backticks(what.substr(0, what.find(':'))) + " needs a value";
  return what;
}

// The options of the commands about a part at hand.
void add_seen(CLI::App& command, LookSettings& looks) {
  command.add_option("--seen", looks.seen, "what was seen or measured: top=ring, vents=4, height-mm=21.4±0.05 …")
      ->type_name("FEATURE=VALUE");
  command
      .add_option("--figure-colour", looks.figure_colour,
                  "the plastic of your figure, CIELAB, for body-colour=same-as-figure")
      ->type_name("L,a,b");
  command.add_flag("--by-seller", looks.seller_first, "propose first what a seller can photograph or measure");
}
void add_offer(CLI::App& command, CommandLine& line) {
  command.add_option("RUN", line.part, "the run that it is offered as")->required();
  add_seen(command, line.looks);
  command.add_option("--for", line.looks.issue, "the issue that it is offered for")->type_name("ISSUE");
  command.add_option("--sheet", line.looks.sheet, "write a page to print, for a second opinion")
      ->type_name("FILE.html");
}

int run(int argc, char** argv) {
  CommandLine line;
  CLI::App app{
      "Coeval compiles what is known about a line of vintage figures, and says whether a part belongs with a figure.",
      "coeval"};
  app.footer(examples);
  app.set_version_flag("--version", std::string{"coeval "} + COEVAL_VERSION);
  app.require_subcommand(1);
  app.fallthrough();
  app.get_formatter()->column_width(34);
  app.add_option("--kb", line.settings.kb, "the knowledge base; without it, the folder kb here or above")
      ->type_name("DIR");
  app.add_option("--format", line.format, "text, json, or for check also sarif")
      ->type_name("FORMAT")
      ->check(one_of({"text", "json", "sarif"}));
  app.add_option("--basis", line.basis,
                 "use only evidence of this basis or stronger:\ndocumented, observed, reported, conjectured")
      ->type_name("BASIS")
      ->check(one_of({"documented", "observed", "reported", "conjectured"}));

  CLI::App* check = app.add_subcommand("check", "report every mistake, contradiction and doubtful claim");
  check->add_option("KB", line.settings.kb, "the knowledge base");
  CLI::App* belongs = app.add_subcommand("belongs", "does a run belong with an issue, and how is that known?");
  belongs->add_option("RUN", line.part, "a run; or a mould or accessory, answered run by run")->required();
  belongs->add_option("ISSUE", line.issue, "an issue of a figure")->required();
  belongs->add_flag("--every-ground", line.every_ground,
                    "print the proof of every ground, not only of those that decide");
  CLI::App* outfit = app.add_subcommand("outfit", "the runs for each slot of an issue, the best first");
  outfit->add_option("ISSUE", line.issue, "an issue of a figure")->required();
  CLI::App* homes = app.add_subcommand("homes", "the issues that a run could belong with, the best first");
  homes->add_option("RUN", line.part, "a run; or a mould or accessory, answered run by run")->required();
  CLI::App* why =
      app.add_subcommand("why", "how early and how late something began or ended, and the chain that proves it");
  why->add_option("POINT", line.point, "ADDRESS.start or ADDRESS.end; ADDRESS alone for both")->required();
  CLI::App* identify = app.add_subcommand("identify", "which run or reproduction is this part?");
  identify->add_option("ACCESSORY", line.part, "only runs and reproductions of this accessory");
  add_seen(*identify, line.looks);
  identify->add_option("--slot", line.looks.slot, "only accessories that go there: hand, head …")->type_name("SLOT");
  identify->add_flag("--ask", line.looks.by_questions, "look by look; on a terminal, unless --seen is given");
  CLI::App* key = app.add_subcommand("key", "a key to tell the runs and reproductions of an accessory apart");
  key->add_option("ACCESSORY", line.part, "the accessory");
  key->add_option("--slot", line.looks.slot, "all accessories that go there: hand, head …")->type_name("SLOT");
  CLI::App* examine = app.add_subcommand("examine", "is a part what it is offered as?");
  add_offer(*examine, line);
  CLI::App* ask = app.add_subcommand("ask", "what to ask a seller, as a message, the most telling first");
  add_offer(*ask, line);
  CLI::App* list = app.add_subcommand("list", "what the knowledge base holds");
  list->add_option("KIND", line.kind, "figure, issue, accessory, mould, run, period, card …");
  list->add_flag("--addresses", line.only_addresses, "only addresses, one a line");
  CLI::App* publish = app.add_subcommand("publish", "write the whole reference as a folder of static pages");
  publish->add_option("KB", line.settings.kb, "the knowledge base");
  publish->add_option("--to", line.publish.to, "the folder; made where it is missing")->type_name("DIR")->required();
  publish->add_option("--base-url", line.publish.base_url, "where it will stand, for canonical links and the sitemap")
      ->type_name("URL");
  publish->add_option("--template", line.publish.templates, "a template of your own, like the folder site-template")
      ->type_name("DIR");
  CLI::App* preview = app.add_subcommand("preview", "show the site in a browser, and follow what you write");
  preview->add_option("KB", line.settings.kb, "the knowledge base");
  preview->add_option("--port", line.preview.port, "on 127.0.0.1; any that is free unless said")
      ->type_name("PORT")
      ->check(CLI::Range(1, 65535));
  preview->add_option("--template", line.preview.templates, "a template of your own")->type_name("DIR");
  CLI::App* schema = app.add_subcommand("schema", "JSON Schema of the knowledge base's files, or of a command's JSON");
  schema->add_option("OF", line.of,
                     "kb, check, belongs, outfit, homes, why, list, explain, identify, key, examine or ask");
  CLI::App* explain = app.add_subcommand("explain", "what a code of a diagnostic means, and the repair");
  explain->add_option("CODE", line.code, "the code, such as unknown-key; all are listed without it");
  CLI::App* completions = app.add_subcommand("completions", "a completion script for a shell; completes ids too");
  completions->add_option("SHELL", line.shell, "bash, zsh or fish")->required()->check(one_of({"bash", "zsh", "fish"}));

  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    if (error.get_exit_code() == 0) return app.exit(error);
    print_error("coeval: " + printable(misunderstood(app, error)) +
                "\n`coeval --help` shows the commands, `coeval COMMAND --help` what one takes\n");
    return exit_usage;
  }

  Settings& settings = line.settings;
  settings.format = line.format == "json" ? Format::json : line.format == "sarif" ? Format::sarif : Format::text;
  settings.weakest = basis_named(line.basis);
  settings.out = {wants_colour(STDOUT_FILENO), terminal_width(STDOUT_FILENO)};
  settings.err = {wants_colour(STDERR_FILENO), terminal_width(STDERR_FILENO)};
  if (settings.format == Format::sarif && !check->parsed()) {
    print_error("coeval: only `check` writes SARIF; use --format json\n");
    return exit_usage;
  }
  if (check->parsed()) return run_check(settings);
  if (belongs->parsed()) return run_belongs(settings, line.part, line.issue, line.every_ground);
  if (outfit->parsed()) return run_outfit(settings, line.issue);
  if (homes->parsed()) return run_homes(settings, line.part);
  if (why->parsed()) return run_why(settings, line.point);
  if (publish->parsed()) return run_publish(settings, line.publish);
  if (preview->parsed()) return run_preview(settings, line.preview);
  if (identify->parsed()) {
    const bool on_terminal = isatty(STDIN_FILENO) != 0 && isatty(STDERR_FILENO) != 0;
    line.looks.by_questions = line.looks.by_questions || (line.looks.seen.empty() && on_terminal);
    return run_identify(settings, line.part, line.looks);
  }
  if (key->parsed()) return run_key(settings, line.part, line.looks.slot);
  if (examine->parsed()) return run_examine(settings, line.part, line.looks);
  if (ask->parsed()) return run_ask(settings, line.part, line.looks);
  if (list->parsed()) return run_list(settings, line.kind, line.only_addresses);
  if (schema->parsed()) return run_schema(line.of);
  if (explain->parsed()) return run_explain(settings, line.code);
  return run_completions(line.shell);
}

} // namespace

int main(int argc, char** argv) {
  int result = coeval::exit_bug;
  try {
    result = run(argc, argv);
  } catch (const std::exception& error) {
    coeval::print_error(std::string{"coeval: this is a mistake of the program's, not yours: "} + error.what() + "\n");
  }
  // An answer that did not reach its reader is no answer.
  if (std::fflush(stdout) != 0 || std::ferror(stdout) != 0) {
    coeval::print_error("coeval: the answer could not be written to standard output; is the disk full?\n");
    return coeval::exit_world;
  }
  return result;
}
