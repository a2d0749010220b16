#include "rules/rules.hpp"

#include <array>

#include "rules/rule_list.hpp"

namespace coeval {

void check_data(const RuleInput& input, Diagnostics& out) {
  static constexpr std::array<DataRule, 10> rules{check_basis_has_source, check_timing_is_complete,
                                                  check_features,         check_feature_entries,
                                                  check_pictures,         check_slots,
                                                  check_pairings,         check_outfits,
                                                  check_sources_are_used, check_mark_numbers};
  for (const DataRule rule : rules) rule(input, out);
}

void check_consistency(const RuleInput& input, const Chronology& chronology, Diagnostics& out) {
  check_contradictions(input, chronology, out);
}

void check_answers(const RuleInput& input, const Chronology& chronology, Diagnostics& out) {
  static constexpr std::array<AnswerRule, 3> rules{check_claims, check_pairings_have_routes, check_indistinguishable};
  for (const AnswerRule rule : rules) rule(input, chronology, out);
}

} // namespace coeval
