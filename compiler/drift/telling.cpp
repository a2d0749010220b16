#include "drift/telling.hpp"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "diagnose/near.hpp"

namespace coeval {
namespace {

std::string gap_of(const VerdictAnswer& answer) {
  Judgement judgement;
  judgement.verdict = answer.verdict;
  judgement.gap = answer.gap;
  return gap_words(judgement);
}

std::string_view words_of(const std::optional<Basis>& basis) { return basis ? name(*basis) : "no"; }

std::string bound_words(const BoundAnswer& answer, Side side) {
  if (!answer.day) return side == Side::earliest ? "at no known earliest day" : "at no known latest day";
  return fmt::format("no {} than {}", side == Side::earliest ? "earlier" : "later", iso(*answer.day));
}

std::string_view evidence_words(ClaimEvidence evidence) {
  switch (evidence) {
  case ClaimEvidence::unstated:
    return "nothing that can be checked is stated";
  case ClaimEvidence::ruled_out:
    return "the evidence rules it out";
  case ClaimEvidence::possible:
    return "the evidence leaves it open";
  case ClaimEvidence::proven:
    return "the evidence proves it";
  }
  return {};
}

} // namespace

std::string text_of(const Sentence& sentence) {
  std::string text;
  for (const Phrase& phrase : sentence) text += phrase.text;
  return text;
}

std::string shortened(std::string_view text, std::size_t most) {
  std::size_t end = 0;
  while (end < text.size()) {
    const std::size_t size = code_point_size(text.substr(end));
    if (end + size > most) return std::string{text.substr(0, end)} + "…";
    end += size;
  }
  return std::string{text};
}

Sentence tell(const Edit& edit) {
  const std::string table{spec_of(edit.table).name};
  Sentence sentence;
  const auto say = [&](std::string text) { sentence.push_back({std::move(text), false}); };
  const auto quote = [&](std::string text) { sentence.push_back({std::move(text), true}); };
  if (!edit.key.empty()) {
    quote(edit.address);
    say(": " + edit.key);
    if (edit.kind == EditKind::added) {
      say(" is new: ");
      quote(edit.is);
    } else if (edit.kind == EditKind::removed) {
      say(" was taken out; it was ");
      quote(edit.was);
    } else {
      say(" was ");
      quote(edit.was);
      say(", is ");
      quote(edit.is);
    }
    return sentence;
  }
  const bool named = spec_of(edit.table).has_id();
  if (named) say(table + " ");
  quote(edit.address);
  if (!named) say(": " + (edit.kind == EditKind::edited ? "the " + table : with_article(table)));
  switch (edit.kind) {
  case EditKind::added:
    say(edit.is.empty() ? " is new" : " is new: ");
    break;
  case EditKind::removed:
    say(edit.was.empty() ? " was taken out" : " was taken out: ");
    break;
  case EditKind::edited:
    say(" was ");
    break;
  }
  if (!edit.was.empty()) quote(edit.was);
  if (edit.kind == EditKind::edited) say(", is ");
  if (!edit.is.empty()) quote(edit.is);
  return sentence;
}

std::string transition(const ChangedVerdict& change) {
  if (change.before.verdict != change.after.verdict)
    return fmt::format("{}, now {}", name(change.before.verdict), name(change.after.verdict));
  if (change.before.basis != change.after.basis)
    return fmt::format("{} as before, now on {} evidence, not {}", name(change.after.verdict),
                       words_of(change.after.basis), words_of(change.before.basis));
  return fmt::format("{} as before, by another gap", name(change.after.verdict));
}

std::string detail(const ChangedVerdict& change) {
  const std::string is = gap_of(change.after);
  const std::string was = gap_of(change.before);
  if (change.before.verdict != change.after.verdict || is == was || was.empty()) return is;
  return is.empty() ? "was " + was : fmt::format("{}; was {}", is, was);
}

std::string tell(const BoundChange& change, const LinkedKb& kb) {
  const BoundQuestion& asked = change.question;
  const auto span = find_span(kb, asked.span);
  const std::string what = span ? happened(kb, {*span, asked.end}) : asked.span;
  const std::string was = bound_words(change.before, asked.side);
  if (change.before.day == change.after.day)
    return fmt::format("{} {} as before, now on {} evidence, not {}", what, was, words_of(change.after.basis),
                       words_of(change.before.basis));
  return fmt::format("{} {}, now {}", what, was, bound_words(change.after, asked.side));
}

std::string tell(const ClaimChange& change) {
  const ClaimState& was = change.before;
  const ClaimState& is = change.after;
  const std::string called = was.standing == is.standing
                                 ? fmt::format("called {} as before", name(is.standing))
                                 : fmt::format("called {}, now {}", name(was.standing), name(is.standing));
  const std::string found = was.evidence == is.evidence
                                ? fmt::format("{} as before", evidence_words(is.evidence))
                                : fmt::format("{}, now {}", evidence_words(was.evidence), evidence_words(is.evidence));
  return fmt::format("{} {}; {}", change.question.claim, called, found);
}

std::string counted_verdicts(const LonePiece& piece) {
  std::string text;
  for (std::size_t i = 0; i < verdict_count; ++i)
    if (piece.verdicts[i] > 0)
      text += fmt::format("{}{} {}", text.empty() ? "" : ", ", name(Verdict{static_cast<std::uint8_t>(i)}),
                          piece.verdicts[i]);
  return text.empty() ? "none" : text;
}

std::string totals(const Drift& drift) {
  if (drift.nothing()) return "nothing changed";
  const std::string edits = counted(drift.edits.size(), "edit");
  if (!drift.answers_compared) return edits + "; answers cannot be compared while a version contradicts itself";
  return fmt::format("{}; {} of {} changed", edits, drift.changed_verdicts(),
                     counted(drift.verdicts_compared, "verdict"));
}

std::string counted(const AnswerChanges& changes) {
  std::vector<std::string> parts;
  if (!changes.verdicts.empty()) parts.push_back(counted(changes.verdicts.size(), "verdict"));
  if (!changes.bounds.empty()) parts.push_back(counted(changes.bounds.size(), "bound"));
  if (!changes.claims.empty()) parts.push_back(counted(changes.claims.size(), "claim"));
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i)
    text += (i == 0 ? "" : i + 1 == parts.size() ? " and " : ", ") + parts[i];
  return text;
}

