#include <fmt/format.h>

#include "drift/telling.hpp"
#include "report/drift.hpp"
#include "report/drift_parts.hpp"

namespace coeval {
namespace {

constexpr std::size_t most_drift_rows = 12; // of one list
constexpr std::size_t most_quoted = 240;    // bytes of what a curator wrote, in one place

class DriftTeller {
public:
  DriftTeller(const DriftReport& report, TextStyle style) : report_(report), drift_(report.drift), style_(style) {}

  std::string tell_all() {
    text_ = wrap(fmt::format("from {} to {}", side_words(report_.from), side_words(report_.to)), 0, style_) + "\n";
    text_ += wrap(totals(drift_), 0, style_) + "\n";
    tell_contradictions();
    for (const CausedChanges& group : drift_.causes) tell_cause(group);
    tell_pieces("new", drift_.arrived);
    tell_pieces("gone", drift_.gone);
    if (!drift_.renames.empty()) head("perhaps renamed");
    rows(drift_.renames, 2, [](const Rename& rename) {
      return fmt::format("{} {}, now {}", spec_of(rename.kind).name, rename.from, rename.to);
    });
    const std::vector<EditIndex> others = other_edits(drift_);
    if (!others.empty()) head(drift_.answers_compared ? "other edits, which change none of these answers" : "edits");
    rows(others, 2, [&](EditIndex index) {
      const Edit& edit = edit_at(index);
      return said_in_one(edit) + " (" + place(edit) + ")";
    });
    return std::move(text_);
  }

private:
  [[nodiscard]] const Edit& edit_at(EditIndex index) const { return drift_.edits[static_cast<std::size_t>(index)]; }

  void head(std::string_view words) { text_ += fmt::format("\n{}\n", words); }

  // One row for each item; those beyond the most are counted.
  template <class List, class Tell> void rows(const List& list, std::size_t indent, const Tell& tell) {
    const std::string margin(indent, ' ');
    std::size_t shown = 0;
    for (const auto& item : list) {
      if (shown++ == most_drift_rows) {
        text_ += fmt::format("{}and {} more\n", margin, list.size() - most_drift_rows);
        return;
      }
      text_ += margin + wrap(tell(item), indent + 2, style_) + "\n";
    }
  }

  static std::string said_in_one(const Edit& edit) {
    std::string all;
    for (const Phrase& phrase : tell(edit)) all += phrase.written ? shortened(phrase.text, most_quoted) : phrase.text;
    return all;
  }

  std::string place(const Edit& edit) const {
    const std::string where = file_and_line(sources_of(report_, edit), edit.place);
    return &sources_of(report_, edit) == &report_.from.version.sources ? "was in " + where : where;
  }

  // "documented: press-log-kt vol. 6 p. 11 (saltmere/accessories/signal-lantern.toml:20)"
  std::string backing(const Edit& edit) const {
    std::string words{edit.basis ? name(*edit.basis) : ""};
    for (std::size_t i = 0; i < edit.citations.size(); ++i)
      words += (i > 0 ? "; " : words.empty() ? "" : ": ") + shortened(edit.citations[i], most_quoted);
    return words + (words.empty() ? "(" : " (") + place(edit) + ")";
  }

  void tell_cause(const CausedChanges& group) {
    head("because");
    std::size_t number = 0;
    for (const EditIndex index : group.cause.edits) {
      if (number == most_drift_rows) {
        text_ += fmt::format("  and {} more\n", group.cause.edits.size() - most_drift_rows);
        break;
      }
      const std::string margin = fmt::format("  {}. ", ++number);
      text_ += margin + wrap(said_in_one(edit_at(index)), margin.size(), style_) + "\n";
      text_ += std::string(margin.size(), ' ') + wrap(backing(edit_at(index)), margin.size(), style_) + "\n";
    }
    if (const std::string doubt = certainty_words(group.cause.certainty); !doubt.empty())
      text_ += "  " + wrap(doubt, 2, style_) + "\n";
    text_ += fmt::format("{} changed\n", counted(group.changes));
    for (const VerdictTransition& transition : by_transition(group.changes.verdicts)) {
      text_ += fmt::format("  {}\n", transition.words);
      rows(transition.changes, 4, [](const ChangedVerdict* change) {
        const std::string more = detail(*change);
        return fmt::format("{} with {}{}{}", change->question.run, change->question.issue, more.empty() ? "" : ": ",
                           more);
      });
    }
    rows(group.changes.bounds, 2, [&](const BoundChange& change) { return tell(change, report_.to.version.kb); });
    rows(group.changes.claims, 2, [](const ClaimChange& change) { return tell(change); });
  }

  void tell_pieces(std::string_view words, const std::vector<LonePiece>& pieces) {
    if (!pieces.empty()) head(words);
    rows(pieces, 2, [&](const LonePiece& piece) {
      const Edit* edit = edit_of(drift_, piece);
      return fmt::format("{} {}; verdicts: {}{}", spec_of(piece.kind).name, piece.address, counted_verdicts(piece),
                         edit == nullptr ? "" : "; " + backing(*edit));
    });
  }

  void tell_contradictions() {
    for (const ContradictionChange& change : drift_.contradictions) {
      head(change.came ? "a contradiction came: these statements cannot all be true"
                       : "a contradiction is gone: these statements could not all be true");
      text_ += render_reasons(change.reasons, change.came ? report_.to.version.sources : report_.from.version.sources,
                              style_);
    }
  }

  const DriftReport& report_;
  const Drift& drift_;
  TextStyle style_;
  std::string text_;
};

} // namespace

std::string side_words(const DriftSide& side) {
  return side.day.empty() ? side.name : fmt::format("{} ({})", side.name, side.day);
}

const SourceSet& sources_of(const DriftReport& report, const Edit& edit) {
  return edit.after == no_entry ? report.from.version.sources : report.to.version.sources;
}

std::string file_and_line(const SourceSet& sources, const Span& place) {
  if (!place.known()) return {};
  const SourceFile& file = sources[place.file];
  return fmt::format("{}:{}", file.path(), file.position(place.begin).line);
}

std::string certainty_words(Certainty certainty) {
  switch (certainty) {
  case Certainty::smallest:
    return {};
  case Certainty::irreducible:
    return "none of these can be left out; whether fewer others would do as well was not tried to the end";
  case Certainty::untried:
    return "these are all the edits that could matter: they are too many to try which of them do";
  }
  return {};
}

std::string drift_text(const DriftReport& report, TextStyle style) { return DriftTeller{report, style}.tell_all(); }

} // namespace coeval
