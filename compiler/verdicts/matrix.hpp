// verdicts/matrix.hpp: what is the verdict of each run of each accessory that an issue takes?
//
// One row for each pair, small enough to keep them all: issues times runs of what each takes. Of a pair that has no row
// the verdict is no-place. With Judge, which tells it in words, a pair costs some fifty times as much
// (10,000 runs).
#pragma once

#include <vector>

#include "verdicts/judge.hpp"

namespace coeval {

struct VerdictRow {
  IssueIndex issue{};
  std::uint32_t taken = 0; // which of the accessories that the issue takes
  RunIndex run{};
  Verdict verdict{};
  std::optional<Basis> basis;
  Day gap = 0; // for a no on time, at least how many days; else zero
};

// In the order of issues, of what each takes, and then the best first, as an outfit has them.
[[nodiscard]] std::vector<VerdictRow> verdict_rows(const LinkedKb& kb, const Chronology& chronology);

// "at least 13 months too late"; empty where no gap is proven.
[[nodiscard]] std::string gap_words(const VerdictRow& row);

} // namespace coeval
