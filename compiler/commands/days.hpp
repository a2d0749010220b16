// commands/days.hpp: which day does the user mean, and which is today?
#pragma once

#include <optional>
#include <string>

#include "calendar/day.hpp"

namespace coeval {

// "2026-05-02"; today, by the clock of this machine in UTC, where nothing was typed. Nothing for any other text, and
// then standard error says what would do.
[[nodiscard]] std::optional<Day> given_day(const std::string& typed);

} // namespace coeval
