#include <algorithm>

#include "commands/command.hpp"

namespace coeval {
namespace {

// One side of a point's bounds: the tightest day that the evidence allows, proven on the strongest basis that already
// gives it.
WhySide side(const Chronology& dates, const Settings& settings, Point point, bool earliest) {
  WhySide result;
  const auto day_on = [&](Basis basis) {
    const DayBounds bounds = dates.bounds(point, basis);
    return earliest ? bounds.earliest : bounds.latest;
  };
  result.day = day_on(settings.weakest);
  if (!result.day) return result;
  for (const Basis basis : all_bases) {
    if (day_on(basis) != result.day) continue;
    result.basis = basis;
    const auto chain = earliest ? dates.on(basis).proof(origin, point) : dates.on(basis).proof(point, origin);
    result.proof = dates.tell_all(chain);
    break;
  }
  return result;
}

} // namespace

int run_why(const Settings& settings, const std::string& text) {
  const Session session{settings};
  if (session.exit) return *session.exit;
  std::string_view address = text;
  std::vector<SpanEnd> ends{SpanEnd::start, SpanEnd::end};
  if (address.ends_with(".start")) {
    address.remove_suffix(6);
    ends = {SpanEnd::start};
  } else if (address.ends_with(".end")) {
    address.remove_suffix(4);
    ends = {SpanEnd::end};
  }
  const auto entry =
      session.find(address, {Kind::mould, Kind::run, Kind::issue, Kind::period, Kind::card, Kind::route, Kind::mark});
  if (!entry) return exit_usage;
  const auto found = std::ranges::find(session.kb().spans, *entry, &TimeSpan::entry);
  const TimeSpanIndex span{static_cast<std::uint32_t>(found - session.kb().spans.begin())};
  std::vector<WhyPoint> points;
  bool bounded = true;
  for (const SpanEnd end : ends) {
    WhyPoint why;
    why.point = {span, end};
    const Point point = point_of(why.point);
    for (const Basis basis : all_bases) {
      const DayBounds bounds = session.dates().bounds(point, basis);
      why.by_basis[static_cast<std::size_t>(basis)] = {bounds.earliest, bounds.latest};
    }
    why.earliest = side(session.dates(), settings, point, true);
    why.latest = side(session.dates(), settings, point, false);
    bounded = bounded && why.earliest.day && why.latest.day;
    points.push_back(std::move(why));
  }
  print(settings.format == Format::json ? why_json(session.report(), points)
                                        : why_text(session.report(), points, settings.out));
  return bounded ? exit_yes : exit_open;
}

} // namespace coeval
