#include <algorithm>

#include "cli/command_line.hpp"
#include "diagnose/near.hpp"

namespace coeval {
namespace {

std::string in_backticks(const std::string& text) { return "`" + text + "`"; }

} // namespace

CLI::Validator one_of(std::vector<std::string> words) {
  const auto look = [words = std::move(words)](std::string& text) -> std::string {
    if (std::ranges::find(words, text) != words.end()) return {};
    const std::vector<std::string_view> names(words.begin(), words.end());
    return in_backticks(text) + " is none of " + list_names(names, "and");
  };
  return CLI::Validator{look, "", "one of"};
}

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

} // namespace coeval
