#include "links/asset_path.hpp"

#include <filesystem>

namespace coeval {

std::string asset_path(const SourceSet& sources, const Field& field) {
  const std::filesystem::path folder = std::filesystem::path{sources[field.place.file].path()}.parent_path();
  return (folder / std::string_view{std::get<Words>(field.value).front().text}).lexically_normal().generic_string();
}

} // namespace coeval
