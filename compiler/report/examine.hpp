// report/examine.hpp: how is told what a part can be, how to find out, and what to ask?
//
// The values are those of the room examine; nothing is concluded here. Texts that name a fit say what the looks are
// consistent with, never that a part is authentic, and end with the cautions.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "examine/ask.hpp"
#include "examine/examine.hpp"
#include "examine/key.hpp"
#include "report/answers.hpp"
#include "verdicts/marks.hpp"

namespace coeval {

// What every answer about a part that somebody holds or buys has to say.
[[nodiscard]] const std::array<std::string_view, 3>& cautions();

// The marks that a part carries, and the runs that it cannot be of for them. A reproduction can carry any mark.
struct MarksFound {
  std::vector<CarriedMark> marks;
  std::vector<std::optional<MarkRuling>> rulings;    // by candidate, without proof; empty where there is no mark
  std::vector<std::optional<MarkRuling>> of_claimed; // by mark, with proof; empty where nothing is claimed
};

// Which run or reproduction is it?
struct IdentifyReport {
  const FeatureTable& table;
  std::string of; // the id of the accessory, "slot hand", or empty: any accessory
  std::vector<Observation> seen;
  Outcome outcome;
  MarksFound marks = {};
};
[[nodiscard]] std::string identify_text(const ReportInput& input, const IdentifyReport& report, TextStyle style);
[[nodiscard]] std::string identify_json(const ReportInput& input, const IdentifyReport& report);

struct KeyReport {
  const FeatureTable& table;
  std::string of; // "signal-lantern", "slot hand"
  Key key;
};
[[nodiscard]] std::string key_text(const ReportInput& input, const KeyReport& report, TextStyle style);
[[nodiscard]] std::string key_json(const ReportInput& input, const KeyReport& report);

// Is the part what it is offered as?
struct ExamineReport {
  const FeatureTable& table;
  std::size_t claimed = 0;
  std::vector<Observation> seen;
  Outcome outcome;
  Conclusion conclusion;
  std::optional<Judgement> with; // whether what is claimed belongs with the issue it is offered for
  MarksFound marks = {};
};
[[nodiscard]] std::string examine_text(const ReportInput& input, const ExamineReport& report, TextStyle style);
[[nodiscard]] std::string examine_json(const ReportInput& input, const ExamineReport& report);

struct AskReport {
  const FeatureTable& table;
  std::size_t claimed = 0;
  std::vector<Observation> seen;
  Requests requests;
  bool excluded = false; // what is known already rules the claim out
  std::optional<Judgement> with;
};
[[nodiscard]] std::string ask_text(const ReportInput& input, const AskReport& report, TextStyle style);
[[nodiscard]] std::string ask_json(const ReportInput& input, const AskReport& report);

// A page to print on one sheet of A4 and send to somebody who knows better: what is claimed, seen and concluded, why,
// and what is open. One HTML document that needs nothing else.
[[nodiscard]] std::string second_opinion_sheet(const ReportInput& input, const ExamineReport& report);

// "reproduction of signal-lantern/ring-top/brass", "run".
[[nodiscard]] std::string candidate_words(const LinkedKb& kb, const Candidate& candidate);
// What the candidate states of the observation's feature; empty where it states nothing.
[[nodiscard]] std::string stated_of(const FeatureTable& table, std::size_t candidate, const Observation& seen);
// How an observation stands to a candidate: "agrees", "excludes", "too rough to decide", "not stated".
[[nodiscard]] std::string_view stand_words(const Stand& stand, std::size_t observation);
// What is left, the candidates with which most observations agree first: one that states nothing of what was seen is
// left too, and says little.
[[nodiscard]] std::vector<std::size_t> most_agreeing_first(const Outcome& outcome);
// No reproduction is entered that could have been ruled out.
[[nodiscard]] bool lacks_reproductions(const FeatureTable& table);
// How to look, as the curator wrote it; what it takes where nothing is written.
[[nodiscard]] std::string how_to_look(const LinkedKb& kb, const Feature& feature);

} // namespace coeval
