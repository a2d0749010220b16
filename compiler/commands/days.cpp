#include "commands/days.hpp"

#include <chrono>

#include "calendar/edtf.hpp"

namespace coeval {

std::optional<Day> read_day(const std::string& text) {
  const EdtfResult read = parse_edtf(text);
  if (!read.value || read.value->shape != EdtfShape::date || read.value->first() != read.value->last()) return {};
  return read.value->first();
}

Day this_day() {
  return std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now()).time_since_epoch().count();
}

} // namespace coeval
