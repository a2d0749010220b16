// shelf/dated_parts.hpp: which runs can an owned part not be of, by the dating marks that it carries?
#pragma once

#include "shelf/shelf.hpp"

namespace coeval {

// Takes those runs out of could_be of each part, and keeps with the part which mark rules each out. Reproductions stay:
// nothing is entered about when they were made. Parts with the same marks share the searches of the graph.
void rule_out_by_marks(LinkedShelf& shelf, const LinkedKb& kb, const Chronology& chronology, Basis weakest);

} // namespace coeval
