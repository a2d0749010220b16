#include "commands/command.hpp"
#include "commands/completion_scripts.hpp"

namespace coeval {

int run_completions(const std::string& shell) {
  print(shell == "bash" ? bash_completions : shell == "zsh" ? zsh_completions : fish_completions);
  return exit_yes;
}

} // namespace coeval
