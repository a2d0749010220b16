// report/schema_parts.hpp: of what are the schemas of answers built?
//
// Private to this room.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

namespace coeval {

using Json = nlohmann::ordered_json;

namespace schema_parts {

[[nodiscard]] Json text(std::string_view doc);
[[nodiscard]] Json text_or_null(std::string_view doc);
[[nodiscard]] Json whole(std::string_view doc);
[[nodiscard]] Json flag(std::string_view doc);
[[nodiscard]] Json list(Json items, std::string_view doc);
[[nodiscard]] Json day(std::string_view doc);
[[nodiscard]] Json basis();
[[nodiscard]] Json basis_or_null();
// Of a verdict without its grounds.
[[nodiscard]] Json short_members();
// An object with exactly these members; all are required unless listed as optional.
[[nodiscard]] Json object(Json properties, const std::vector<std::string>& optional = {});

[[nodiscard]] Json reason(); // a statement with what backs it
[[nodiscard]] Json proof();  // a list of them
[[nodiscard]] Json verdict();
[[nodiscard]] Json verdict_or_null();

} // namespace schema_parts

// Members of the documents about what is open, claimed or disputed, beside "format", "version" and "weakest-basis".
[[nodiscard]] Json agenda_members();
[[nodiscard]] Json claims_members();
[[nodiscard]] Json disputes_members();

// Members of the documents about a shelf, beside "format", "version" and "weakest-basis".
[[nodiscard]] Json swap_members();
[[nodiscard]] Json audit_members();
[[nodiscard]] Json wants_members();
[[nodiscard]] Json checklist_members();
// The same of the document about two versions.
[[nodiscard]] Json drift_members();
// Of those about its money, which no basis bears on, beside "format" and "version".
[[nodiscard]] Json ledger_members();
[[nodiscard]] Json ceiling_members();
[[nodiscard]] Json comparables_members();
// Of those about changes of its file, likewise.
[[nodiscard]] Json parcel_members();
[[nodiscard]] Json convert_members();

} // namespace coeval
