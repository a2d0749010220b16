#include <algorithm>

#include "commands/command.hpp"

namespace coeval {

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
    why.earliest = session.dates().proven_bound(point, Side::earliest, settings.weakest);
    why.latest = session.dates().proven_bound(point, Side::latest, settings.weakest);
    bounded = bounded && why.earliest.day && why.latest.day;
    points.push_back(std::move(why));
  }
  print(settings.format == Format::json ? why_json(session.report(), points)
                                        : why_text(session.report(), points, settings.out));
  return bounded ? exit_yes : exit_open;
}

} // namespace coeval
