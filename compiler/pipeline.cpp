#include "pipeline.hpp"

#include <algorithm>
#include <set>

#include "entries/read.hpp"
#include "files/asset.hpp"
#include "files/load.hpp"
#include "links/asset_path.hpp"
#include "links/link.hpp"
#include "pictures/inspect.hpp"
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

Diagnostic about_picture(const Field& field, Code code, std::string message, std::string help) {
  Diagnostic wrong;
  wrong.code = code;
  wrong.place = field.place;
  wrong.message = std::move(message);
  wrong.help = std::move(help);
  return wrong;
}

// Whatever entries want published is looked at here, each file once; that it is there is a rule of the data.
std::map<std::string, PictureFacts> inspect_pictures(const LinkedKb& kb, const SourceSet& sources,
                                                     const std::filesystem::path& root, Diagnostics& out) {
  std::map<std::string, PictureFacts> fit;
  std::set<std::string> inspected;
  for (const Entry& entry : kb.entries.entries) {
    const Field* field = entry.kind == Kind::picture ? entry.find("file") : nullptr;
    if (field == nullptr) continue;
    const std::string path = asset_path(sources, *field);
    if (!sources.assets.contains(path) || !inspected.insert(path).second) continue;
    const std::optional<std::string> bytes = read_asset(root, path, out);
    if (!bytes) continue;
    const auto result = inspect_picture(*bytes, path);
    if (const auto* fault = std::get_if<PictureFault>(&result)) {
      if (fault->kind == PictureFault::Kind::unsafe)
        out.report(about_picture(*field, Code::picture_unsafe,
                                 "`" + path + "` could do more than be looked at: " + fault->words,
                                 "save it without that, as plain SVG, or as PNG"));
      else
        out.report(about_picture(*field, Code::picture_broken, "`" + path + "` cannot be shown: " + fault->words,
                                 "save the picture again, and let its name end as its format does"));
    } else {
      fit[path] = std::get<PictureFacts>(result);
      if (fit[path].located)
        out.report(about_picture(*field, Code::picture_located, "`" + path + "` tells where it was taken",
                                 "save the photograph without its location"));
    }
  }
  return fit;
}

// Everything after the disk was read. `root`: where the pictures are, for depths that look at them.
Compiled compile_loaded(LoadResult loaded, const std::filesystem::path& root, Depth depth, Diagnostics out) {
  Compiled result;
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
  if (depth != Depth::to_answer) result.pictures = inspect_pictures(*result.kb, result.sources, root, out);
  result.diagnostics = out.sorted();
  result.has_errors = out.has_errors();
  result.world_failed = std::ranges::any_of(result.diagnostics, is_of_the_world, &Diagnostic::code);
  return result;
}

} // namespace

Compiled compile(const std::filesystem::path& root, Depth depth) {
  Diagnostics out;
  LoadResult loaded = load_sources(root, out);
  return compile_loaded(std::move(loaded), root, depth, std::move(out));
}

Compiled compile(SourceSet sources) { return compile_loaded({std::move(sources), {}}, {}, Depth::to_answer, {}); }

} // namespace coeval
