// drift/mixture.hpp: what would the old version say with only some of the edits made?
//
// A mixture is linked and solved like any knowledge base. A name that leads nowhere in it (a pairing with a run that is
// only added by another edit) says nothing, and an entry whose parent is not there is not there either.
#pragma once

#include <memory>
#include <span>

#include "drift/edits.hpp"

namespace coeval {

struct Mixture {
  std::unique_ptr<const LinkedKb> kb;
  std::unique_ptr<const Chronology> dates; // without contradictions, or nothing can be asked
};

// Makes mixtures of two versions. `before`, `after` and `edits`, all the edits between them, must outlive it.
class Mixer {
public:
  Mixer(const LinkedKb& before, const LinkedKb& after, const std::vector<Edit>& edits);
  [[nodiscard]] Mixture mix(std::span<const EditIndex> made) const;

private:
  [[nodiscard]] EntrySet entries(std::span<const EditIndex> made) const;

  const LinkedKb& before_;
  const LinkedKb& after_;
  const std::vector<Edit>& edits_;
  EntryMatches matches_;
};

} // namespace coeval
