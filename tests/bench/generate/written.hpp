// written.hpp: what did curators write about a history, and into which files?
//
// One folder for each line, one file for each figure and each accessory, as in a knowledge base that is written by
// hand. Most spans are dated by two months; of the others some are vague, some open at one end and some not dated at
// all.
#pragma once

#include <cstddef>
#include <functional>
#include <string>

#include "generate/history.hpp"

namespace generated {

// Takes a path relative to the root of the knowledge base, and the text of the file.
using FileSink = std::function<void(const std::string& path, const std::string& text)>;

struct Written {
  std::size_t files = 0;
  std::size_t toml_bytes = 0;
  std::size_t runs = 0;
};

// The whole knowledge base, file by file; no more than one line is held in memory. The same plan gives the same bytes.
Written write_history(const Plan& plan, const FileSink& sink);

} // namespace generated
