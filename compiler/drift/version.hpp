// drift/version.hpp: what is compared?
#pragma once

#include "chronology/chronology.hpp"
#include "source/text.hpp"

namespace coeval {

// One version of a knowledge base, without errors except contradictions. All must outlive what is made from it.
struct Version {
  const LinkedKb& kb;
  const Chronology& dates;
  const SourceSet& sources;
};

} // namespace coeval