std::vector<EditIndex> other_edits(const Drift& drift) {
  std::set<EditIndex> told;
  for (const CausedChanges& group : drift.causes) told.insert(group.cause.edits.begin(), group.cause.edits.end());
  std::set<std::string_view> pieces;
  for (const auto* list : {&drift.arrived, &drift.gone})
    for (const LonePiece& piece : *list) pieces.insert(piece.address);
  std::vector<EditIndex> others;
  for (std::size_t i = 0; i < drift.edits.size(); ++i) {
    const EditIndex index{static_cast<std::uint32_t>(i)};
    if (!told.contains(index) && !pieces.contains(drift.edits[i].address)) others.push_back(index);
  }
  return others;
}

const Edit* edit_of(const Drift& drift, const LonePiece& piece) {
  const auto found = std::ranges::find_if(drift.edits, [&](const Edit& edit) {
    return edit.key.empty() && edit.table == piece.kind && edit.address == piece.address;
  });
  return found == drift.edits.end() ? nullptr : &*found;
}

std::vector<VerdictTransition> by_transition(const std::vector<ChangedVerdict>& changes) {
  std::map<std::string, std::vector<const ChangedVerdict*>> sorted;
  for (const ChangedVerdict& change : changes) sorted[transition(change)].push_back(&change);
  std::vector<VerdictTransition> list;
  for (auto& [words, of_words] : sorted) list.push_back({words, std::move(of_words)});
  std::ranges::stable_sort(list, std::greater{}, [](const VerdictTransition& one) { return one.changes.size(); });
  return list;
}

} // namespace coeval
