// A comment for a review. Forges read more than CommonMark in a text (names of people, numbers of issues, addresses),
// but not in code spans: all that a curator wrote stands in those, on one line each.
#include <algorithm>

#include <fmt/format.h>

#include "drift/telling.hpp"
#include "report/drift.hpp"
#include "report/drift_parts.hpp"

namespace coeval {
namespace {

constexpr std::size_t most_markdown_rows = 20;       // of one list
constexpr std::size_t most_quoted_in_markdown = 300; // bytes of what a curator wrote, in one place

// A code span (CommonMark 0.30, 6.1): fenced by more backticks than it holds in a row, on one line, and with a space at
// each end so that a backtick there belongs to the text.
std::string code(std::string_view written) {
  const std::string text = printable(shortened(written, most_quoted_in_markdown));
  std::size_t longest = 0;
  std::size_t run = 0;
  for (const char c : text) {
    run = c == '`' ? run + 1 : 0;
    longest = std::max(longest, run);
  }
  const std::string fence(longest + 1, '`');
  const std::string pad =
      text.empty() || text.starts_with('`') || text.ends_with('`') || text.starts_with(' ') ? " " : "";
  return fence + pad + text + pad + fence;
}

std::string in_markdown(const Sentence& sentence) {
  std::string text;
  for (const Phrase& phrase : sentence) text += phrase.written ? code(phrase.text) : phrase.text;
  return text;
}

class MarkdownTeller {
public:
  MarkdownTeller(const DriftReport& report, std::size_t most) : report_(report), drift_(report.drift), most_(most) {}

  std::string tell_all() {
    add("### What changed from " + side(report_.from) + " to " + side(report_.to) + "\n\n" + totals(drift_) + ".\n");
    for (const ContradictionChange& change : drift_.contradictions) tell_contradiction(change);
    for (const CausedChanges& group : drift_.causes) tell_cause(group);
    tell_pieces("New", drift_.arrived);
    tell_pieces("Gone", drift_.gone);
    std::string renames;
    rows(renames, drift_.renames, [](const Rename& rename) {
      return fmt::format("{} {}, now {}", spec_of(rename.kind).name, code(rename.from), code(rename.to));
    });
    if (!renames.empty()) add("\n**Perhaps renamed**\n\n" + renames);
    const std::vector<EditIndex> others = other_edits(drift_);
    std::string edits;
    rows(edits, others, [&](EditIndex index) { return edit_line(index); });
    if (!edits.empty())
      add((drift_.answers_compared ? "\n**Other edits**, which change none of these answers\n\n" : "\n**Edits**\n\n") +
          edits);
    if (left_out_ > 0)
      text_ += fmt::format("\n{} of this report left out: it would be too long here.\n",
                           left_out_ == 1 ? "1 part is" : fmt::format("{} parts are", left_out_));
    return std::move(text_);
  }

private:
  // A part is shown whole or not at all; room is kept for the line that counts what is left out.
  void add(const std::string& part) {
    constexpr std::size_t last_line = 100;
    if (left_out_ > 0 || text_.size() + part.size() + last_line > most_)
      ++left_out_;
    else
      text_ += part;
  }

  static std::string side(const DriftSide& side) {
    return code(side.name) + (side.day.empty() ? "" : " (" + side.day + ")");
  }

  template <class List, class Tell> static void rows(std::string& text, const List& list, const Tell& tell) {
    std::size_t shown = 0;
    for (const auto& item : list) {
      if (shown++ == most_markdown_rows) {
        text += fmt::format("- and {} more\n", list.size() - most_markdown_rows);
        return;
      }
      text += "- " + tell(item) + "\n";
    }
  }

  std::string edit_line(EditIndex index) const {
    const Edit& edit = drift_.edits[static_cast<std::size_t>(index)];
    return in_markdown(tell(edit)) + " (" + backing(edit) + ")";
  }

  std::string backing(const Edit& edit) const {
    std::string words{edit.basis ? name(*edit.basis) : ""};
    for (const std::string& citation : edit.citations) words += (words.empty() ? "" : ", ") + code(citation);
    if (!words.empty()) words += ", ";
    const std::string place = file_and_line(sources_of(report_, edit), edit.place);
    const bool old = edit.after == no_entry;
    return words + (old ? "was in " : "") + code(place);
  }

  void tell_cause(const CausedChanges& group) {
    std::string part = fmt::format("\n**{} changed** because\n\n", counted(group.changes));
    rows(part, group.cause.edits, [&](EditIndex index) { return edit_line(index); });
    if (const std::string doubt = certainty_words(group.cause.certainty); !doubt.empty()) part += "\n" + doubt + "\n";
    for (const VerdictTransition& transition : by_transition(group.changes.verdicts)) {
      part += fmt::format("\n{}:\n\n", transition.words);
      rows(part, transition.changes, [](const ChangedVerdict* change) {
        const std::string more = detail(*change);
        return code(change->question.run) + " with " + code(change->question.issue) + (more.empty() ? "" : ": ") + more;
      });
    }
    if (!group.changes.bounds.empty()) part += "\nBounds:\n\n";
    rows(part, group.changes.bounds, [&](const BoundChange& change) { return tell(change, report_.to.version.kb); });
    if (!group.changes.claims.empty()) part += "\nClaims:\n\n";
    rows(part, group.changes.claims, [](const ClaimChange& change) { return tell(change); });
    add(part);
  }

  void tell_pieces(std::string_view words, const std::vector<LonePiece>& pieces) {
    std::string list;
    rows(list, pieces, [&](const LonePiece& piece) {
      const Edit* edit = edit_of(drift_, piece);
      return fmt::format("{} {}; verdicts: {}{}", spec_of(piece.kind).name, code(piece.address),
                         counted_verdicts(piece), edit == nullptr ? "" : " (" + backing(*edit) + ")");
    });
    if (!list.empty()) add(fmt::format("\n**{}**\n\n{}", words, list));
  }

  void tell_contradiction(const ContradictionChange& change) {
    std::string part = change.came ? "\n**A contradiction came**: these statements cannot all be true\n\n"
                                   : "\n**A contradiction is gone**: these statements could not all be true\n\n";
    const SourceSet& sources = change.came ? report_.to.version.sources : report_.from.version.sources;
    rows(part, change.reasons, [&](const Reason& reason) {
      std::string line = code(reason.statement) + " (" + std::string{name(reason.basis)};
      for (const std::string& citation : reason.sources) line += ", " + code(citation);
      return line + ", " + code(file_and_line(sources, reason.place)) + ")" +
             (reason.weakest ? " – doubt this one first" : "");
    });
    add(part);
  }

  const DriftReport& report_;
  const Drift& drift_;
  std::size_t most_;
  std::size_t left_out_ = 0;
  std::string text_;
};

} // namespace

std::string drift_markdown(const DriftReport& report, std::size_t most) {
  return MarkdownTeller{report, most}.tell_all();
}

} // namespace coeval
