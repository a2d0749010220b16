// export/linked_data.hpp: what is an entry in the terms of schema.org (https://schema.org/)?
//
// Only what the narrowest true type has a term for; without an address, which depends on where it stands.
#pragma once

#include <nlohmann/json.hpp>

#include "links/kb.hpp"

namespace coeval {

// A place, with the town and the country of today; codes of countries that are no more mean nothing there.
[[nodiscard]] nlohmann::ordered_json plant_terms(const Entry& plant);
// A book, a photograph … or just a work; with the day of publication where it is a plain date.
[[nodiscard]] nlohmann::ordered_json source_terms(const Entry& source);
// A claim, without where it appears.
[[nodiscard]] nlohmann::ordered_json claim_terms(const Entry& claim);
// A term that parts are described by.
[[nodiscard]] nlohmann::ordered_json feature_terms(const Entry& feature);

// {"key": text}, where there is any.
void add_term(nlohmann::ordered_json& json, std::string_view key, std::string_view text);

} // namespace coeval
