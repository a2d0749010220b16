// report/json_parts.hpp: which parts do several JSON documents share? Private to this room.
#pragma once

#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

#include "report/answers.hpp"

namespace coeval {

using Json = nlohmann::ordered_json;

// What every document starts with.
[[nodiscard]] Json document(std::string_view format, const ReportInput& input);
[[nodiscard]] std::string written(const Json& json);
[[nodiscard]] Json day_or_null(const std::optional<Day>& day); // ISO 8601
[[nodiscard]] Json basis_or_null(const std::optional<Basis>& basis);
[[nodiscard]] Json text_or_null(std::string_view text); // null for an empty one
// The verdict without its grounds.
[[nodiscard]] Json short_judgement(const ReportInput& input, const Judgement& judgement);
[[nodiscard]] Json reasons_json(const ReportInput& input, const std::vector<Reason>& reasons);
[[nodiscard]] Json full_judgement(const ReportInput& input, const Judgement& judgement);

} // namespace coeval
