#include "verdicts/finds.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace coeval {
namespace {

class FindSearch {
public:
  FindSearch(const LinkedKb& kb, const Chronology& chronology, SpanPoint end, Day day, Basis weakest)
      : kb_(kb), chronology_(chronology), end_(end), span_(kb.spans[at(end.span)]), day_(day), weakest_(weakest),
        known_(chronology.bounds(point_of(end), weakest)) {}

  std::vector<Find> no_later() {
    if (end_.end != SpanEnd::start) return {};
    if (span_.kind == Kind::run || span_.kind == Kind::mould || span_.kind == Kind::issue)
      add_spans(Kind::card, SpanEnd::end, 0, Side::latest,
                fmt::format("{} sealed on a card last used by {}", an_example(), iso(day_)));
    if (span_.kind == Kind::card)
      add_spans(Kind::issue, SpanEnd::end, 0, Side::latest,
                fmt::format("an issue last packed by {}, sealed on it", iso(day_)));
    return std::move(finds_);
  }

  std::vector<Find> no_earlier() {
    if (end_.end == SpanEnd::start) {
      if (span_.kind == Kind::run || span_.kind == Kind::mould || span_.kind == Kind::issue || span_.kind == Kind::card)
        add_spans(Kind::mark, SpanEnd::start, 0, Side::earliest,
                  fmt::format("a dating mark on {} that was new on {} or later",
                              span_.kind == Kind::mould ? "every part from it" : "it", iso(day_)));
      return std::move(finds_);
    }
    if (span_.kind == Kind::run || span_.kind == Kind::mould) {
      if (const auto stock = stock_days())
        add_spans(Kind::card, SpanEnd::start, *stock, Side::earliest,
                  fmt::format("{} sealed on a card first used on {} or later, as stock was kept for {} at most",
                              an_example(), iso(day_ + *stock),
                              in_words(kb_.lines[at(*span_.line)].leftover->at_most)));
    } else if (span_.kind == Kind::issue) {
      add_spans(Kind::card, SpanEnd::start, 0, Side::earliest,
                fmt::format("one sealed on a card first used on {} or later", iso(day_)));
    } else if (span_.kind == Kind::card) {
      add_spans(Kind::issue, SpanEnd::start, 0, Side::earliest,
                fmt::format("an issue first packed on {} or later, sealed on it", iso(day_)));
    }
    return std::move(finds_);
  }

private:
  [[nodiscard]] std::string_view an_example() const { return span_.kind == Kind::mould ? "a part from it" : "one"; }

  // Of the line's policy; an issue's own may differ, and is not known before the find.
  [[nodiscard]] std::optional<Day> stock_days() const {
    if (!span_.line) return {};
    const auto& leftover = kb_.lines[at(*span_.line)].leftover;
    if (!leftover || leftover->evidence.basis > weakest_) return {};
    return most_days(*leftover);
  }

  // Spans of a kind, of the same line, an end of which is known to lie on the right side of the day. One that would
  // prove more than can be is no find to hope for.
  void add_spans(Kind kind, SpanEnd which, Day later, Side side, std::string words) {
    Find find{std::move(words), {}};
    for (std::size_t i = 0; i < kb_.spans.size(); ++i) {
      const TimeSpan& span = kb_.spans[i];
      if (span.kind != kind || (kind != Kind::mark && span.line != span_.line)) continue;
      const DayBounds there =
          chronology_.bounds(point_of({TimeSpanIndex{static_cast<std::uint32_t>(i)}, which}), weakest_);
      const bool shows = side == Side::latest ? there.latest && *there.latest <= day_ &&
                                                    (!known_.earliest || *known_.earliest <= *there.latest)
                                              : there.earliest && *there.earliest >= day_ + later &&
                                                    (!known_.latest || *there.earliest <= *known_.latest + later);
      if (shows) find.such.push_back(span.entry);
    }
    if (find.such.empty()) return;
    std::ranges::sort(find.such, {}, [this](EntryIndex entry) { return kb_.address(entry); });
    finds_.push_back(std::move(find));
  }

  const LinkedKb& kb_;
  const Chronology& chronology_;
  SpanPoint end_;
  const TimeSpan& span_;
  Day day_;
  Basis weakest_;
  DayBounds known_;
  std::vector<Find> finds_;
};

} // namespace

std::vector<Find> finds_that_show(const LinkedKb& kb, const Chronology& chronology, SpanPoint end, Side side, Day day,
                                  Basis weakest) {
  FindSearch search{kb, chronology, end, day, weakest};
  return side == Side::latest ? search.no_later() : search.no_earlier();
}

} // namespace coeval
