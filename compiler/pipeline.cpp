#include "pipeline.hpp"

#include <algorithm>

#include "entries/read.hpp"
#include "files/load.hpp"
#include "links/link.hpp"
#include "rules/rules.hpp"

namespace coeval {
namespace {

bool is_of_the_world(Code code) {
  return code == Code::unreadable_file || code == Code::unreadable_folder || code == Code::no_entries;
}

// Nothing can be concluded from what is missing while some file could not be read.
bool hides_entries(Code code) {
  return is_of_the_world(code) || code == Code::broken_utf8 || code == Code::broken_toml ||
         code == Code::file_too_large || code == Code::too_many_files || code == Code::link_leaves_kb;
}

} // namespace

Compiled compile(const std::filesystem::path& root, Depth depth) {
  Diagnostics out;
  Compiled result;
  LoadResult loaded = load_sources(root, out);
  result.sources = std::move(loaded.sources);
  EntrySet entries = read_entries(result.sources, loaded.broken, out);
  const std::vector<Diagnostic> so_far = out.sorted();
  const bool complete = std::ranges::none_of(so_far, hides_entries, &Diagnostic::code);
  // From here on nobody looks at TOML; spans are all that is left of the text.
  result.kb = std::make_unique<const LinkedKb>(link_entries(std::move(entries), complete, out));
  const RuleInput input{*result.kb, result.sources, complete};
  check_data(input, out);
  result.dates = solve_chronology(*result.kb);
  // From here on no date moves.
  check_consistency(input, *result.dates, out);
  if (depth == Depth::in_full) check_answers(input, *result.dates, out);
  result.diagnostics = out.sorted();
  result.has_errors = out.has_errors();
  result.world_failed = std::ranges::any_of(result.diagnostics, is_of_the_world, &Diagnostic::code);
  return result;
}

} // namespace coeval
