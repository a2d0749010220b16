// rules/rule_list.hpp: which rules are there? Private to this room.
#pragma once

#include "rules/rules.hpp"

namespace coeval {

void check_basis_has_source(const RuleInput& input, Diagnostics& out);
void check_timing_is_complete(const RuleInput& input, Diagnostics& out);
void check_features(const RuleInput& input, Diagnostics& out);
void check_feature_entries(const RuleInput& input, Diagnostics& out);
void check_pictures(const RuleInput& input, Diagnostics& out);
void check_slots(const RuleInput& input, Diagnostics& out);
void check_pairings(const RuleInput& input, Diagnostics& out);
void check_outfits(const RuleInput& input, Diagnostics& out);
void check_sources_are_used(const RuleInput& input, Diagnostics& out);
void check_mark_numbers(const RuleInput& input, Diagnostics& out);

void check_contradictions(const RuleInput& input, const Chronology& chronology, Diagnostics& out);
void check_claims(const RuleInput& input, const Chronology& chronology, Diagnostics& out);
void check_pairings_have_routes(const RuleInput& input, const Chronology& chronology, Diagnostics& out);
void check_indistinguishable(const RuleInput& input, const Chronology& chronology, Diagnostics& out);

} // namespace coeval
