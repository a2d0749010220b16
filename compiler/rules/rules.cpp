#include "rules/rules.hpp"

#include <array>

#include "rules/rule_list.hpp"
#include "threads/share_out.hpp"

namespace coeval {

void check_data(const RuleInput& input, Diagnostics& out) {
  static constexpr std::array<DataRule, 10> rules{check_basis_has_source, check_timing_is_complete,
                                                  check_features,         check_feature_entries,
                                                  check_pictures,         check_slots,
                                                  check_pairings,         check_outfits,
                                                  check_sources_are_used, check_mark_numbers};
  // The rules look at the same entries and at nothing of each other; what they report is kept in their order.
  std::array<Diagnostics, rules.size()> found;
  constexpr std::size_t many = 10'000; // entries; below that a thread takes longer to start than the rules take
  const std::size_t worth_a_thread = input.kb.entries.entries.size() < many ? rules.size() : 1;
  share_out(rules.size(), worth_a_thread, [&](std::size_t i) { rules[i](input, found[i]); });
  for (Diagnostics& of_one : found) out.merge(std::move(of_one));
}

void check_consistency(const RuleInput& input, const Chronology& chronology, Diagnostics& out) {
  check_contradictions(input, chronology, out);
}

void check_answers(const RuleInput& input, const Chronology& chronology, Diagnostics& out) {
  static constexpr std::array<AnswerRule, 3> rules{check_claims, check_pairings_have_routes, check_indistinguishable};
  for (const AnswerRule rule : rules) rule(input, chronology, out);
}

} // namespace coeval
