// pages/drift_section.hpp: what does the page of changes tell of an earlier version?
#pragma once

#include "drift/drift.hpp"
#include "pages/site.hpp"

namespace coeval {

// What changed since an earlier version.
struct SiteDrift {
  std::string title;  // "What changed since 2026-11-20"
  std::string anchor; // on the page
  const Drift& drift;
  const SourceSet& before; // of the earlier version
};

// Adds it to the page of changes, below what the knowledge base's CHANGES.md says.
void add_drift(const Site& site, const SiteDrift& told, Page& page);

} // namespace coeval
