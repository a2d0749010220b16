// entries/shelf_kinds.hpp: which tables and keys may a shelf hold, and what does each mean?
//
// Private to this room: the rows of schema.hpp's table that are about what one collector owns.
#pragma once

#include "entries/schema.hpp"

namespace coeval {

[[nodiscard]] std::vector<KindSpec> shelf_kinds();

} // namespace coeval
