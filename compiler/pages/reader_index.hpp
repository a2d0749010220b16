// pages/reader_index.hpp: what do the checker and the search know?
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "pages/site.hpp"

namespace coeval {

// One JSON document for both tools. Every text stands once in "texts"; everything else refers to it by position.
//
//   {"format": "coeval-reader-index", "version": 1,
//    "texts":    [text …],
//    "verdicts": [word …], "bases": [word …], "grounds": [word …], "answers": [word …],
//    "entries":  [[kind, name, address, path, more] …]      what can be searched for; `more`: features, marks, notes
//    "issues":   [[name, address, path, figure's name] …]   what a part can be checked against
//    "runs":     [[name, address, path, accessory's name] …]
//    "steps":    [[statement, basis or -1, sources, place] …]
//    "pairs":    [[issue, run, verdict, basis or -1, gap, [answer, words, …], [step …], [settles …]] …]}
//
// "pairs" holds a row for every run of every accessory that an issue takes; a pair without a row has no place together,
// or nothing is known of what the issue takes. The four grounds give answer and words each, in the order of "grounds".
// Numbers other than positions in "texts": issue, run, verdict, basis, answer and step count in the lists of those
// names.
//
// What it says of the pairs of one issue can be kept as a part, and found again while nothing that the page of the
// issue follows from has changed: nearly all of the work goes into the proofs of pairs. A part is only for this
// function.
struct IndexParts {
  std::function<std::optional<std::string_view>(IssueIndex issue)> find; // the part of an earlier time
  std::function<void(IssueIndex issue, std::string_view part)> keep;     // called for each issue, in their order
};
[[nodiscard]] std::string reader_index(const Site& site, const IndexParts& parts = {});

} // namespace coeval
