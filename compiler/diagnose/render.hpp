// diagnose/render.hpp: how does a diagnostic look on a terminal, to a program, and to an editor?
//
// The same list gives the same bytes on every machine; only colour and width depend on the style asked for.
#pragma once

#include <string>
#include <vector>

#include "diagnose/diagnostic.hpp"
#include "source/text.hpp"

namespace coeval {

struct TextStyle {
  bool colour = false;
  int width = 100; // columns; lines are wrapped or shortened to it, never below 40
};

// Each diagnostic with its source line, a caret, labels, reasons and repair, then one line of totals.
[[nodiscard]] std::string render_text(const std::vector<Diagnostic>& list, const SourceSet& sources, TextStyle style);
// A JSON object {"format": "coeval-diagnostics", "version": 1, "diagnostics": [...]}; lines and columns from 1, bytes from 0.
[[nodiscard]] std::string render_json(const std::vector<Diagnostic>& list, const SourceSet& sources);
// SARIF 2.1.0 (OASIS): one run, every code that occurs as a rule, fixes as artifact changes.
[[nodiscard]] std::string render_sarif(const std::vector<Diagnostic>& list, const SourceSet& sources);
// One reason as a row of a proof; `number` counts from 1.
[[nodiscard]] std::string render_reasons(const std::vector<Reason>& reasons, const SourceSet& sources, TextStyle style);

} // namespace coeval
