// rules/rules.hpp: does the knowledge base keep the rules of its data?
//
// One file per rule: the check and why it exists. To add one: its file, its row in rules.cpp, its code in the
// catalogue.
#pragma once

#include <span>

#include "diagnose/diagnostic.hpp"
#include "verdicts/judge.hpp"

namespace coeval {

struct RuleInput {
  const LinkedKb& kb;
  const SourceSet& sources;
  bool complete = true; // every file was read; where not, a rule must not conclude from something missing
};

// A rule that needs nothing but the linked entries.
using DataRule = void (*)(const RuleInput&, Diagnostics&);
// A rule that compares what entries say with what the chronology and the verdicts prove.
using AnswerRule = void (*)(const RuleInput&, const Chronology&, Diagnostics&);

// Everything that linked entries alone can tell.
void check_data(const RuleInput& input, Diagnostics& out);
// Statements that cannot all be true: what every question needs to know.
void check_consistency(const RuleInput& input, const Chronology& chronology, Diagnostics& out);
// What entries say beside what follows from the rest: claims, pairings without a route.
void check_answers(const RuleInput& input, const Chronology& chronology, Diagnostics& out);

} // namespace coeval
