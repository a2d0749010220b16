// diagnose/diagnostic.hpp: what is wrong, where, why, and what would repair it?
//
// A Diagnostic is data. Text, JSON and SARIF are renderings of it (render.hpp). Wording of every text in it: lower
// case, no full stop, ids in backticks; first what was found, then the rule if it is not obvious, then the repair.
#pragma once

#include <compare>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "diagnose/catalogue.hpp"
#include "diagnose/reason.hpp"
#include "source/text.hpp"

namespace coeval {

// A second place that matters, with what it has to do with the first: "first defined here".
struct Label {
  Span place;
  std::string text;
  friend auto operator<=>(const Label&, const Label&) = default;
};

// A repair by replacing bytes. `certain`: applying it cannot change what the curator meant.
struct Fix {
  Span place;
  std::string replacement;
  bool certain = false;
  friend auto operator<=>(const Fix&, const Fix&) = default;
};

struct Diagnostic {
  Code code{};
  Span place;       // unknown where the trouble is a file as a whole: then `path` says which
  std::string path; // relative to the knowledge base where it lies in it, else as the user wrote it
  std::string message;
  std::string help; // the repair in words; empty where the message already says it
  std::vector<Label> labels;
  std::vector<Reason> reasons;
  std::optional<Fix> fix;
};

// Collects diagnostics. Not for use from two threads: parallel work collects into one of these per job and merges.
class Diagnostics {
public:
  void report(Diagnostic diagnostic) { list_.push_back(std::move(diagnostic)); }
  void merge(Diagnostics other);

  // Sorted by file, byte and code, without exact repeats; what concerns a file as a whole, and so has no place, first.
  [[nodiscard]] std::vector<Diagnostic> sorted() const;
  [[nodiscard]] bool has_errors() const;
  [[nodiscard]] std::size_t count(Severity severity) const; // repeats count once

private:
  std::vector<Diagnostic> list_;
};

} // namespace coeval
