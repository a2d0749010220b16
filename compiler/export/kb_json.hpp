// export/kb_json.hpp: the whole knowledge base as one JSON document.
//
// Read again by the room import.
//
//   {"format": "coeval-kb", "version": 2,
//    "entries": [{"kind": "run", "address": "signal-lantern/ring-top/brass" or null, "parent": address or null,
//                 "file": "saltmere/accessories/signal-lantern.toml", "line": 58,
//                 "fields": {key: value …},                        // as entered, in the order of the schema
//                 "evidence": {"basis": …, "sources": […], "disputed": false},  // where the kind can have one
//                 "span": {"start": days, "end": days}}            // where it lasts
//                …]}
//
// days: {"documented": {"earliest": ISO day or null, "latest": …}, "observed": …, "reported": …, "conjectured": …}:
// what statements of that basis or stronger entail. Dates are {"written": EDTF or {"start": EDTF, "end": EDTF},
// "start": {"first": day, "last": day}, "end": …}; a feature's value is {"values": […], "tolerance": …} or {"lab":
// […]}; a picture's file is its path from the root of the knowledge base. `export_json_schema` is the same as
// JSON Schema. The version changes when a reader of the old one could be misled.
#pragma once

#include <string>

#include "chronology/chronology.hpp"

namespace coeval {

inline constexpr std::string_view kb_json_format = "coeval-kb";
inline constexpr int kb_json_version = 2;
// What every such document begins with, by which it is known again.
inline constexpr std::string_view kb_json_head = "{\n \"format\": \"coeval-kb\",";

// Appended to `text`.
void write_kb_json(const LinkedKb& kb, const Chronology& chronology, const SourceSet& sources, std::string& text);

} // namespace coeval
