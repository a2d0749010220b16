// commands/export.hpp: what may be said of an export, and of an import?
#pragma once

#include <string>

#include "commands/command.hpp"
#include "export/export.hpp"

namespace coeval {

struct ExportSettings {
  std::string to;       // a file or, for csv, a folder; "-": standard output
  std::string as;       // a name of ExportAs; empty: by the ending of `to`
  std::string graph;    // "links", or "chronology"
  std::string base_url; // as given
  bool replace = false;
};

int run_export(const Settings& settings, const ExportSettings& wanted);
int run_import(const Settings& settings, const std::string& file, const std::string& to);

} // namespace coeval
