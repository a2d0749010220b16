// diagnose/render.hpp: how does a diagnostic look on a terminal, to a program, and to an editor?
//
// The same list gives the same bytes on every machine; only colour and width depend on the style asked for.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "diagnose/diagnostic.hpp"
#include "source/text.hpp"

namespace coeval {

struct TextStyle {
  bool colour = false;
  int width = 100; // columns; lines are wrapped or shortened to it, never below 40
};

// The width that is meant: the style's, but never below 40.
[[nodiscard]] std::size_t columns(TextStyle style);
// Text made safe for one line of a terminal: line breaks and tabs become spaces, other control characters and bytes
// that are not UTF-8 become U+FFFD, and what cannot be seen or turns the direction of the text is spelt out: <U+202E>.
[[nodiscard]] std::string printable(std::string_view text);
// The same, broken at spaces to the style's width. The caller has already written `indent` columns of the first line;
// the others begin with as many spaces. Words wider than a line are cut. No line break at the end.
[[nodiscard]] std::string wrap(std::string_view text, std::size_t indent, TextStyle style);

// Each diagnostic with its source line, a caret, labels, reasons and repair, then one line of totals.
[[nodiscard]] std::string render_text(const std::vector<Diagnostic>& list, const SourceSet& sources, TextStyle style);
// A JSON object {"format": "coeval-diagnostics", "version": 1, "diagnostics": [DIAGNOSTIC...]}, where
//   DIAGNOSTIC {"code": "unknown-key", "severity": "error" | "warning" | "note", "message": text, "help": text or "",
//               "place": PLACE | null, "labels": [{"text": text, "place": PLACE | null}...], "reasons": [REASON...],
//               "fix": {"place": PLACE, "replacement": text, "certain": boolean} | null}
//   REASON     {"statement": text, "basis": "documented" | "observed" | "reported" | "conjectured" | null (by
//   definition),
//               "sources": [text...], "definition": boolean, "weakest": boolean, "place": PLACE | null}
//   PLACE      {"file": path} for a file as a whole, else also "line", "column", "end-line", "end-column" (from 1, in
//   code
//              points), "begin", "end" (from 0, in bytes); ends are exclusive.
// Bytes that are not UTF-8 are written as U+FFFD.
[[nodiscard]] std::string render_json(const std::vector<Diagnostic>& list, const SourceSet& sources);
// SARIF 2.1.0 (OASIS): one run, every code that occurs as a rule, fixes as artifact changes.
[[nodiscard]] std::string render_sarif(const std::vector<Diagnostic>& list, const SourceSet& sources);
// A proof: each reason with its number, its basis and sources, and its place; ends in a line break unless empty.
[[nodiscard]] std::string render_reasons(const std::vector<Reason>& reasons, const SourceSet& sources, TextStyle style);

} // namespace coeval
