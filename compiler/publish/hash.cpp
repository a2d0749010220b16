#include "publish/hash.hpp"

#include <xxhash.h>

namespace coeval {

ContentHash hash_of(std::string_view bytes) {
  const XXH128_hash_t hash = XXH3_128bits(bytes.data(), bytes.size());
  return {hash.high64, hash.low64};
}

} // namespace coeval
