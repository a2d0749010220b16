// links/references.hpp: which entries does each entry refer to?
//
// Follows the schema: whatever key holds addresses, ends of spans, citations or features gives references, in the order
// of the entries, their keys and the words of a key. Needs a knowledge base without errors; what cannot be resolved is
// left out.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "links/kb.hpp"

namespace coeval {

struct Reference {
  EntryIndex from{};
  const KeySpec* key = nullptr;
  std::uint32_t position = 0; // in a key that lists several
  EntryIndex to{};
  std::string detail; // of an end of a span: "start" or "end"; of a mark: its reading; of a citation: the place in it
};

[[nodiscard]] std::vector<Reference> references_of(const LinkedKb& kb);

// The same, by the entry that refers.
class ReferenceTable {
public:
  explicit ReferenceTable(const LinkedKb& kb);
  [[nodiscard]] std::span<const Reference> all() const { return references_; }
  [[nodiscard]] std::span<const Reference> from(EntryIndex entry) const {
    return all().subspan(first_[at(entry)], first_[at(entry) + 1] - first_[at(entry)]);
  }

private:
  std::vector<Reference> references_;
  std::vector<std::size_t> first_; // of each entry; one more at the end
};

} // namespace coeval
