#include "entries/entry.hpp"

namespace coeval {

const Field* Entry::find(std::string_view key) const {
  for (const Field& field : fields)
    if (field.spec->name == key) return &field;
  return nullptr;
}

} // namespace coeval
