#include "commands/days.hpp"

#include <chrono>

#include <fmt/format.h>

#include "commands/command.hpp"

namespace coeval {

std::optional<Day> given_day(const std::string& typed) {
  if (typed.empty())
    return std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now()).time_since_epoch().count();
  const std::optional<Day> day = read_day(typed);
  if (!day)
    print_error(fmt::format("coeval: `{}` is not a day; write year, month and day as ISO 8601 does: 2026-05-02\n",
                            printable(typed)));
  return day;
}

} // namespace coeval
