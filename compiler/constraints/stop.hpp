// constraints/stop.hpp: what happens when a caller breaks this room's contract?
//
// That is a bug in the program, never a mistake in anyone's data: say where, and end.
#pragma once

namespace coeval {

[[noreturn]] void stop(const char* bug);

} // namespace coeval
