// threads/share_out.hpp: how is work that falls into independent pieces done on all processors?
#pragma once

#include <cstddef>
#include <functional>

namespace coeval {

// Calls work(piece) once for every piece below `count` and returns when all are done. The calling thread takes part;
// there is a helper for each further processor, but no more threads than one for every `worth_a_thread` pieces, so that
// little work starts none. Pieces are handed out in their order and may be done in any: each must write only what no
// other one looks at. Where the system gives no threads, those that there are do it all. Work must not throw.
void share_out(std::size_t count, std::size_t worth_a_thread, const std::function<void(std::size_t)>& work);

} // namespace coeval
