// report/drift_parts.hpp: what do the tellings of drift share? Private to this room.
#pragma once

#include <string>

#include "report/drift.hpp"

namespace coeval {

// "HEAD~1 (2026-11-20)"
[[nodiscard]] std::string side_words(const DriftSide& side);
// Of an edit that was taken out the place is in the old version.
[[nodiscard]] const SourceSet& sources_of(const DriftReport& report, const Edit& edit);
// "saltmere/cards.toml:12"; empty where the place is not known.
[[nodiscard]] std::string file_and_line(const SourceSet& sources, const Span& place);
// What a cause that is not known to be smallest must be read with; empty for a smallest one.
[[nodiscard]] std::string certainty_words(Certainty certainty);

} // namespace coeval
