// tests/unit/entries/reading.hpp: what does the reader make of one text?
#pragma once

#include "in_memory_kb.hpp"

namespace reading {

struct Read {
  coeval::SourceSet sources;
  std::vector<coeval::Diagnostic> diagnostics;
  coeval::EntrySet entries;

  [[nodiscard]] std::vector<std::string> codes() const { return in_memory::codes_of(diagnostics); }
  [[nodiscard]] std::string troubles() const { return in_memory::shown(sources, diagnostics); }
  // The bytes that a place covers.
  [[nodiscard]] std::string at(coeval::Span place) const { return std::string{sources.text(place)}; }
  // The first entry of a kind.
  [[nodiscard]] const coeval::Entry& first(coeval::Kind kind) const {
    for (const coeval::Entry& entry : entries.entries)
      if (entry.kind == kind) return entry;
    throw std::out_of_range("no entry of that kind was read");
  }
};

inline Read read(std::vector<coeval::SourceFile> files) {
  Read result;
  result.sources = in_memory::sources_of(std::move(files));
  coeval::Diagnostics out;
  result.entries = coeval::read_entries(result.sources, {}, out);
  result.diagnostics = out.sorted();
  return result;
}
inline Read read(std::string text) { return read({coeval::SourceFile{"kb.toml", std::move(text)}}); }

} // namespace reading
