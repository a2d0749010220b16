#include "cli/command_line.hpp"

#include <cstdlib>

#include <sys/ioctl.h>
#include <unistd.h>

namespace coeval {
namespace {

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

Basis basis_named(const std::string& text) {
  for (const Basis basis : all_bases)
    if (name(basis) == text) return basis;
  return Basis::conjectured;
}

} // namespace

CommandLine::CommandLine()
    : app_{"Coeval compiles what is known about a line of vintage figures, and says whether a part belongs with a "
           "figure.",
           "coeval"} {
  app_.footer(examples);
  app_.set_version_flag("--version", std::string{"coeval "} + COEVAL_VERSION);
  app_.require_subcommand(1);
  app_.fallthrough();
  app_.get_formatter()->column_width(34);
  app_.add_option("--kb", settings_.kb, "the knowledge base; without it, the folder kb here or above")
      ->type_name("DIR");
  app_.add_option("--format", format_, "text, json, or for check also sarif")
      ->type_name("FORMAT")
      ->check(one_of({"text", "json", "sarif"}));
  app_.add_option("--basis", basis_,
                  "use only evidence of this basis or stronger:\ndocumented, observed, reported, conjectured")
      ->type_name("BASIS")
      ->check(one_of({"documented", "observed", "reported", "conjectured"}));
  add_questions(*this);
  add_part_commands(*this);
  add_shelf_commands(*this);
  add_site_commands(*this);
  add_exchange_commands(*this);
  add_program_commands(*this);
}

CLI::App& CommandLine::add(const std::string& name, const std::string& doc, Action action) {
  CLI::App* command = app_.add_subcommand(name, doc);
  commands_.emplace_back(command, std::move(action));
  return *command;
}

int CommandLine::run(int argc, char** argv) {
  try {
    app_.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    if (error.get_exit_code() == 0) return app_.exit(error);
    print_error("coeval: " + printable(misunderstood(app_, error)) +
                "\n`coeval --help` shows the commands, `coeval COMMAND --help` what one takes\n");
    return exit_usage;
  }
  settings_.format = format_ == "json" ? Format::json : format_ == "sarif" ? Format::sarif : Format::text;
  settings_.weakest = basis_named(basis_);
  settings_.out = {wants_colour(STDOUT_FILENO), terminal_width(STDOUT_FILENO)};
  settings_.err = {wants_colour(STDERR_FILENO), terminal_width(STDERR_FILENO)};
  for (const auto& [command, action] : commands_) {
    if (!command->parsed()) continue;
    if (settings_.format == Format::sarif && command->get_name() != "check") {
      print_error("coeval: only `check` writes SARIF; use --format json\n");
      return exit_usage;
    }
    return action(settings_);
  }
  return exit_bug; // the parser demands a command
}

} // namespace coeval
