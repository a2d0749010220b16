// main.cpp: one program, whose exit code tells how it went.
#include <cstdio>
#include <exception>

#include "cli/command_line.hpp"

int main(int argc, char** argv) {
  int result = coeval::exit_bug;
  try {
    result = coeval::CommandLine{}.run(argc, argv);
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
