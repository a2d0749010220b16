#include "drawings/timeline_ends.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "drawings/axis.hpp"
#include "drawings/text.hpp"

namespace coeval {
namespace {

EndRange forwards(EndRange range) {
  if (range.earliest) range.earliest = within_reach(*range.earliest);
  if (range.latest) range.latest = within_reach(*range.latest);
  if (range.earliest && range.latest && *range.latest < *range.earliest) std::swap(range.earliest, range.latest);
  return range;
}

// "1976", "1976-06" where the range is that year or month as a whole.
std::string whole_of(Day earliest, Day latest) {
  const Date first = date_of(earliest);
  const Date last = date_of(latest);
  const std::string text = iso(earliest);
  if (first.year != last.year || first.day != 1 || last.day != days_in_month(last.year, last.month)) return {};
  if (first.month == 1 && last.month == 12) return text.substr(0, text.size() - 6);
  return first.month == last.month ? text.substr(0, text.size() - 3) : std::string{};
}

std::string tell_end(const EndRange& range) {
  if (!range.earliest && !range.latest) return "an unknown day";
  if (!range.earliest) return iso(*range.latest) + " at the latest";
  if (!range.latest) return iso(*range.earliest) + " at the earliest";
  if (*range.earliest == *range.latest) return iso(*range.earliest);
  if (const std::string whole = whole_of(*range.earliest, *range.latest); !whole.empty()) return "some day in " + whole;
  return fmt::format("some day between {} and {}", iso(*range.earliest), iso(*range.latest));
}

} // namespace

Extent extent_of(const TimelineRow& row) {
  Extent extent{forwards(row.start), forwards(row.end)};
  auto& [start, end] = extent;
  if (start.earliest && end.latest && *end.latest < *start.earliest) std::swap(start, end);
  if (start.earliest && (!end.earliest || *end.earliest < *start.earliest)) end.earliest = start.earliest;
  if (end.latest && (!start.latest || *start.latest > *end.latest)) start.latest = end.latest;
  return extent;
}

std::string tell(const TimelineRow& row) {
  const Extent extent = extent_of(row);
  const std::string label = one_line(row.label);
  if (!extent.known()) return label + ": no date known";
  // Where one end is known by the other alone, there is nothing to say of it.
  const auto& [start, end] = extent;
  const bool start_by_end = !start.earliest && start.latest == end.latest;
  const bool end_by_start = !end.latest && end.earliest == start.earliest;
  std::string words = fmt::format("{}: from {} to {}", label, start_by_end ? "an unknown earlier day" : tell_end(start),
                                  end_by_start ? "an unknown later day" : tell_end(end));
  if (extent.certain() && (extent.start.earliest != extent.start.latest || extent.end.earliest != extent.end.latest))
    words += fmt::format(", for sure from {} to {}", iso(*extent.start.latest), iso(*extent.end.earliest));
  return words;
}

std::string describe(const Timeline& timeline) {
  std::string words;
  std::size_t rows = 0;
  for (const TimelineRow& row : timeline.rows) {
    if (row.label.empty()) continue;
    words += tell(row) + ". ";
    ++rows;
  }
  if (rows == 0) words += "Nothing to show. ";
  if (!timeline.bands.empty()) words += "Periods behind: ";
  for (std::size_t band = 0; band < timeline.bands.size(); ++band)
    words += (band == 0 ? "" : "; ") + tell(timeline.bands[band]);
  if (!timeline.bands.empty()) words += ". ";
  words.pop_back();
  return words;
}

} // namespace coeval
