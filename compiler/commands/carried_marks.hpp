// commands/carried_marks.hpp: which marks does the user see on the part?
#pragma once

#include "commands/command.hpp"

namespace coeval {

// Marks as they are typed: "ce-toy", "us-patent=3,858,241". Nothing where one cannot be understood, or there are too
// many, and then standard error says of each what would do.
[[nodiscard]] std::optional<std::vector<CarriedMark>> read_marks(const Session& session,
                                                                 const std::vector<std::string>& typed);

} // namespace coeval
