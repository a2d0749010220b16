// Does a list of published files, whatever somebody wrote into it, only ever name files inside the folder?
//
// The input is the lines between the first and the last, around which the right ones are put: otherwise the hash would
// turn nearly everything away.
#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "publish/manifest.hpp"

namespace {

using namespace coeval;

void demand(bool holds) {
  if (!holds) std::abort();
}

bool stays_inside(std::string_view path) {
  return !path.empty() && path.front() != '/' && path.back() != '/' && path.find('\0') == std::string_view::npos &&
         !path.starts_with(".coeval-") && ("/" + std::string{path} + "/").find("/../") == std::string::npos;
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view lines{reinterpret_cast<const char*>(data), size};
  (void)read_manifest(lines);
  const std::string head = "coeval-manifest 1\n" + std::string{lines};
  const ContentHash hash = hash_of(head);
  const auto manifest = read_manifest(
      head + fmt::format("end {} {:016x}{:016x}\n", std::ranges::count(lines, '\n'), hash.high, hash.low));
  if (!manifest) return 0;
  for (const auto& [path, states] : *manifest) {
    demand(stays_inside(path));
    demand(!states.empty());
  }
  demand(read_manifest(manifest_text(*manifest)) == manifest);
  return 0;
}
