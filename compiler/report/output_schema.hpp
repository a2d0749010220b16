// report/output_schema.hpp: what is in the JSON that a command writes?
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace coeval {

// Names of the commands whose JSON has a schema.
[[nodiscard]] std::vector<std::string_view> output_formats();
// JSON Schema 2020-12 of what `coeval COMMAND --format json` writes; nothing for another name.
[[nodiscard]] std::optional<std::string> output_json_schema(std::string_view command);

} // namespace coeval
