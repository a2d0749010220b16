// export/kb_json_ld.hpp: the knowledge base as linked data.
//
// Private to this room. JSON-LD 1.1 (https://www.w3.org/TR/json-ld11/) whose context is written out, so that nothing is
// fetched to read it. What things are is told in schema.org's terms: figures and accessories are ProductGroups, issues,
// moulds, runs and reproductions ProductModels. When they were made is told in those of CIDOC CRM
// (http://www.cidoc-crm.org/): an E12 Production of each issue, mould and run, with an E52 Time-Span whose P82a, P81a,
// P81b and P82b are the earliest start, latest start, earliest end and latest end that follow on all evidence. A
// production is that of everything alike that came of it. P7 and P14 are named from memory.
//
// An entry is named by its address in this document: data/kb.jsonld#signal-lantern/ring-top/brass.
#pragma once

#include <string>

#include "chronology/chronology.hpp"
#include "links/references.hpp"

namespace coeval {

// What every such document begins with, by which it is known again.
inline constexpr std::string_view kb_json_ld_head = "{\n \"@context\": {\n  \"@vocab\": \"https://schema.org/\",\n"
                                                    "  \"crm\": \"http://www.cidoc-crm.org/";
// From the root of a site.
inline constexpr std::string_view kb_json_ld_path = "data/kb.jsonld";

// Appended to `text`. `base_url`: of the site that publishes it, with a slash at its end; empty: names are relative to
// the document.
void write_kb_json_ld(const LinkedKb& kb, const Chronology& chronology, const ReferenceTable& references,
                      const std::string& base_url, std::string& text);

} // namespace coeval
