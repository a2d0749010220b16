// report/drift.hpp: how is what changed told, to a person, to a program, and in a review?
#pragma once

#include "diagnose/render.hpp"
#include "drift/drift.hpp"

namespace coeval {

// One side of the comparison, as it was asked for.
struct DriftSide {
  std::string name;   // a folder or a revision
  std::string commit; // of a revision: its hash; else empty
  std::string day;    // of a revision: ISO 8601, when it was committed; else empty
  const Version& version;
};

struct DriftReport {
  const Drift& drift;
  DriftSide from;
  DriftSide to;
  Basis weakest = Basis::conjectured;
};

// Lists are cut off after some rows, with how many are left out; JSON leaves nothing out.
[[nodiscard]] std::string drift_text(const DriftReport& report, TextStyle style);
[[nodiscard]] std::string drift_json(const DriftReport& report);
// CommonMark for a comment on a change. Whatever a curator wrote stands in code spans that it cannot end; no more than
// `most` bytes, with how much is left out.
inline constexpr std::size_t most_markdown = 60'000;
[[nodiscard]] std::string drift_markdown(const DriftReport& report, std::size_t most = most_markdown);

} // namespace coeval
