#include <fmt/format.h>

#include "chronology/chronology.hpp"
#include "links/readings.hpp"

namespace coeval {
namespace {

struct Verbs {
  std::string_view started, ended; // "was first made", "was last made"
};

Verbs verbs_of(Kind kind) {
  switch (kind) {
  case Kind::period:
    return {"began", "ended"};
  case Kind::mould:
    return {"went into the press", "left the press"};
  case Kind::run:
    return {"was first made", "was last made"};
  case Kind::issue:
    return {"was first packed", "was last packed"};
  case Kind::route:
    return {"opened", "closed"};
  default:
    return {"was first used", "was last used"};
  }
}

std::string_view verb(Kind kind, SpanEnd end) {
  return end == SpanEnd::start ? verbs_of(kind).started : verbs_of(kind).ended;
}

// "at least 6 months and at most 1 year": the gap of a timing as written.
std::string gap(const Timing& timing) {
  std::string text;
  if (timing.at_least) text = "at least " + in_words(*timing.at_least) + " ";
  if (timing.at_most) text += fmt::format("{}at most {} ", timing.at_least ? "and " : "", in_words(*timing.at_most));
  return text;
}

std::string relation_words(Relation relation) {
  switch (relation) {
  case Relation::before:
    return "lay wholly before";
  case Relation::meets:
    return "ended on the day that began";
  case Relation::overlaps:
    return "began before, and ran on into,";
  case Relation::finished_by:
    return "began before, and ended with,";
  case Relation::contains:
    return "began before and ended after";
  case Relation::starts:
    return "began with, and ended before,";
  case Relation::equals:
    return "lasted exactly as long as";
  case Relation::started_by:
    return "began with, and ended after,";
  case Relation::during:
    return "lay wholly inside";
  case Relation::finishes:
    return "began after, and ended with,";
  case Relation::overlapped_by:
    return "began during, and outlasted,";
  case Relation::met_by:
    return "began on the last day of";
  case Relation::after:
    return "lay wholly after";
  }
  return {};
}

ReadingKind reading_of(const LinkedKb& kb, const TimeSpan& mark) {
  return *kb.marks[kb.position[at(mark.entry)]].reading;
}

// The number from which on a row's numbers were given out.
std::int64_t first_number(const LinkedKb& kb, const Telling& telling) {
  const EntryIndex mark = kb.spans[at(telling.subject)].entry;
  return kb.marks[kb.position[at(mark)]].numbers[telling.origin.position].from;
}

// The span that a constraint sets its subject in order with, where its sentence names one.
TimeSpanIndex other_of(const LinkedKb& kb, const Telling& telling) {
  const TimeSpan& subject = kb.spans[at(telling.subject)];
  switch (telling.wording) {
  case Wording::timing_relation:
    return telling.origin.timing->span;
  case Wording::within:
    return subject.within[telling.origin.position].first;
  case Wording::replaces:
  case Wording::replaces_clean:
    return *subject.replaces;
  case Wording::reissue:
    return kb.issues[at(*kb.issues[kb.position[at(subject.entry)]].reissue_of)].span;
  case Wording::carries_mark:
  case Wording::carries_ended_mark:
  case Wording::carries_reading:
    return kb.marks[at(subject.marks[telling.origin.position].mark)].span;
  default:
    return telling.subject;
  }
}

// Of what says it, where that is narrower than its evidence's whole table; else unknown.
Span place_of(const LinkedKb& kb, const Telling& telling) {
  const TimeSpan& subject = kb.spans[at(telling.subject)];
  switch (telling.wording) {
  case Wording::no_earlier:
  case Wording::no_later:
    if (telling.origin.timing != nullptr) return {};
    return telling.end == SpanEnd::start ? subject.dates->start.place : subject.dates->end.place;
  case Wording::within:
    return subject.within[telling.origin.position].second;
  case Wording::replaces:
  case Wording::replaces_clean:
    return subject.replaces_place;
  case Wording::reissue:
    return kb.entries[subject.entry].find("reissue-of")->place;
  case Wording::carries_mark:
  case Wording::carries_ended_mark:
  case Wording::carries_reading:
    return subject.marks[telling.origin.position].place;
  default:
    return {};
  }
}

std::string sentence(const LinkedKb& kb, const Telling& telling, Day most) {
  const TimeSpan& subject = kb.spans[at(telling.subject)];
  const TimeSpan& other = kb.spans[at(other_of(kb, telling))];
  const auto own = [&] { return happened(kb, {telling.subject, telling.end}); };
  const std::string_view about = telling.approximate ? ", as an approximate date allows" : "";
  switch (telling.wording) {
  case Wording::by_words:
    return fmt::format("{} did not end before it began", subject.address);
  case Wording::run_in_mould:
    return fmt::format("{} was made while its mould was in the press", subject.address);
  case Wording::no_earlier:
    return fmt::format("{} on {} or later{}", own(), iso(-most), about);
  case Wording::no_later:
    return fmt::format("{} on {} or earlier{}", own(), iso(most), about);
  case Wording::timing_gap: {
    const Timing& timing = *telling.origin.timing;
    const std::string there = happened(kb, timing.other);
    if (timing.order == Order::same_day) return fmt::format("{} on the day that {}", own(), there);
    return fmt::format("{} {}{} {}", own(), gap(timing), timing.order == Order::after ? "after" : "before", there);
  }
  case Wording::timing_relation:
    return fmt::format("{} {} {}", subject.address, relation_words(telling.origin.timing->relation), other.address);
  case Wording::within:
    return fmt::format("{} lies within {}", subject.address, other.address);
  case Wording::replaces:
    return fmt::format("{} began after {} did, and ended no earlier", subject.address, other.address);
  case Wording::replaces_clean:
    return fmt::format("{} began after {} had ended", subject.address, other.address);
  case Wording::reissue:
    return fmt::format("{} put out {} again", subject.address, other.address);
  case Wording::pairing:
    return in_words(kb, *telling.origin.pairing);
  case Wording::stock:
    return fmt::format("stock was kept for {} at most before {}", in_words(telling.origin.leftover->at_most),
                       happened(kb, {telling.subject, SpanEnd::start}));
  case Wording::carries_mark:
    return fmt::format("{} carries {}, so it is no older than the mark", subject.address, other.address);
  case Wording::carries_ended_mark:
    return fmt::format("{} carries {}, so it is no later than the mark's last day", subject.address, other.address);
  case Wording::carries_reading:
    return fmt::format("{} carries {}, which reads {}, so it is no older than that", subject.address, other.address,
                       reading_text(reading_of(kb, other), *subject.marks[telling.origin.position].reading));
  case Wording::reads_year:
    return fmt::format("{} reads {}, which began on {}", subject.address, telling.origin.position, iso(-most));
  case Wording::reads_number:
    return fmt::format("the numbers of {} from {} on were given out on {} or later{}", subject.address,
                       reading_text(ReadingKind::number, first_number(kb, telling)), iso(-most), about);
  }
  return {};
}

} // namespace

std::string in_words(const Duration& duration) {
  std::string text;
  const auto part = [&](std::int64_t count, std::string_view unit) {
    if (count == 0) return;
    if (!text.empty()) text += " ";
    text += fmt::format("{} {}{}", count, unit, count == 1 ? "" : "s");
  };
  part(duration.years, "year");
  part(duration.months, "month");
  part(duration.days, "day");
  return text.empty() ? "no days" : text;
}

std::string in_words(const LinkedKb& kb, const Timing& timing) {
  if (timing.order == Order::on) {
    const TimeSpan& span = kb.spans[at(timing.of)];
    DateBounds bounds = timing.on->edtf.start;
    bounds.first = timing.on->edtf.first();
    bounds.last = timing.on->edtf.last();
    bounds = widened(bounds, kb.allowance_of(span));
    return fmt::format("{} {}{}", happened(kb, {timing.of, timing.end}), in_words(DayBounds{bounds.first, bounds.last}),
                       bounds.approximate ? ", as an approximate date allows" : "");
  }
  const bool relation = timing.order == Order::relation;
  return sentence(kb,
                  {.wording = relation ? Wording::timing_relation : Wording::timing_gap,
                   .end = timing.end,
                   .subject = timing.of,
                   .origin = {.timing = &timing}},
                  0);
}

std::string in_words(const LinkedKb& kb, const Pairing& pairing) {
  const std::string_view run = kb.runs[at(pairing.run)].address;
  const std::string_view issue = kb.issues[at(pairing.issue)].address;
  if (pairing.refuted) return fmt::format("{} with {} was examined and found not to be original", run, issue);
  std::string card;
  if (pairing.card) card = fmt::format(" on {}", kb.spans[at(kb.cards[at(*pairing.card)].span)].address);
  return fmt::format("{} was found with {}{}", run, issue, card);
}

std::string in_words(const LinkedKb& kb, RunIndex run, const Exclusive& exclusive) {
  std::string issues;
  for (const IssueIndex issue : exclusive.to)
    issues.append(issues.empty() ? "" : ", ").append(kb.issues[at(issue)].address);
  return fmt::format("{} went to {} and to no other", kb.runs[at(run)].address, issues);
}

std::string in_words(const DayBounds& bounds) {
  if (bounds.earliest && bounds.latest)
    return *bounds.earliest == *bounds.latest
               ? "on " + iso(*bounds.earliest)
               : fmt::format("between {} and {}", iso(*bounds.earliest), iso(*bounds.latest));
  if (bounds.earliest) return fmt::format("on {} or later", iso(*bounds.earliest));
  if (bounds.latest) return fmt::format("on {} or earlier", iso(*bounds.latest));
  return "at an unknown time";
}

std::string happened(const LinkedKb& kb, SpanPoint point) {
  const TimeSpan& span = kb.spans[at(point.span)];
  return fmt::format("{} {}", span.address, verb(span.kind, point.end));
}

Reason tell(const LinkedKb& kb, const Telling& telling, Day most, const Evidence* evidence) {
  Reason reason;
  reason.statement = sentence(kb, telling, most);
  if (evidence == nullptr) {
    reason.definition = true;
    reason.place = kb.spans[at(telling.subject)].evidence.place;
    return reason;
  }
  const Span narrower = place_of(kb, telling);
  reason.place = narrower.known() ? narrower : evidence->place;
  reason.basis = evidence->basis;
  reason.sources = evidence->citation_texts();
  return reason;
}

} // namespace coeval
