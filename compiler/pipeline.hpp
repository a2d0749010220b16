// pipeline.hpp: what does a knowledge base compile into?
#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <vector>

#include "chronology/chronology.hpp"
#include "diagnose/diagnostic.hpp"
#include "pictures/inspect.hpp"

namespace coeval {

struct Compiled {
  SourceSet sources;
  std::unique_ptr<const LinkedKb> kb;
  std::optional<Chronology> dates;
  std::map<std::string, PictureFacts> pictures; // by path: those that entries name and that are fit to be shown
  std::vector<Diagnostic> diagnostics;          // sorted
  bool has_errors = false;
  bool world_failed = false; // a file or folder could not be read
};

enum class Depth : std::uint8_t {
  to_answer,  // what a question needs: errors of the data, contradictions
  to_publish, // and the pictures
  in_full,    // and everything a curator wants to hear
};

[[nodiscard]] Compiled compile(const std::filesystem::path& root, Depth depth);
// Texts that are on no disk yet, as deep as to answer. Pictures count as there when the assets list them.
[[nodiscard]] Compiled compile(SourceSet sources);

} // namespace coeval
