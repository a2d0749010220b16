// threads/share_out.hpp: how is work that falls into independent pieces done on all processors?
#pragma once

#include <cstddef>
#include <functional>

namespace coeval {

// Calls work(piece) once for every piece below `count` and returns when all are done. The calling thread takes part;
// there is a helper for each further processor, but no more threads than one for every `worth_a_thread` pieces, so that
// little work starts none. Pieces are handed out in their order and may be done in any: each must write only what no
// other one looks at. Where the system gives no threads, those that there are do it all. What a piece throws is thrown
// again when all have stopped, and no piece is begun after it.
void share_out(std::size_t count, std::size_t worth_a_thread, const std::function<void(std::size_t)>& work);

// How many threads that would be, at least one.
[[nodiscard]] std::size_t threads_worth(std::size_t count, std::size_t worth_a_thread);

// The same on that many threads, one or more. work(piece, thread) is also told which one does it, counted from 0: what
// a thread gathers over all its pieces may lie apart from what others do.
void share_among(std::size_t threads, std::size_t count, const std::function<void(std::size_t, std::size_t)>& work);

} // namespace coeval
