// files/program.hpp: what does another program print?
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace coeval {

struct ProgramResult {
  int exit = 0;       // its exit code; 128 and more where a signal ended it
  int error = 0;      // errno where it could not be started, or read from; 0 where all went well
  bool whole = true;  // false: it printed more than was asked for, and was stopped
  std::string output; // what it printed
  std::string said;   // the start of what it wrote to standard error
};

// Starts the program `words[0]`, looked up in PATH, with the words as they are: no shell reads them. It gets `input` as
// its standard input, and this program's environment without what tells git of another repository. Waits for its end.
[[nodiscard]] ProgramResult run_program(const std::vector<std::string>& words, const std::string& input,
                                        std::size_t most_output);

} // namespace coeval
