// How does a diagnostic look on a terminal?
//
//   error[unknown-key] accessories/signal-lantern.toml:9:1
//     [[mould]] has no key `uesd`
//
//     9 | uesd = "1976-08/1979-06"
//       | ^^^^
//     help: did you mean `used`?
//     fix, if that was meant:
//     9 | used = "1976-08/1979-06"
//       | ++++
//
// The first line is never broken, so that terminals and editors can open the place in it.
#include <algorithm>

#include <fmt/format.h>

#include "diagnose/render.hpp"
#include "diagnose/snippet.hpp"

namespace coeval {
namespace {

constexpr std::string_view label_colour = "1;34";
constexpr std::string_view help_colour = "1;32";
constexpr std::string_view doubt_colour = "1;33";

std::string_view colour_of(Severity severity) {
  return severity == Severity::error ? "1;31" : severity == Severity::warning ? "1;33" : "1;36";
}

std::string place_text(const SourceSet& sources, Span place) {
  if (!in_sources(sources, place)) return {};
  const LineColumn at = sources[place.file].position(place.begin);
  return fmt::format("{}:{}:{}", sources[place.file].path(), at.line, at.column);
}

// The digits of the largest line number that a diagnostic shows.
std::size_t gutter_digits(const Diagnostic& diagnostic, const SourceSet& sources) {
  std::uint32_t largest = 1;
  const auto look_at = [&](Span place) {
    if (in_sources(sources, place)) largest = std::max(largest, sources[place.file].position(place.end).line);
  };
  look_at(diagnostic.place);
  for (const Label& label : diagnostic.labels) look_at(label.place);
  if (diagnostic.fix) {
    look_at(diagnostic.fix->place);
    largest += static_cast<std::uint32_t>(std::ranges::count(diagnostic.fix->replacement, '\n'));
  }
  return std::to_string(largest).size();
}

std::string indented(std::string_view text, TextStyle style) { return "  " + wrap(text, 2, style) + "\n"; }

std::string basis_text(const Reason& reason, const SourceSet& sources) {
  std::string text{reason.definition ? "by definition" : name(reason.basis)};
  for (std::size_t i = 0; i < reason.sources.size() && !reason.definition; ++i)
    text += (i == 0 ? ": " : "; ") + reason.sources[i];
  const std::string place = place_text(sources, reason.place);
  if (!place.empty()) text += " (" + place + ")";
  return text;
}

std::string one(const Diagnostic& diagnostic, const SourceSet& sources, TextStyle style) {
  const CatalogueRow& kind = row(diagnostic.code);
  const std::string_view colour = colour_of(kind.severity);
  SnippetLook look{style, gutter_digits(diagnostic, sources), '^', colour};
  std::string place = place_text(sources, diagnostic.place);
  if (place.empty()) place = diagnostic.path;

  std::string text = painted(fmt::format("{}[{}]", name(kind.severity), kind.name), colour, style);
  if (!place.empty()) text += " " + printable(place);
  text += "\n" + indented(diagnostic.message, style);
  if (const std::string shown = snippet(sources, diagnostic.place, look); !shown.empty()) text += "\n" + shown;

  look.mark = '-';
  look.colour = label_colour;
  for (const Label& label : diagnostic.labels) {
    const std::string where = place_text(sources, label.place);
    text += indented(where.empty() ? label.text : fmt::format("{} ({})", label.text, where), style);
    text += snippet(sources, label.place, look);
  }
  if (!diagnostic.reasons.empty()) text += "\n" + render_reasons(diagnostic.reasons, sources, style) + "\n";
  if (!diagnostic.help.empty()) {
    constexpr std::string_view head = "help:";
    text += "  " + painted(head, help_colour, style) + " " + wrap(diagnostic.help, 2 + head.size() + 1, style) + "\n";
  }
  if (diagnostic.fix) {
    look.mark = '+';
    look.colour = help_colour;
    const std::string shown = replaced_snippet(sources, diagnostic.fix->place, diagnostic.fix->replacement, look);
    const std::string_view head = diagnostic.fix->certain ? "fix:" : "fix, if that was meant:";
    if (!shown.empty()) text += "  " + painted(head, help_colour, style) + "\n" + shown;
  }
  return text;
}

std::string totals(const std::vector<Diagnostic>& list) {
  std::string text;
  for (const Severity severity : {Severity::error, Severity::warning, Severity::note}) {
    const auto count =
        std::ranges::count(list, severity, [](const Diagnostic& diagnostic) { return row(diagnostic.code).severity; });
    if (count == 0) continue;
    text += fmt::format("{}{} {}{}", text.empty() ? "" : ", ", count, name(severity), count == 1 ? "" : "s");
  }
  return text.empty() ? text : text + "\n";
}

} // namespace

std::size_t columns(TextStyle style) { return static_cast<std::size_t>(std::clamp(style.width, 40, 1000)); }

std::string render_reasons(const std::vector<Reason>& reasons, const SourceSet& sources, TextStyle style) {
  const std::size_t digits = std::to_string(reasons.size()).size();
  const std::string margin(digits + 4, ' ');
  std::string text;
  for (std::size_t i = 0; i < reasons.size(); ++i) {
    const Reason& reason = reasons[i];
    text += fmt::format("  {:>{}}. {}\n", i + 1, digits, wrap(reason.statement, margin.size(), style));
    text += margin + wrap(basis_text(reason, sources), margin.size(), style) + "\n";
    if (reason.weakest) text += margin + painted("<- doubt this one first", doubt_colour, style) + "\n";
  }
  return text;
}

std::string render_text(const std::vector<Diagnostic>& list, const SourceSet& sources, TextStyle style) {
  std::string text;
  for (const Diagnostic& diagnostic : list) text += one(diagnostic, sources, style) + "\n";
  return text + totals(list);
}

} // namespace coeval
