// Does a JSON file, whatever somebody wrote into it, only ever become TOML files inside the folder, that TOML can read?
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "entries/read.hpp"
#include "import/import.hpp"
#include "publish/path.hpp"

namespace {

using namespace coeval;

void demand(bool holds) {
  if (!holds) std::abort();
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  Diagnostics out;
  const Imported imported = import_json({reinterpret_cast<const char*>(data), size}, "kb.json", out);
  for (const SourceFile& file : imported.sources.files) {
    demand(is_output_path(file.path()));
    demand(file.path().ends_with(".toml"));
    demand(!first_bad_byte(file.text()));
  }
  for (const std::string& picture : imported.sources.assets) {
    demand(!picture.empty() && picture.front() != '/' && ("/" + picture + "/").find("/../") == std::string::npos);
  }
  Diagnostics read;
  (void)read_entries(imported.sources, {}, read);
  for (const Diagnostic& diagnostic : told_of_json(imported, read.sorted())) {
    demand(diagnostic.code != Code::broken_toml); // what was refused is left out, the rest is TOML
    demand(diagnostic.path.starts_with("kb.json#/entries/"));
  }
  return 0;
}
