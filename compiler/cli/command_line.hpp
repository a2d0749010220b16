// cli/command_line.hpp: what did the user type, and which command answers?
//
// The only room that sees CLI11. A command declares itself in one place: its name, what it takes and the function that
// runs it. Every command takes the options that all share (Settings).
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include <CLI/CLI.hpp>

#include "commands/command.hpp"

namespace coeval {

class CommandLine {
public:
  using Action = std::function<int(const Settings&)>;

  CommandLine();

  // Declares a command. `action` runs where it was typed; what the command takes is bound to what `action` holds.
  CLI::App& add(const std::string& name, const std::string& doc, Action action);
  // The same for commands that keep what was typed in a struct of their own: `action(settings, typed)`.
  template <class Typed, class Answer>
  std::pair<CLI::App&, Typed&> add_with(const std::string& name, const std::string& doc, Answer answer) {
    const auto typed = std::make_shared<Typed>();
    CLI::App& command = add(name, doc, [typed, answer](const Settings& settings) { return answer(settings, *typed); });
    return {command, *typed};
  }
  // The folder of the knowledge base as the first word, for commands that are about all of it.
  void add_kb(CLI::App& command) { command.add_option("KB", settings_.kb, "the knowledge base"); }

  // Parses, runs the command and gives its exit code; explains what was not understood.
  int run(int argc, char** argv);

private:
  CLI::App app_;
  Settings settings_;
  std::string format_ = "text";
  std::string basis_ = "conjectured";
  std::vector<std::pair<CLI::App*, Action>> commands_;
};

// Commands by what they are about, in the order in which help lists them.
void add_questions(CommandLine& line);         // does it belong, and how is that known?
void add_part_commands(CommandLine& line);     // what is this part at hand?
void add_shelf_commands(CommandLine& line);    // what does one collector own?
void add_site_commands(CommandLine& line);     // the reference as pages
void add_exchange_commands(CommandLine& line); // files for other programs, and from them
void add_program_commands(CommandLine& line);  // the program itself

// One of these words, or the parser says that it is none of them.
[[nodiscard]] CLI::Validator one_of(std::vector<std::string> words);

// What the parser did not understand, in this program's words.
[[nodiscard]] std::string misunderstood(const CLI::App& app, const CLI::ParseError& error);

} // namespace coeval
