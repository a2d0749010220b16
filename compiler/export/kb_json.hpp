// export/kb_json.hpp: the whole knowledge base as one JSON document.
//
// Private to this room.
//
//   {"format": "coeval-kb", "version": 1,
//    "entries": [{"kind": "run", "address": "signal-lantern/ring-top/brass" or null, "parent": address or null,
//                 "file": "saltmere/accessories/signal-lantern.toml", "line": 58,
//                 "fields": {key: value …},                        // as written, in the order of the schema
//                 "evidence": {"basis": …, "sources": […], "disputed": false},  // where the kind can have one
//                 "span": {"start": days, "end": days}}            // where it lasts
//                …]}
//
// days: {"documented": {"earliest": ISO day or null, "latest": …}, "observed": …, "reported": …, "conjectured": …}:
// what statements of that basis or stronger entail. The version changes when a reader of the old one could be misled.
#pragma once

#include <string>

#include "chronology/chronology.hpp"

namespace coeval {

[[nodiscard]] std::string kb_json(const LinkedKb& kb, const Chronology& chronology, const SourceSet& sources);

} // namespace coeval
