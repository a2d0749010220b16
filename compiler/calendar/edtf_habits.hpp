// calendar/edtf_habits.hpp: was the date written by another custom, and what would it be here?
//
// "circa 1979", "30.6.1979", "June 1979", "1979-8": texts that people and older formats write. Only for messages;
// nothing here makes a text valid.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace coeval {

// What to say about `text`, which is no valid date; nothing where no custom is recognised. Every date that the advice
// proposes passes `readable`.
[[nodiscard]] std::optional<std::string>
advice_for_another_custom(std::string_view text, const std::function<bool(std::string_view)>& readable);

} // namespace coeval
