#include "commands/command.hpp"

namespace coeval {

int run_why(const Settings& settings, const std::string& text) {
  const Session session{settings};
  if (session.exit) return *session.exit;
  const auto ends = session.find_ends(text);
  if (!ends) return exit_usage;
  std::vector<WhyPoint> points;
  bool bounded = true;
  for (const SpanPoint& end : *ends) {
    WhyPoint why;
    why.point = end;
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
