// A picture must lie in the knowledge base, so that it is published and kept with what it shows; only formats that
// browsers show.
#include <array>
#include <filesystem>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "links/asset_path.hpp"
#include "rules/rule_list.hpp"

namespace coeval {
namespace {

constexpr std::array<std::string_view, 5> endings{".svg", ".png", ".jpg", ".jpeg", ".webp"};

} // namespace

void check_pictures(const RuleInput& input, Diagnostics& out) {
  for (const Entry& entry : input.kb.entries.entries) {
    if (entry.kind != Kind::picture) continue;
    const Field* field = entry.find("file");
    if (field == nullptr) continue;
    const std::string& written = std::get<Words>(field->value).front().text;
    const std::string path = asset_path(input.sources, *field);
    Diagnostic wrong;
    wrong.place = field->place;
    bool shown = false;
    for (const std::string_view ending : endings) shown = shown || written.ends_with(ending);
    if (!shown) {
      wrong.code = Code::picture_type;
      wrong.message = fmt::format("`{}` is no SVG, PNG, JPEG or WebP picture", written);
      wrong.help = "its name must end in .svg, .png, .jpg, .jpeg or .webp";
    } else if (path.starts_with("..") || std::filesystem::path{written}.is_absolute()) {
      wrong.code = Code::picture_missing;
      wrong.message = fmt::format("`{}` lies outside the knowledge base", written);
      wrong.help = "move the picture below the knowledge base and give its path from this file's folder";
    } else if (!input.sources.assets.contains(path)) {
      wrong.code = Code::picture_missing;
      wrong.message = fmt::format("there is no picture `{}`", path);
      const std::vector<std::string_view> known(input.sources.assets.begin(), input.sources.assets.end());
      const auto near = near_names(path, known);
      wrong.help = near.empty() ? "the path is counted from the folder of this file" : did_you_mean(near);
    } else {
      continue;
    }
    out.report(std::move(wrong));
  }
}

} // namespace coeval
