// diagnose/snippet.hpp: how is a place in a file shown, with what matters in it marked?
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "diagnose/render.hpp"
#include "source/text.hpp"

namespace coeval {

// How snippets of one diagnostic are drawn: their lines share one gutter.
struct SnippetLook {
  TextStyle style;
  std::size_t digits = 1;  // of the largest line number
  char mark = '^';         // stands under what is meant
  std::string_view colour; // of the marks: the number of an ANSI colour
};

// Whether there is a file that the span lies in.
[[nodiscard]] bool in_sources(const SourceSet& sources, Span place);

// The line where a span begins, with a second line that marks the part of the span on it, and a third where the span
// goes on. Empty where the span is not in the sources.
[[nodiscard]] std::string snippet(const SourceSet& sources, Span place, const SnippetLook& look);

// The lines as they would be with the bytes of `place` replaced.
[[nodiscard]] std::string replaced_snippet(const SourceSet& sources, Span place, std::string_view replacement,
                                           const SnippetLook& look);

// `text` between the codes of an ANSI colour, or as it is where the style has none.
[[nodiscard]] std::string painted(std::string_view text, std::string_view colour, TextStyle style);

} // namespace coeval
