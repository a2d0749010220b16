// entries/json_schema.hpp: how does an editor know what may be written where?
#pragma once

#include <string>

#include "entries/schema.hpp"

namespace coeval {

// JSON Schema 2020-12 (https://json-schema.org/draft/2020-12/schema) of one file of a knowledge base, or of a shelf,
// from the table in schema.hpp, so that editors that know TOML and JSON Schema complete keys, show their meaning and
// check values.
[[nodiscard]] std::string file_json_schema(Language language);

} // namespace coeval
