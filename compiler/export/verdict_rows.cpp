#include "export/verdict_rows.hpp"

namespace coeval {

std::vector<VerdictRow> verdict_rows(const LinkedKb& kb, const Chronology& chronology) {
  std::vector<VerdictRow> rows;
  for (std::size_t i = 0; i < kb.issues.size(); ++i) {
    const IssueIndex issue{static_cast<std::uint32_t>(i)};
    Judge judge{kb, chronology, Basis::conjectured}; // for one issue, so that no more than its distances are kept
    const std::vector<Takes>& takes = kb.issues[i].takes;
    for (std::size_t taken = 0; taken < takes.size(); ++taken)
      for (const Judgement& judgement : judge.outfit(issue, takes[taken]))
        rows.push_back({issue, static_cast<std::uint32_t>(taken), judgement.run, judgement.verdict, judgement.basis,
                        judgement.gap});
  }
  return rows;
}

std::string gap_words(const VerdictRow& row) {
  Judgement judgement;
  judgement.verdict = row.verdict;
  judgement.gap = row.gap;
  return gap_words(judgement);
}

} // namespace coeval
