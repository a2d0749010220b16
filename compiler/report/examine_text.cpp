#include <algorithm>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "examine/words.hpp"
#include "report/examine.hpp"
#include "report/text_parts.hpp"

namespace coeval {
namespace {

constexpr std::size_t most_listed = 20; // candidates in a list for a person; JSON has them all

std::string_view address(const FeatureTable& table, std::size_t candidate) {
  return address_of(*table.kb, table.candidates[candidate]);
}

std::string cautions_text(TextStyle style) {
  std::string text = "\n";
  for (const std::string_view caution : cautions()) text += wrap(caution, 0, style) + "\n";
  return text;
}

// "top=plain: it is ring; vents=6: it is 4; made at least 6 years before mark/ce-toy": what excludes a candidate.
std::string why_excluded(const FeatureTable& table, const std::vector<Observation>& seen, const MarksFound& marks,
                         const Outcome& outcome, std::size_t candidate) {
  std::string text;
  for (const std::size_t i : members(outcome.stands[candidate].excludes))
    text += fmt::format("{}{}: it is {}", text.empty() ? "" : "; ", printable(seen[i].text),
                        printable(stated_of(table, candidate, seen[i])));
  if (!marks.rulings.empty() && marks.rulings[candidate])
    text += (text.empty() ? "" : "; ") + ruling_words(*table.kb, *marks.rulings[candidate]);
  return text;
}

// Each mark, how it stands to the claimed run, and why; then what marks do not prove.
std::string marks_table(const ReportInput& input, const MarksFound& found, TextStyle style) {
  if (found.marks.empty()) return {};
  std::string text = "\nmarks\n";
  std::vector<Reason> reasons;
  for (std::size_t i = 0; i < found.marks.size(); ++i) {
    const std::string mark = carried_words(input.kb, found.marks[i]);
    const Entry& entry = input.kb.entries[input.kb.marks[at(found.marks[i].mark)].entry];
    const std::optional<MarkRuling> ruling = found.of_claimed.empty() ? std::nullopt : found.of_claimed[i];
    const std::string_view stands = found.of_claimed.empty() ? ""
                                    : ruling                 ? " excludes it: the run was "
                                                             : " does not exclude it";
    text += "  " + wrap(fmt::format("{}{}{}", mark, stands, ruling ? ruling_words(input.kb, *ruling) : ""), 4, style) +
            "\n";
    if (const std::string_view caution = entry.text("caution"); !caution.empty())
      text += "    caution: " + wrap(caution, 13, style) + "\n";
    if (ruling)
      for (const Reason& reason : ruling->proof) tell_once(reasons, reason);
  }
  if (!reasons.empty()) text += "\nbecause\n" + render_reasons(reasons, input.sources, style);
  return text;
}

// Addresses with something behind each, in columns; long lists are cut.
template <class Words>
std::string listed(const FeatureTable& table, const std::vector<std::size_t>& candidates, const Words& words,
                   TextStyle style) {
  const std::size_t count = std::min(candidates.size(), most_listed);
  std::size_t width = 0;
  for (std::size_t i = 0; i < count; ++i) width = std::max(width, address(table, candidates[i]).size());
  width = std::min(width, columns(style) / 2);
  std::string text;
  for (std::size_t i = 0; i < count; ++i) {
    const std::string_view name = address(table, candidates[i]);
    const std::size_t indent = std::max(width, name.size()) + 4;
    text += trimmed(fmt::format("  {:<{}}  {}", name, width, wrap(words(candidates[i]), indent, style)));
  }
  if (candidates.size() > count) text += fmt::format("  and {} more\n", candidates.size() - count);
  return text;
}

std::string what_it_is(const FeatureTable& table, std::size_t candidate) {
  return candidate_words(*table.kb, table.candidates[candidate]);
}

std::string who(LookBy by) {
  switch (by) {
  case LookBy::photograph:
    return "a photograph shows it";
  case LookBy::measurement:
    return "a seller can measure it";
  case LookBy::in_hand:
    return "in the hand only";
  }
  return {};
}

std::string minutes(double number) {
  return fmt::format("{} {}", number_words(number), number == 1 ? "minute" : "minutes");
}

std::string next_looks(const FeatureTable& table, const std::vector<Look>& looks, TextStyle style) {
  if (looks.empty()) return {};
  std::string text = "\nnext looks, the most telling for the effort first\n";
  for (const Look& look : looks) {
    const Feature& feature = table.feature(at(look.feature));
    text += trimmed(fmt::format(
        "  {:<16} {}", feature.id,
        wrap(fmt::format("{} ({:.2f} bits, {}, {})", feature.name, look.bits, minutes(look.effort), who(feature.by)),
             19, style)));
    text += fmt::format("    {}\n", wrap(how_to_look(*table.kb, feature), 4, style));
    if (const std::string_view caution = table.kb->entries[feature.entry].text("caution"); !caution.empty())
      text += fmt::format("    caution: {}\n", wrap(caution, 13, style));
  }
  return text;
}

std::string claim_line(const FeatureTable& table, std::size_t claimed) {
  const LinkedKb& kb = *table.kb;
  const std::string_view name = kb.accessories[at(accessory_of(kb, table.candidates[claimed]))].name;
  return fmt::format("{}, offered as {}", name, address(table, claimed));
}

std::string belonging(const ReportInput& input, const Judgement& judgement, TextStyle style) {
  const std::string gap = gap_words(judgement);
  const std::string line =
      fmt::format("{} with {}{}{}; `coeval belongs {} {}` says why", name(judgement.verdict),
                  input.kb.issues[at(judgement.issue)].address, gap.empty() ? "" : ": ", gap,
                  input.kb.runs[at(judgement.run)].address, input.kb.issues[at(judgement.issue)].address);
  return "\nas a run it is  " + wrap(line, 16, style) + "\n";
}

std::string seen_table(const FeatureTable& table, const std::vector<Observation>& seen, const Stand& stand,
                       std::size_t claimed, TextStyle style) {
  if (seen.empty()) return "\nnothing was looked at yet\n";
  std::size_t width = 0;
  for (const Observation& observation : seen) width = std::max(width, printable(observation.text).size());
  width = std::min(width, columns(style) / 2);
  std::string text = "\nseen\n";
  for (std::size_t i = 0; i < seen.size(); ++i) {
    const std::string stated = stated_of(table, claimed, seen[i]);
    const std::string words = stated.empty() ? "the claimed run states nothing of it"
                                             : fmt::format("{}: it is {}", stand_words(stand, i), printable(stated));
    text += trimmed(fmt::format("  {:<{}}  {}", printable(seen[i].text), width, wrap(words, width + 4, style)));
  }
  return text;
}

void add_requests(std::string& text, const AskReport& report, const std::vector<Request>& requests, TextStyle style,
                  std::size_t& number) {
  const FeatureTable& table = report.table;
  const auto addresses = [&](const std::vector<std::size_t>& list) {
    std::string joined;
    for (std::size_t i = 0; i < list.size() && i < most_listed; ++i)
      joined.append(i == 0 ? "" : ", ").append(address(table, list[i]));
    if (list.size() > most_listed) joined += fmt::format(" and {} more", list.size() - most_listed);
    return joined;
  };
  for (const Request& request : requests) {
    const Feature& feature = table.feature(at(request.feature));
    const Stated* stated = table.candidates[report.claimed].find(request.feature);
    std::string words = fmt::format("{}: it should be {}", feature.id,
                                    stated == nullptr ? "anything" : printable(stated_words(*table.kb, *stated)));
    if (!request.rules_out.empty()) words += fmt::format("; then it is not {}", addresses(request.rules_out));
    if (!request.may_rule_out.empty())
      words += fmt::format("; it may also rule out {}", addresses(request.may_rule_out));
    text += fmt::format("  {}. {}\n", number, wrap(words, number < 10 ? 5 : 6, style));
    ++number;
  }
}

// How the message to a seller asks for one look.
std::string asked(const LinkedKb& kb, const Feature& feature) {
  const std::string how = how_to_look(kb, feature);
  return feature.by == LookBy::photograph ? fmt::format("A photograph for this: {}. {}", feature.name, how)
                                          : fmt::format("{}, in {}. {}", feature.name, feature.unit, how);
}

void key_branches(std::string& text, const KeyReport& report, std::vector<std::size_t>& numbers, TextStyle style) {
  const FeatureTable& table = report.table;
  for (std::size_t i = 0; i < report.key.nodes.size(); ++i) {
    const KeyNode& node = report.key.nodes[i];
    if (!node.look) continue;
    const Feature& feature = table.feature(at(*node.look));
    const std::string head = fmt::format("{}. ", numbers[i]);
    text += "\n" + head + wrap(fmt::format("{} ({})", feature.name, feature.id), head.size(), style) + "\n";
    std::size_t width = 0;
    for (const KeyBranch& branch : node.branches) width = std::max(width, printable(branch.words).size());
    width = std::min(width, columns(style) / 2);
    for (const KeyBranch& branch : node.branches) {
      const KeyNode& next = report.key.nodes[branch.node];
      std::string leads;
      if (next.look) {
        leads = fmt::format("go to {}", numbers[branch.node]);
      } else {
        for (const std::size_t candidate : next.candidates)
          leads += fmt::format("{}{}{}", leads.empty() ? "" : " or ", address(table, candidate),
                               table.candidates[candidate].original() ? "" : " (reproduction)");
      }
      const std::string words = printable(branch.words);
      const std::size_t indent = std::max(width, words.size()) + 6;
      text += trimmed(fmt::format("   {:<{}}   {}", words, width, wrap(leads, indent, style)));
    }
  }
}

} // namespace

std::string identify_text(const ReportInput& input, const IdentifyReport& report, TextStyle style) {
  const FeatureTable& table = report.table;
  const Outcome& outcome = report.outcome;
  std::string text;
  switch (outcome.remaining) {
  case Remaining::originals:
    text = toned("CONSISTENT WITH AN ORIGINAL", Tone::yes, style);
    break;
  case Remaining::reproductions:
    text = toned("ONLY REPRODUCTIONS FIT", Tone::no, style);
    break;
  case Remaining::mixed:
    text = toned("UNDECIDED: ORIGINALS AND REPRODUCTIONS FIT", Tone::open, style);
    break;
  case Remaining::nothing:
    text = toned("NOTHING THAT IS ENTERED FITS", Tone::no, style);
    break;
  }
  text += fmt::format("   {}\n{} of {} left\n", report.of.empty() ? "of all accessories" : report.of,
                      outcome.left.size(), table.size());
  const auto left_words = [&](std::size_t c) {
    const bool silent = !report.seen.empty() && outcome.stands[c].agrees == 0 && outcome.stands[c].undecided == 0;
    return what_it_is(table, c) + (silent ? ", states nothing of what was seen" : "");
  };
  if (!outcome.left.empty()) text += "\nleft\n" + listed(table, most_agreeing_first(outcome), left_words, style);
  if (!outcome.nearest.empty()) {
    text += "\nnearest\n" +
            listed(
                table, outcome.nearest,
                [&](std::size_t c) { return why_excluded(table, report.seen, report.marks, outcome, c); }, style);
    std::string again;
    for (const std::size_t i : outcome.recheck)
      again += fmt::format("{}{}", again.empty() ? "" : ", ", printable(report.seen[i].text));
    for (const CarriedMark& mark : report.marks.marks)
      again += (again.empty() ? "" : ", ") + carried_words(input.kb, mark);
    text += "\nlook again at    " + wrap(again, 17, style) + "\n";
  } else {
    std::vector<std::size_t> excluded;
    for (std::size_t c = 0; c < table.size(); ++c)
      if (outcome.stands[c].out()) excluded.push_back(c);
    if (!excluded.empty())
      text += "\nexcluded\n" +
              listed(
                  table, excluded,
                  [&](std::size_t c) { return why_excluded(table, report.seen, report.marks, outcome, c); }, style);
  }
  text += marks_table(input, report.marks, style);
  text += next_looks(table, outcome.next, style);
  if (outcome.left.size() > 1 && outcome.next.empty())
    text += "\nno further look that is entered, and harms nothing, tells these apart\n";
  return text + cautions_text(style);
}

std::string examine_text(const ReportInput& input, const ExamineReport& report, TextStyle style) {
  const FeatureTable& table = report.table;
  const Conclusion& conclusion = report.conclusion;
  std::string text;
  std::string second;
  switch (conclusion.answer) {
  case ClaimAnswer::consistent:
    text = toned("CONSISTENT", Tone::yes, style);
    second = "all that was seen is consistent with it, and no other candidate is left that a look could tell from it";
    if (lacks_reproductions(table)) second += "; but no reproduction is entered, so none was ruled out";
    break;
  case ClaimAnswer::excluded:
    text = toned("NOT IT", Tone::no, style);
    second = "what was seen rules it out";
    break;
  case ClaimAnswer::undecided:
    text = toned("UNDECIDED", Tone::open, style);
    second = report.seen.empty() && report.marks.marks.empty()
                 ? "nothing was looked at yet"
                 : "what was seen does not tell it from what else is left";
    break;
  }
  text += "   " + claim_line(table, report.claimed) + "\n" + wrap(second, 0, style) + "\n";
  if (!report.seen.empty() || report.marks.marks.empty())
    text += seen_table(table, report.seen, report.outcome.stands[report.claimed], report.claimed, style);
  text += marks_table(input, report.marks, style);
  const auto what = [&](std::size_t c) { return what_it_is(table, c); };
  if (conclusion.answer == ClaimAnswer::excluded) {
    if (!report.outcome.left.empty()) text += "\nwhat fits instead\n" + listed(table, report.outcome.left, what, style);
    if (!report.outcome.nearest.empty())
      text +=
          "\nnothing that is entered fits; nearest\n" +
          listed(
              table, report.outcome.nearest,
              [&](std::size_t c) { return why_excluded(table, report.seen, report.marks, report.outcome, c); }, style);
  } else {
    if (!conclusion.others.empty()) text += "\nit could also be\n" + listed(table, conclusion.others, what, style);
    if (!conclusion.alike.empty())
      text += "\nno look that is entered is sure to tell it from\n" + listed(table, conclusion.alike, what, style);
    text += next_looks(table, report.outcome.next, style);
  }
  if (report.with) text += belonging(input, *report.with, style);
  return text + cautions_text(style);
}

std::string ask_text(const ReportInput& input, const AskReport& report, TextStyle style) {
  const FeatureTable& table = report.table;
  const LinkedKb& kb = *table.kb;
  const Requests& requests = report.requests;
  std::string text = claim_line(table, report.claimed) + "\n";
  if (report.with) text += belonging(input, *report.with, style);
  if (report.excluded) {
    return text + "\nwhat is known already rules it out; `coeval examine` with the same says why\n" +
           cautions_text(style);
  }
  if (!requests.of_seller.empty()) {
    text += "\nmessage to the seller\n\n";
    text += wrap(fmt::format("Hello, before I decide about the {}, could you please send me the following? Please do "
                             "not clean, scrape or heat anything for it.",
                             kb.accessories[at(accessory_of(kb, table.candidates[report.claimed]))].name),
                 0, style) +
            "\n\n";
    for (std::size_t i = 0; i < requests.of_seller.size(); ++i) {
      const Feature& feature = table.feature(at(requests.of_seller[i].feature));
      const std::string head = fmt::format("{}. ", i + 1);
      text += head + wrap(asked(kb, feature), head.size(), style) + "\n";
      if (const std::string_view caution = kb.entries[feature.entry].text("caution"); !caution.empty())
        text += std::string(head.size(), ' ') + wrap(fmt::format("Careful: {}", caution), head.size(), style) + "\n";
    }
    text += "\nThank you.\n";
  }
  std::size_t number = 1;
  if (!requests.of_seller.empty()) {
    text += "\nfor yourself: what the answers decide\n";
    add_requests(text, report, requests.of_seller, style, number);
  }
  if (!requests.in_hand.empty()) {
    text += "\nonly with the part in the hand\n";
    add_requests(text, report, requests.in_hand, style, number);
  }
  if (requests.others.empty())
    text += "\nnothing else that is entered could be it: there is nothing to ask\n";
  else if (!requests.after_all.empty())
    text += "\nwhat no answer rules out for sure\n" +
            listed(
                table, requests.after_all, [&](std::size_t c) { return what_it_is(table, c); }, style);
  return text + cautions_text(style);
}

std::string key_text(const ReportInput& /*input*/, const KeyReport& report, TextStyle style) {
  const Key& key = report.key;
  std::string text = fmt::format("key to {}: {} candidates\n", report.of, report.table.size());
  if (key.nodes.empty()) return text;
  text += wrap(fmt::format("{:.2f} looks and {:.1f} minutes on average; {}", key.expected_steps, key.expected_minutes,
                           key.optimal ? "every order was tried, and none takes less time on average"
                                       : "each time the most telling look for its effort, not every order was tried"),
               0, style) +
          "\n";
  text += wrap(fmt::format("no key could do with less than {:.2f} looks or {:.1f} minutes for as many candidates, "
                           "however well the looks divided them",
                           key.least_steps, key.least_minutes),
               0, style) +
          "\n";
  if (!key.complete) text += "cut short: ask about one accessory at a time for the rest\n";
  std::vector<std::size_t> numbers(key.nodes.size(), 0);
  std::size_t number = 0;
  for (std::size_t i = 0; i < key.nodes.size(); ++i)
    if (key.nodes[i].look) numbers[i] = ++number;
  key_branches(text, report, numbers, style);
  if (number == 0) text += "\nno look that is entered, and harms nothing, tells them apart\n";
  return text + cautions_text(style);
}

} // namespace coeval
