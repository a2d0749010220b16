// commands/days.hpp: which day does the user mean, and which is today?
#pragma once

#include <optional>
#include <string>

#include "calendar/day.hpp"

namespace coeval {

// "2026-05-02"; nothing for anything else.
[[nodiscard]] std::optional<Day> read_day(const std::string& text);
// By the clock of this machine, in UTC.
[[nodiscard]] Day this_day();

} // namespace coeval
